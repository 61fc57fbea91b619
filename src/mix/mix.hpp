#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "base/progress.hpp"
#include "species/candidate.hpp"
#include "species/survival.hpp"

/// The room `mix` answers: how many of each species on each ground type, so that enough trees live
/// at a stated age, at the least cost that the other demands leave. Inputs: ground types, the
/// programme's species with stock and prices, expected survival, demands. Sources: survival from
/// species/survival.hpp; defaults of the demands in data/parameters/mix.csv; solved as a
/// mixed-integer programme by CBC.
///
/// x[g][i] whole numbers planted, y[i] in {0,1} whether species i is used; s[g][i] share expected
/// alive.
///   minimise  sum price[i] x[g][i] + w sum_g,i ( max(0, x - E_g) + max(0, x - 2 E_g) )
///   living    sum_i s[g][i] x[g][i] >= area (target - natural)                 each ground to be
///   planted places    sum_i x[g][i] <= places                                          each ground
///   stock     sum_g x[g][i] <= ready + can raise                               where both are
///   known species   sum_i y[i] >= fewest;   fewest_each y[i] <= sum_g x[g][i] <= M_i y[i] cap
///   sum_g x[g][i] <= cap sum_g,j x[g][j]                             each species pioneers  min <=
///   share of pioneers <= max                                  min on open ground only budget sum
///   price x <= budget                                            where prices are known
/// The second term of the cost rewards an even mix: E_g is the even share of a ground's order among
/// its suitable species, w a small part of the mean price. It decides between mixes of nearly equal
/// cost.
namespace wildling::mix {

/// What one ground type needs.
struct GroundNeed {
  std::string ground_type;
  double area_ha = 0;
  double target_stems_per_ha = 0;   ///< living stems, planted and natural, at Demands::age_months
  double natural_stems_per_ha = 0;  ///< natural trees that count towards it
  double places_per_ha = 0;
  std::optional<long long> places;  ///< counted by the layout; wins over places_per_ha x area
  bool flooded = false;             ///< floods in an ordinary year
  bool under_cover = false;         ///< shade measured on the ground, not hoped for
};

struct Demands {
  double age_months = 0;          ///< age at which the living are counted
  int fewest_species = 0;         ///< over all ground types
  int fewest_each = 0;            ///< a species that is used is planted at least so often
  double pioneer_share_min = 0;   ///< of the planted on each open ground type
  double pioneer_share_max = 1;   ///< of the planted on each ground type
  double species_cap_share = 1;   ///< largest share of one species in the whole order
  std::optional<double> budget;   ///< for seedlings, in the currency of the prices
  bool only_ready = false;        ///< plant only what stands ready in the nurseries
  double spread_price_share = 0;  ///< w as a part of the mean price
  double gap = 0.01;              ///< stop when cost is within this share of the bound
  int node_limit = 20000;
  double seconds_limit = 60;  ///< safety net only: a result that met it is not repeatable
};

/// The shipped or programme's defaults.
Demands demands(const Parameters& parameters);

/// Expected survival of every candidate on one ground type.
struct SurvivalRow {
  std::vector<species::Survival> of_candidate;
};

std::vector<SurvivalRow> survival_rows(std::span<const GroundNeed> grounds,
                                       std::span<const species::Candidate> candidates,
                                       double age_months,
                                       std::span<const species::PublishedSurvival> published,
                                       const Parameters& parameters);

/// May a species go on a ground type, and if not, why.
enum class Suits {
  yes,
  left_out,       ///< the manager said so
  drowns,         ///< ground floods, the species does not stand it
  flood_unknown,  ///< ground floods, nothing is known of the species
  needs_cover,    ///< late species in the open without an own count there: waits for measured cover
  needs_light,    ///< pioneer under cover without an own count there
  none_live,      ///< none is expected to be alive
  not_counted     ///< only ready seedlings are wanted, and nobody counted this one
};

Suits suits(const GroundNeed& ground, const species::Candidate& candidate,
            const species::Survival& survival, const Demands& demands);

enum class DemandKind {
  living,
  places,
  stock,
  species,
  fewest_each,
  cap,
  pioneers_min,
  pioneers_max,
  budget,
  suitable_species
};

/// A demand that must give way, and by how much.
struct Clash {
  DemandKind kind = DemandKind::living;
  std::optional<std::size_t> ground;  ///< where it is a ground type's
  double asked = 0;                   ///< the demand as it was made
  double reachable = 0;               ///< what can be had instead
  Message message;
};

enum class Verdict { found, none_exists, not_found /* within the limits of the search */ };

struct GroundResult {
  double needed_living = 0;    ///< area (target - natural), never negative
  double expected_living = 0;  ///< of the planted
  double living_low = 0;       ///< if every species did as badly as the worst published
  double living_high = 0;
  long long planted = 0;
  long long places = 0;
  long long pioneers = 0;
  int species = 0;
};

struct Choice {
  Verdict verdict = Verdict::not_found;
  std::vector<std::vector<int>> planted;  ///< [ground][candidate]; all zero unless found
  std::vector<GroundResult> grounds;
  std::vector<std::vector<Suits>> suitability;  ///< [ground][candidate]
  long long total = 0;
  int species = 0;
  std::optional<double> cost;  ///< of the seedlings; empty when no price is known
  std::vector<double>
      price_used;  ///< per candidate: own price, else mean of the known, else 1 a seedling
  double spread_charge = 0;  ///< second term of what is minimised
  double objective = 0;      ///< cost at price_used plus spread_charge
  double bound = 0;          ///< no mix can have a lower objective (CBC)
  double gap = 0;            ///< (objective - bound) / objective
  bool proven = false;       ///< gap within what was asked
  bool repeatable = true;    ///< false when the clock ended the search
  std::vector<Clash>
      clashes;  ///< none_exists: this smallest set of concessions, taken together, works
  std::vector<Clash> alone;  ///< none_exists: each of these alone would do
  std::vector<std::vector<int>>
      nearest;                 ///< none_exists: a mix that works once `clashes` are granted
  std::vector<Message> notes;  ///< what is unknown or was assumed, sorted by weight
};

/// Chooses the mix. One thread; the same bits each time unless the clock ended the search.
/// @param survival  one row per ground, one entry per candidate
/// @throws Error{input} for numbers that cannot be (NaN, negative, shares outside 0 to 1) and for
/// an
///         empty list; Error{usage} when the sizes do not fit; Cancelled
Choice choose(std::span<const GroundNeed> grounds, std::span<const species::Candidate> candidates,
              std::span<const SurvivalRow> survival, const Demands& demands,
              const Progress& progress = {});

/// Demands lowered to what a short list can give before the search: the number of species to the
/// number of usable ones, the cap to twice their even share. Says what it changed.
struct Eased {
  Demands demands;
  std::vector<Message> said;
};

Eased ease_to_list(const Demands& demands, std::span<const GroundNeed> grounds,
                   std::span<const species::Candidate> candidates,
                   std::span<const SurvivalRow> survival);

/// Demands that a mix breaks, re-computed without the solver; empty when it keeps all.
/// Slack of 1e-6 (absolute, or relative to the demand) is allowed for rounding.
std::vector<Message> broken_demands(std::span<const GroundNeed> grounds,
                                    std::span<const species::Candidate> candidates,
                                    std::span<const SurvivalRow> survival, const Demands& demands,
                                    const std::vector<std::vector<int>>& planted);

/// Adds the choice to the workings below "mix/": planted (chosen), survival, living, shares, cost,
/// gap.
void add_workings(Workings& workings, std::span<const GroundNeed> grounds,
                  std::span<const species::Candidate> candidates,
                  std::span<const SurvivalRow> survival, const Demands& demands,
                  const Choice& choice, const Parameters& parameters);

/// Evaluators of this room's formulas (species::formulas() holds the survival's).
const Formulas& formulas();

}  // namespace wildling::mix
