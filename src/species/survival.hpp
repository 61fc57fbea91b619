#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/parameters.hpp"
#include "base/workings.hpp"
#include "species/candidate.hpp"

/// Expected survival of planted seedlings.
///
/// One published curve gives the time course, one number per species and kind of ground the level:
///   S(t) = B(t)^k,   k = ln S_r / ln B(t_r)                                   (proportional
///   hazards)
/// B: Banin et al. 2023 (176 sites in tropical Asia): 18 % dead in year 1, 44 % by year 5, constant
/// hazard within year 1, within years 2 to 5, and on at that rate after; S_r at age t_r: the
/// reference. The reference is, first that exists: the programme's own count or word for the
/// species; published survival of the species; the published or assumed level of its group.
namespace wildling::species {

/// Published survival of one species at one place: data/species/survival.csv.
struct PublishedSurvival {
  std::string species;  ///< accepted scientific name
  bool under_cover = false;
  std::string habitat;  ///< as the source calls it
  double age_months = 0;
  double alive_pct = 0;
  std::string source;
};

enum class SurvivalFrom { own, species, group };

/// Expected share alive, with the reference it stands on.
struct Survival {
  double share = 0;  ///< in [0, 1]
  double low = 0;    ///< share if the level were at the low end of what was published (not an
                     ///< interval of confidence)
  double high = 0;
  double age_months = 0;
  bool under_cover = false;
  SurvivalFrom from = SurvivalFrom::group;
  Origin origin = Origin::assumed;  ///< of the reference
  double reference_share = 0;       ///< S_r
  double reference_age_months = 0;  ///< t_r
  bool beyond_published_age =
      false;  ///< t above 60 months: the rate of years 2 to 5 is assumed to hold on
  std::string source;
  std::string parameter;  ///< key of the parameter that gave the reference, if one did
};

/// B(t), t >= 0 months. @throws Error{input} for a negative or NaN age
double pooled_share_alive(double age_months, const Parameters& parameters);

/// S(t) from a reference. S_r = 1 gives 1 up to t_r and the pooled curve's losses after it (a count
/// of "none dead" cannot promise that none will die); S_r = 0 gives 0 for t > 0.
/// @param reference_share in [0, 1]; reference_age_months > 0
/// @throws Error{input} when an argument is outside its range or NaN
double share_alive(double age_months, double reference_share, double reference_age_months,
                   const Parameters& parameters);

/// Expected survival of a candidate at an age in the open or under cover.
/// @throws Error{input} when the age is not in (0, 600] months or own survival is not in [0, 100] %
Survival expected_survival(const Candidate& candidate, bool under_cover, double age_months,
                           std::span<const PublishedSurvival> published,
                           const Parameters& parameters);

/// Adds survival and its inputs to the workings.
/// @param key  "block/…/survival": unique; the share's node; inputs get keys below it
/// @return key
std::string add_survival(Workings& workings, const std::string& key,
                         const std::string& species_name, const Survival& survival,
                         const Parameters& parameters);

const Formulas& formulas();

}  // namespace wildling::species
