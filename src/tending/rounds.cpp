#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "tending/care.hpp"

namespace wildling::tending {
namespace {

using std::chrono::days;

days days_of(std::string_view key, const Parameters& parameters) {
  return days(static_cast<int>(std::lround(parameters.value(key))));
}

void check(const BlockCare& block, double years) {
  const bool possible = block.planted() > 0 && block.area_ha > 0 &&
                        block.planting_last >= block.planting_first && block.row_spacing_m > 0 &&
                        block.firebreak_m >= 0 && years > 0 && years <= 30;
  if (!possible) {
    throw Error(ErrorKind::input, block.block,
                say("tending.block_impossible",
                    {{"planted", block.planted()}, {"area", block.area_ha}, {"years", years}}));
  }
}

RoundNumbers numbers_for(const BlockCare& block, species::Group slowest, const RainByMonth& rain,
                         const Parameters& parameters) {
  const auto whole = [&](std::string_view key) {
    return static_cast<int>(std::lround(parameters.value(key)));
  };
  RoundNumbers numbers;
  numbers.cover = cover_rule(block.cover, parameters);
  if (block.own_growth_per_month) numbers.cover.growth_per_month = *block.own_growth_per_month;
  numbers.tree_at_planting_m = parameters.value("tending.tree.height_at_planting_m");
  numbers.tree_growth_m_year =
      parameters.value("tending.tree.growth." + std::string(species::group_name(slowest)));
  numbers.due_share = parameters.value("tending.due_share");
  numbers.least_gap_days = whole("tending.least_gap_days");
  numbers.late_clearing_days = whole("tending.late_clearing_days");
  numbers.wet_month_mm = parameters.value("tending.wet_month_mm");
  numbers.dry_month_mm = parameters.value("climate.month.dry_mm");
  numbers.rain_mm = rain.mm;
  return numbers;
}

void add_round(BlockRounds& result, const BlockCare& block, Date due, Date cut, RoundRule rule) {
  const RoundNumbers& n = result.numbers;
  result.rounds.push_back({static_cast<int>(result.rounds.size()) + 1, due, rule,
                           height_after(n.cover, wet_months(n, cut, due)),
                           tree_height_m(n, block.planting_first, due)});
}

/// First day on which the due share of the trees' height is above the full cover.
std::optional<Date> free_day(const RoundNumbers& n, Date planted, Date end) {
  for (Date day = planted; day < end; day += days(1)) {
    if (n.due_share * tree_height_m(n, planted, day) >= n.cover.full_height_m) return day;
  }
  return {};
}

void say_notes(BlockRounds& result, const BlockCare& block, const DrySeason& dry) {
  const Date year_later = block.planting_first + days(365);
  const auto in_year_1 = std::count_if(result.rounds.begin(), result.rounds.end(),
                                       [&](const Round& r) { return r.due < year_later; });
  result.notes.push_back(
      say("tending.note.rounds_and_book", {{"rounds", static_cast<std::int64_t>(in_year_1)}}));
  if (!block.slope_deg) result.notes.push_back(say("tending.note.slope_unknown"));
  if (!dry.exists()) result.notes.push_back(say("tending.note.no_dry_season"));
  const auto held = std::count_if(result.rounds.begin(), result.rounds.end(), [](const Round& r) {
    return r.rule == RoundRule::held_over_dry_season;
  });
  if (held > 0) {
    result.notes.push_back(
        say("tending.note.held_over", {{"rounds", static_cast<std::int64_t>(held)}}));
  }
  if (result.trees_free) {
    result.notes.push_back(say("tending.note.trees_free", {{"day", *result.trees_free}}));
  } else {
    result.notes.push_back(say("tending.note.not_free"));
  }
}

}  // namespace

DrySeason dry_season(const std::array<climate::MonthNormal, 12>& normals,
                     const Parameters& parameters) {
  return dry_season(rain_by_month(normals, parameters), parameters.value("climate.month.dry_mm"));
}

BlockRounds rounds(const BlockCare& block, double years,
                   const std::array<climate::MonthNormal, 12>& normals,
                   const Parameters& parameters) {
  check(block, years);
  BlockRounds result;
  result.block = block.block;
  result.slowest = slowest_group(block.planted_by_group, parameters);
  const RainByMonth rain = rain_by_month(normals, parameters);
  result.numbers = numbers_for(block, result.slowest, rain, parameters);
  result.ring_share =
      ring_share(block.planted() / block.area_ha, parameters.value("tending.ring_diameter_m"));
  const Date planted = block.planting_first;
  result.end = planted + days(static_cast<int>(std::lround(years * 365.25)));
  result.cleared = planted - days_of("tending.cleared_days_before", parameters);
  const Date after = block.planting_last + days_of("tending.first_round_days", parameters);
  const auto first = first_round(result.numbers, planted, result.cleared, after, result.end);
  add_round(result, block, first.first, result.cleared, first.second);
  Date last = first.first;
  while (const auto next = next_round(result.numbers, planted, last, result.end)) {
    add_round(result, block, next->first, last, next->second);
    last = next->first;
  }
  result.trees_free = free_day(result.numbers, planted, result.end);
  say_notes(result, block, dry_season(rain, result.numbers.dry_month_mm));
  return result;
}

}  // namespace wildling::tending
