#include <algorithm>
#include <cmath>
#include <limits>

#include "stat/interval.hpp"
#include "tending/field_workings.hpp"

namespace wildling::tending {
namespace {

using In = std::span<const double>;

int whole(double value) {
  return static_cast<int>(std::lround(value));
}

double rounded_up(double value) {
  return std::ceil(value - 1e-9);
}

/// full height, cut height, growth, walked height, wet months
double walked_cover(In in) {
  const CoverRule rule = {in[0], in[1], in[2]};
  return height_after(rule, months_to(rule, in[3]).value_or(0) + in[4]);
}

/// cover, three heights, three numbers of living, climbed share, spread
double at_risk(In in) {
  return trees_at_risk(in[0], {in[1], in[2], in[3]}, {in[4], in[5], in[6]}, in[7], in[8]);
}

/// first month (12 x year + month - 1), then the balances: first month below 0, or 0
double runs_out(In in) {
  for (std::size_t i = 1; i < in.size(); ++i) {
    if (in[i] < 0) return in[0] + static_cast<double>(i) - 1;
  }
  return 0;
}

double per(In in) {
  return in[1] > 0 ? in[0] / in[1] : std::numeric_limits<double>::infinity();
}

/// work days, then person-days
double people(In in) {
  double sum = 0;
  for (std::size_t i = 1; i < in.size(); ++i) sum += in[i];
  return rounded_up(sum / in[0]);
}

}  // namespace

const Formulas& field_formulas() {
  static const Formulas all = {
      {"tending.walked_cover",
       "logistic curve through the walked height, on to the end of the look-ahead",
       "logistic regrowth", walked_cover},
      {"tending.trees_at_risk", "sum of living x max(P(height < cover), climbed share)",
       "normal heights, assumed", at_risk},
      {"tending.quotient", "a / b", "", per},
      {"tending.own_rate", "quantity / days", "ILO (1993) section 8.4: keep own norms", per},
      {"tending.shrunk_rate", "(quantity + book x weight) / (days + weight)",
       "shrinkage to the book", [](In in) { return (in[0] + in[2] * in[3]) / (in[1] + in[3]); }},
      {"tending.carries", "trees / (load / weight of a seedling)", "",
       [](In in) { return in[0] / (in[1] / in[2]); }},
      {"tending.crates", "a / b, rounded up", "", [](In in) { return rounded_up(in[0] / in[1]); }},
      {"tending.load", "trees x kg / 1,000", "", [](In in) { return in[0] * in[1] / 1000; }},
      {"tending.crew_planting_days",
       "trees / rate x slope factor x (1 + 1 / planters per distributor)",
       "ILO (1993) sections 4 and 8.4",
       [](In in) { return in[0] / in[1] * (in[2] * (1 + 1 / in[3])); }},
      {"tending.people", "person-days / working days, rounded up", "", people},
      {"tending.wilson_low", "Wilson's lower limit, 95 %", "Wilson (1927)",
       [](In in) { return stat::wilson(whole(in[0]), whole(in[1])).low; }},
      {"tending.wilson_high", "Wilson's upper limit, 95 %", "Wilson (1927)",
       [](In in) { return stat::wilson(whole(in[0]), whole(in[1])).high; }},
      {"tending.balance", "balance before + in - out", "",
       [](In in) { return in[0] + in[1] - in[2]; }},
      {"tending.runs_out", "first month with a balance below 0 (12 x year + month - 1; 0: never)",
       "", runs_out},
  };
  return all;
}

}  // namespace wildling::tending
