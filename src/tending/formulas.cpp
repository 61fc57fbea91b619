// The evaluators of this room's formulas. Order of inputs of a round's day: see read_rule.
#include <algorithm>
#include <cmath>

#include "tending/field_workings.hpp"
#include "tending/norms.hpp"
#include "tending/round_rule.hpp"
#include "tending/tending_workings.hpp"

namespace wildling::tending {
namespace {

using In = std::span<const double>;
using std::chrono::days;

int whole(double value) {
  return static_cast<int>(std::lround(value));
}

/// full height, cut height, growth, tree height at planting, tree growth, due share, least gap,
/// late clearing, wet month, dry month, 12 months of rain, first planting day (days since
/// 1970-01-01)
constexpr std::size_t kRule = 23;

RoundNumbers read_rule(In in) {
  RoundNumbers n;
  n.cover = {in[0], in[1], in[2]};
  n.tree_at_planting_m = in[3];
  n.tree_growth_m_year = in[4];
  n.due_share = in[5];
  n.least_gap_days = whole(in[6]);
  n.late_clearing_days = whole(in[7]);
  n.wet_month_mm = in[8];
  n.dry_month_mm = in[9];
  std::copy_n(in.begin() + 10, 12, n.rain_mm.begin());
  return n;
}

Date planted_day(In in) {
  return Date(days(whole(in[22])));
}

/// rule, cleared (days before planting), first_round_days, planting days, end (days after planting)
double first_round_day(In in) {
  const Date planted = planted_day(in);
  const Date after = planted + days(whole(in[kRule + 2]) - 1 + whole(in[kRule + 1]));
  const auto round = first_round(read_rule(in), planted, planted - days(whole(in[kRule])), after,
                                 planted + days(whole(in[kRule + 3])));
  return static_cast<double>((round.first - planted).count());
}

/// rule, day of the last round, end
double next_round_day(In in) {
  const Date planted = planted_day(in);
  const auto round = next_round(read_rule(in), planted, planted + days(whole(in[kRule])),
                                planted + days(whole(in[kRule + 1])));
  return round ? static_cast<double>((round->first - planted).count()) : std::nan("");
}

/// rule, day of this round, day of the last one (negative: days before planting)
double cover_at_round(In in) {
  const RoundNumbers n = read_rule(in);
  const Date planted = planted_day(in);
  return height_after(n.cover, wet_months(n, planted + days(whole(in[kRule + 1])),
                                          planted + days(whole(in[kRule]))));
}

/// tree height at planting, growth, day
double tree_at_round(In in) {
  return in[0] + in[2] / 365.25 * in[1];
}

double sum(In in) {
  double value = 0;
  for (const double x : in) value += x;
  return value;
}

double product(In in) {
  double value = 1;
  for (const double x : in) value *= x;
  return value;
}

/// slope, free, per degree, most
double slope(In in) {
  return std::min(1 + std::max(0.0, in[0] - in[1]) * in[2], in[3]);
}

/// trees, area, diameter
double ring_m2(In in) {
  return in[1] * 10000 * ring_share(in[0] / in[1], in[2]);
}

Formulas joined_with_field(Formulas formulas) {
  const Formulas& field = field_formulas();
  formulas.insert(formulas.end(), field.begin(), field.end());
  return formulas;
}

}  // namespace

const Formulas& formulas() {
  static const Formulas all = joined_with_field({
      {"tending.sum", "sum of all inputs", "", sum},
      {"tending.product", "product of all inputs", "", product},
      {"tending.slope_factor", "min(1 + max(0, slope - free) x per degree, most)", "assumed",
       slope},
      {"tending.ring_share", "n pi d^2 / 4, n stems per m2, at most 1", "geometry",
       [](In in) { return ring_share(in[0] / in[1], in[2]); }},
      {"tending.ring_m2", "area x n pi d^2 / 4", "geometry", ring_m2},
      {"tending.line_m2", "area x width / row spacing, at most the area", "geometry",
       [](In in) { return in[0] * 10000 * line_share(in[1], in[2]); }},
      {"tending.area_m2", "hectares x 10,000", "", [](In in) { return in[0] * 10000; }},
      {"tending.between_rings_m2", "area - area of rings", "geometry",
       [](In in) { return in[1] * 10000 - ring_m2(in); }},
      {"tending.days", "quantity / rate x slope factor", "ILO (1993) section 8.4",
       [](In in) { return in[0] / in[1] * in[2]; }},
      {"tending.plant_days", "trees / rate x (1 + 1 / planters per distributor) x slope factor",
       "ILO (1993) sections 4 and 8.4",
       [](In in) { return in[0] / in[1] * (1 + 1 / in[3]) * in[2]; }},
      {"tending.carry_days", "trees / (load / weight of a seedling) / carries a day x slope factor",
       "load over weight", [](In in) { return in[0] / (in[3] / in[4]) / in[1] * in[2]; }},
      {"tending.firebreak_days", "length x width / rate x slope factor",
       "Friday et al. (1999) section 3.3", [](In in) { return in[0] * in[3] / in[1] * in[2]; }},
      {"tending.refill_days",
       "refilled trees x work of a first planting per tree x times x slope factor",
       "ILO (1993) Appendix 3",
       [](In in) {
         const double each = 1 / in[2] * (1 + 1 / in[3]) + 1 / (in[4] / in[5]) / in[6] + 1 / in[7];
         return each * (in[0] * in[8]) * in[1];
       }},
      {"tending.first_round",
       "planting's end + days, or earlier when the cover overtops what was planted first",
       "ILO (1993) section 6.1; logistic regrowth", first_round_day},
      {"tending.next_round", "first day with cover >= share x tree height, clear of the dry season",
       "ILO (1993) section 6.1; logistic regrowth", next_round_day},
      {"tending.cover_height", "H / (1 + (H/h0 - 1) exp(-r wet months))", "logistic regrowth",
       cover_at_round},
      {"tending.tree_height", "height at planting + years x growth", "", tree_at_round},
  });
  return all;
}

}  // namespace wildling::tending
