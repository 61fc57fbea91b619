#include "tending/round_rule.hpp"

#include <algorithm>
#include <cmath>

namespace wildling::tending {
namespace {

using std::chrono::days;

constexpr double kMonthsPerDay = 12 / 365.25;

/// Months of full growth in one day.
double growth_of(const RoundNumbers& numbers, Date day) {
  return kMonthsPerDay *
         std::clamp(numbers.rain_mm[month_of(day) - 1] / numbers.wet_month_mm, 0.0, 1.0);
}

/// Moves a round out of the days on which clearing is too late.
RoundRule keep_clear_of_drought(Date& due, Date last, const RoundNumbers& numbers) {
  const DrySeason dry = dry_season({numbers.rain_mm, {}}, numbers.dry_month_mm);
  if (!dry.exists()) return RoundRule::overtopping;
  const days late(numbers.late_clearing_days);
  const Date start = dry_start(dry, due);
  if (due < start - late) return RoundRule::overtopping;
  const Date early = start - late - days(1);
  if (early >= last + days(numbers.least_gap_days)) {
    due = early;
    return RoundRule::before_dry_season;
  }
  due = dry_end(dry, start);
  return RoundRule::held_over_dry_season;
}

}  // namespace

RainByMonth rain_by_month(const std::array<climate::MonthNormal, 12>& normals,
                          const Parameters& parameters) {
  const double wet =
      std::max(parameters.value("tending.wet_month_mm"), parameters.value("climate.month.dry_mm"));
  RainByMonth rain;
  for (std::size_t i = 0; i < 12; ++i) {
    rain.known[i] = normals[i].years > 0 && std::isfinite(normals[i].rain_mean_mm);
    rain.mm[i] = rain.known[i] ? normals[i].rain_mean_mm : wet;
  }
  return rain;
}

DrySeason dry_season(const RainByMonth& rain, double dry_mm) {
  std::array<bool, 12> dry{};
  DrySeason season;
  for (std::size_t i = 0; i < 12; ++i) {
    dry[i] = rain.mm[i] < dry_mm;
    if (!rain.known[i]) continue;
    const bool drier = season.driest_month == 0 ||
                       rain.mm[i] < rain.mm[static_cast<std::size_t>(season.driest_month - 1)];
    if (drier) season.driest_month = static_cast<int>(i) + 1;
  }
  const bool all_dry = std::count(dry.begin(), dry.end(), true) == 12;
  for (std::size_t start = 0; start < 12; ++start) {
    if (!dry[start] || (dry[(start + 11) % 12] && !all_dry)) continue;
    std::vector<int> run;
    for (std::size_t k = 0; k < 12 && dry[(start + k) % 12]; ++k) {
      run.push_back(static_cast<int>((start + k) % 12) + 1);
    }
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

double wet_months(const RoundNumbers& numbers, Date from, Date to) {
  double sum = 0;
  for (Date day = from; day < to; day += days(1)) sum += growth_of(numbers, day);
  return sum;
}

double tree_height_m(const RoundNumbers& numbers, Date planted, Date day) {
  const double years = std::max(0.0, static_cast<double>((day - planted).count()) / 365.25);
  return numbers.tree_at_planting_m + years * numbers.tree_growth_m_year;
}

std::optional<Date> overtopping_day(const RoundNumbers& numbers, Date planted, Date cut, Date end) {
  double months = 0;
  for (Date day = cut; day < end; day += days(1)) {
    const double due_m = numbers.due_share * tree_height_m(numbers, planted, day);
    if (due_m >= numbers.cover.full_height_m) return {};
    if (height_after(numbers.cover, months) >= due_m) return day;
    months += growth_of(numbers, day);
  }
  return {};
}

std::optional<std::pair<Date, RoundRule>> next_round(const RoundNumbers& numbers, Date planted,
                                                     Date last, Date end) {
  const auto reached = overtopping_day(numbers, planted, last, end);
  if (!reached) return {};
  Date due = std::max(*reached, last + days(numbers.least_gap_days));
  const RoundRule rule = keep_clear_of_drought(due, last, numbers);
  if (due >= end) return {};
  return std::pair{due, rule};
}

std::pair<Date, RoundRule> first_round(const RoundNumbers& numbers, Date planted, Date cleared,
                                       Date after_planting, Date end) {
  const auto reached = overtopping_day(numbers, planted, cleared, end);
  if (!reached || *reached >= after_planting) return {after_planting, RoundRule::after_planting};
  return {std::max(*reached, planted), RoundRule::overtopping};
}

}  // namespace wildling::tending
