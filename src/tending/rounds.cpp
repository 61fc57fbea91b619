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

/// First day on which the cover, cut on `cut`, reaches the due share of the trees' height.
std::optional<Date> overtopping(const BlockCare& block, const BlockRounds& result, Date cut,
                                Date end, const std::array<double, 12>& wet,
                                const Parameters& parameters) {
  const double share = parameters.value("tending.due_share");
  double months = 0;
  for (Date day = cut; day < end; day += days(1)) {
    const double tree = tree_height_m(result.slowest, block.planting_first, day, parameters);
    if (tree * share >= result.rule.full_height_m) return {};
    if (height_after(result.rule, months) >= share * tree) return day;
    months += 12 / 365.25 * wet[month_of(day) - 1];
  }
  return {};
}

/// Moves a round out of the days on which clearing is too late.
RoundRule keep_clear_of_drought(Date& due, Date last, const DrySeason& dry,
                                const Parameters& parameters) {
  if (!dry.exists()) return RoundRule::overtopping;
  const days late = days_of("tending.late_clearing_days", parameters);
  const Date start = dry_start(dry, due);  // the season `due` lies in, or the next
  if (due < start - late) return RoundRule::overtopping;
  const Date early = start - late - days(1);
  if (early >= last + days_of("tending.least_gap_days", parameters)) {
    due = early;
    return RoundRule::before_dry_season;
  }
  due = dry_end(dry, start);
  return RoundRule::held_over_dry_season;
}

void add_round(BlockRounds& result, const BlockCare& block, Date due, Date cut, RoundRule rule,
               const std::array<double, 12>& wet, const Parameters& parameters) {
  result.rounds.push_back({static_cast<int>(result.rounds.size()) + 1, due, rule,
                           height_after(result.rule, wet_months(cut, due, wet)),
                           tree_height_m(result.slowest, block.planting_first, due, parameters)});
}

/// As soon as planting ends, or earlier where the cover overtops what was planted first.
Date first_round(BlockRounds& result, const BlockCare& block, Date cleared, Date end,
                 const std::array<double, 12>& wet, const Parameters& parameters) {
  const Date after = block.planting_last + days_of("tending.first_round_days", parameters);
  const auto reached = overtopping(block, result, cleared, end, wet, parameters);
  const bool sooner = reached && *reached < after;
  const Date due = sooner ? std::max(*reached, block.planting_first) : after;
  add_round(result, block, due, cleared,
            sooner ? RoundRule::overtopping : RoundRule::after_planting, wet, parameters);
  return due;
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
  const double dry_mm = parameters.value("climate.month.dry_mm");
  std::array<bool, 12> dry{};
  DrySeason season;
  for (std::size_t i = 0; i < 12; ++i) {
    const bool known = normals[i].years > 0 && std::isfinite(normals[i].rain_mean_mm);
    dry[i] = known && normals[i].rain_mean_mm < dry_mm;
    if (known && (season.driest_month == 0 ||
                  normals[i].rain_mean_mm <
                      normals[static_cast<std::size_t>(season.driest_month - 1)].rain_mean_mm)) {
      season.driest_month = static_cast<int>(i) + 1;
    }
  }
  for (std::size_t start = 0; start < 12; ++start) {
    if (!dry[start] || (dry[(start + 11) % 12] && std::count(dry.begin(), dry.end(), true) < 12))
      continue;
    std::vector<int> run;
    for (std::size_t k = 0; k < 12 && dry[(start + k) % 12]; ++k)
      run.push_back(static_cast<int>((start + k) % 12) + 1);
    if (run.size() > season.months.size()) season.months = run;
  }
  return season;
}

Date dry_start(const DrySeason& season, Date day) {
  const auto first = static_cast<unsigned>(season.months.front());
  for (int year = year_of(day) - 1;; ++year) {
    const Date start = make_date(year, first, 1);
    if (dry_end(season, start) > day) return start;
  }
}

Date dry_end(const DrySeason& season, Date start) {
  return add_months(start, static_cast<int>(season.months.size()));
}

BlockRounds rounds(const BlockCare& block, double years,
                   const std::array<climate::MonthNormal, 12>& normals,
                   const Parameters& parameters) {
  check(block, years);
  BlockRounds result;
  result.block = block.block;
  result.slowest = slowest_group(block.planted_by_group, parameters);
  result.rule = cover_rule(block.cover, parameters);
  if (block.own_growth_per_month) result.rule.growth_per_month = *block.own_growth_per_month;
  result.ring_share =
      ring_share(block.planted() / block.area_ha, parameters.value("tending.ring_diameter_m"));
  const DrySeason dry = dry_season(normals, parameters);
  const std::array<double, 12> wet = wetness(normals, parameters);
  const Date end = block.planting_first + days(static_cast<int>(std::lround(years * 365.25)));
  const Date cleared = block.planting_first - days_of("tending.cleared_days_before", parameters);
  Date last = first_round(result, block, cleared, end, wet, parameters);
  while (true) {
    const auto reached = overtopping(block, result, last, end, wet, parameters);
    if (!reached) break;
    Date due = std::max(*reached, last + days_of("tending.least_gap_days", parameters));
    const RoundRule rule = keep_clear_of_drought(due, last, dry, parameters);
    if (due >= end) break;
    add_round(result, block, due, last, rule, wet, parameters);
    last = due;
  }
  for (Date day = block.planting_first; day < end; day += days(1)) {
    if (tree_height_m(result.slowest, block.planting_first, day, parameters) *
            parameters.value("tending.due_share") <
        result.rule.full_height_m) {
      continue;
    }
    result.trees_free = day;
    break;
  }
  say_notes(result, block, dry);
  return result;
}

}  // namespace wildling::tending
