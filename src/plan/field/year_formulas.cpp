#include <algorithm>
#include <cmath>

#include "plan/field/year_context.hpp"
#include "stat/interval.hpp"
#include "tending/fire.hpp"

namespace wildling::plan {
namespace {

using In = std::span<const double>;

/// wages, wages of refill, materials, materials of refill, the rest, then the factors of wage,
/// person-days and refill, person-days of watch and their wage
double bad_month(In in) {
  return (in[0] + in[1] * in[7]) * in[5] * in[6] + in[2] + in[3] * in[7] + in[4] +
         in[8] * in[9] * in[5];
}

double most_missing(In in) {
  double most = 0;
  for (const double balance : in) most = std::max(most, -balance);
  return most;
}

/// trees planted a day, planters per distributor, load, weight of a seedling, carries and pits a
/// day
double refill_days(In in) {
  return 1 / in[0] * (1 + 1 / in[1]) + 1 / (in[2] / in[3]) / in[4] + 1 / in[5];
}

/// fuel height, metres per metre of fuel
double firebreak_width(In in) {
  const auto& widths = tending::firebreak_widths();
  return std::clamp(in[0] * in[1], widths.front().low_m, widths.back().high_m);
}

}  // namespace

const Formulas& year_formulas() {
  static const Formulas all = {
      {"year.bad_month",
       "(wages + refill wages x refill) x wage x days + materials + refill materials x refill + "
       "rest + watch days x wage of the day x wage",
       "docs/money.md", bad_month},
      {"year.most_missing", "the largest balance below 0, without its sign", "", most_missing},
      {"year.difference", "a - b", "", [](In in) { return in[0] - in[1]; }},
      {"year.distributors", "person-days of planting / (1 + planters per distributor) / days, up",
       "ILO (1993) section 4", [](In in) { return std::ceil(in[0] / (1 + in[1]) / in[2] - 1e-9); }},
      {"year.firebreak_width", "fuel height x metres per metre, within 4 to 20 m",
       "published widths; docs/tending.md", firebreak_width},
      {"year.left", "max(0, a - b)", "", [](In in) { return std::max(0.0, in[0] - in[1]); }},
      {"year.watch_days", "people x hours / hours of a day", "",
       [](In in) { return in[0] * in[1] / in[2]; }},
      {"year.hundredfold", "100 x share", "", [](In in) { return 100 * in[0]; }},
      {"year.refill_days",
       "1 / planted a day x (1 + 1 / planters per distributor) + 1 / (load / weight) / carries + "
       "1 / pits",
       "docs/tending.md, person-days", refill_days},
      {"year.refill_cost", "days x times x wage + seedling", "ILO (1993) Appendix 3",
       [](In in) { return in[0] * in[1] * in[2] + in[3]; }},
      {"year.living_per_ha", "(1 - dead share) x planted / area", "",
       [](In in) { return (1 - in[0]) * in[1] / in[2]; }},
      {"year.part_of", "trees x burnt area / area", "trees spread evenly over the block",
       [](In in) { return in[0] * in[1] / in[2]; }},
      {"year.wilson_low_percent", "Wilson's lower limit, 95 %", "Wilson (1927)",
       [](In in) {
         return 100 * stat::wilson(static_cast<int>(in[0]), static_cast<int>(in[1])).low;
       }},
      {"year.wilson_high_percent", "Wilson's upper limit, 95 %", "Wilson (1927)",
       [](In in) {
         return 100 * stat::wilson(static_cast<int>(in[0]), static_cast<int>(in[1])).high;
       }},
      {"year.negated", "need = -balance", "", [](In in) { return 0 - in[0]; }},
      {"year.percent", "100 x a / b", "",
       [](In in) { return in[1] > 0 ? 100 * in[0] / in[1] : 0; }},
  };
  return all;
}

}  // namespace wildling::plan
