#include "tending/refill.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.hpp"
#include "stat/interval.hpp"
#include "tending/planting_work.hpp"

namespace wildling::tending {
namespace {

bool dead_at(const PlaceRows& rows, std::size_t row, std::size_t place) {
  return row < rows.size() && place < rows[row].size() && rows[row][place] == PlaceState::dead;
}

/// Nearest place of another row, by share of the row's length.
std::size_t beside(const PlaceRows& rows, std::size_t row, std::size_t other, std::size_t place) {
  const double share = (static_cast<double>(place) + 0.5) / static_cast<double>(rows[row].size());
  return static_cast<std::size_t>(share * static_cast<double>(rows[other].size()));
}

int dead_neighbours(const PlaceRows& rows, std::size_t row, std::size_t place) {
  int dead = 0;
  if (place > 0 && dead_at(rows, row, place - 1)) ++dead;
  if (dead_at(rows, row, place + 1)) ++dead;
  if (row > 0 && dead_at(rows, row - 1, beside(rows, row, row - 1, place))) ++dead;
  if (row + 1 < rows.size() && dead_at(rows, row + 1, beside(rows, row, row + 1, place))) ++dead;
  return dead;
}

RefillVerdict judge(const RefillAdvice& a, bool all_seen, int refills_before,
                    const Parameters& parameters) {
  const double limit = parameters.value("tending.refill.dead_share");
  if (a.looked_at == 0) return RefillVerdict::cannot_tell;
  if (!all_seen && a.share_low <= limit && a.share_high >= limit) return RefillVerdict::cannot_tell;
  if (a.dead_share <= limit || a.in_gaps == 0) return RefillVerdict::wait;
  return refills_before >= static_cast<int>(parameters.value("tending.refill.most_times"))
             ? RefillVerdict::find_the_cause
             : RefillVerdict::refill;
}

}  // namespace

std::string_view verdict_name(RefillVerdict verdict) {
  constexpr std::array<std::string_view, 4> kNames = {"refill", "wait", "find_the_cause",
                                                      "cannot_tell"};
  return kNames[static_cast<std::size_t>(verdict)];
}

RefillAdvice refill_advice(const PlaceRows& rows, int refills_before,
                           const Parameters& parameters) {
  RefillAdvice advice;
  const int least =
      static_cast<int>(std::lround(parameters.value("tending.refill.dead_neighbours")));
  int places = 0;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    int gaps = 0;
    for (std::size_t i = 0; i < rows[r].size(); ++i) {
      ++places;
      if (rows[r][i] == PlaceState::not_looked_at) continue;
      ++advice.looked_at;
      if (rows[r][i] != PlaceState::dead) continue;
      ++advice.dead;
      if (dead_neighbours(rows, r, i) >= least) ++gaps;
    }
    advice.gaps_by_row.push_back(gaps);
    advice.in_gaps += gaps;
  }
  if (advice.looked_at > 0) {
    advice.dead_share = static_cast<double>(advice.dead) / advice.looked_at;
    const stat::Interval interval = stat::wilson(advice.dead, advice.looked_at);
    advice.share_low = interval.low;
    advice.share_high = interval.high;
  }
  advice.verdict = judge(advice, advice.looked_at == places, refills_before, parameters);
  advice.first_line = say("tending.refill." + std::string(verdict_name(advice.verdict)),
                          {{"trees", static_cast<std::int64_t>(advice.in_gaps)},
                           {"percent", 100 * advice.dead_share},
                           {"low", 100 * advice.share_low},
                           {"high", 100 * advice.share_high},
                           {"n", static_cast<std::int64_t>(advice.looked_at)}});
  if (advice.verdict == RefillVerdict::refill) advice.notes.push_back(say("tending.refill.note"));
  return advice;
}

RefillCost refill_cost(int trees, double survival, const Parameters& parameters) {
  if (!(survival > 0) || survival > 1 || trees < 0) {
    throw Error(ErrorKind::input, "",
                say("tending.refill.survival_impossible", {{"percent", 100 * survival}}));
  }
  PersonDays each = planting_days_per_tree(parameters);
  each += person_days(1, rate("pits", parameters));
  RefillCost cost;
  cost.per_planted = each.used * parameters.value("tending.refill.times") *
                         parameters.value("tending.wage_per_day") +
                     parameters.value("tending.price.seedling");
  cost.per_living = cost.per_planted / survival;
  cost.all = cost.per_planted * trees;
  return cost;
}

}  // namespace wildling::tending
