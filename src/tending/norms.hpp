#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "base/message.hpp"
#include "base/parameters.hpp"

namespace wildling::tending {

enum class Job {
  clear,  ///< cover cut before planting
  mark_places,
  dig_pits,
  carry,
  plant,
  ring,
  line,
  whole,
  pressing,
  climber_cutting,
  firebreak,
  refill
};

inline constexpr int kJobs = 12;

std::string_view job_name(
    Job job);  ///< "mark_places" ...; its label is word key "tending.job.NAME"
std::optional<Job> parse_job(std::string_view name);

/// Share of the ground that rings of a diameter cover: n pi d^2 / 4 per hectare, at most 1. Rings
/// that overlap (diameter above the spacing) are counted twice, as the crew cuts them. Check:
/// 3,100/ha: 1 m rings 24 %, 1.5 m rings 55 %.
double ring_share(double stems_per_ha, double diameter_m);

/// Share of the ground in strips of a width along every row, at most 1.
double line_share(double width_m, double row_spacing_m);

/// What one person does in a day: the value used, and how far published or assumed figures go.
struct Rate {
  double per_day = 1;  ///< used
  double slow_per_day = 1;
  double fast_per_day = 1;
};

/// tending.rate.NAME, .slow and .fast, of a job or its part ("slash", "pits").
Rate rate(std::string_view name, const Parameters& parameters);

/// Person-days of a quantity at a rate.
struct PersonDays {
  double used = 0;
  double low = 0;   ///< at the fast rate
  double high = 0;  ///< at the slow rate

  PersonDays& operator+=(const PersonDays& other);
};

PersonDays person_days(double quantity, const Rate& rate);

/// Work on a slope takes longer: 1 up to tending.slope.free_deg, then tending.slope.per_deg more
/// per degree, at most tending.slope.most. 1 when the slope is not known.
double slope_factor(std::optional<double> slope_deg, const Parameters& parameters);

PersonDays operator*(PersonDays days, double factor);

/// Seedlings in one carry: load over the weight of a potted seedling.
/// Check: 20 kg at 0.84 kg are about 24.
double seedlings_per_carry(const Parameters& parameters);

/// Fertiliser in kg: trees x grams each. Off by default: the sources disagree whether it helps.
/// Check: 2,500 x 20 g = 50 kg (ILO 1993, section 4.4).
double fertiliser_kg(double trees, double grams_each);

}  // namespace wildling::tending
