#pragma once
/// When do the rains begin and end? Several published definitions side by side, because they
/// disagree; and none of them where no season can be told from rain: the rules were made for
/// monsoon lands.
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/normals.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// Index of a day, or nothing; `unknown` when missing days stood in the way of an answer.
struct SeasonDay {
  std::optional<std::size_t> day;
  bool unknown = false;
};

/// First day on which the rain of `wet_days` days reaches `amount_mm` and no run of `dry_days` days
/// below `dry_mm` lies in the `look_days` days after it. Sivakumar (1988), Agric. For. Meteorol.
/// 42:295: 20 mm in 3 days, 7 dry days in
/// 30. Stern, Dennett & Dale (1982), Exp. Agric. 18:223: 20 mm in 2 days, 10 dry days in 30.
struct OnsetRule {
  int wet_days = 3;
  double amount_mm = 20;
  int dry_days = 7;
  int look_days = 30;
  double dry_mm = 1;
};

/// The two rules with the programme's amounts.
OnsetRule sivakumar_rule(const Parameters& parameters);
OnsetRule stern_rule(const Parameters& parameters);

SeasonDay onset_after_spell(std::span<const double> rain_mm, std::size_t from,
                            const OnsetRule& rule);

/// First day of the first `dry_days` days on end below `dry_mm` (Sivakumar 1988: 20 days). Missing
/// days break a run.
SeasonDay end_by_dry_run(std::span<const double> rain_mm, std::size_t from, int dry_days,
                         double dry_mm);

/// First day on which the rain since `from` reaches `amount_mm`: Morris & Zandstra (1979): 200 mm
/// from 1 April.
SeasonDay onset_by_sum(std::span<const double> rain_mm, std::size_t from, double amount_mm);

/// Liebmann & Marengo (2001), J. Climate 14:4308: the sum of rain less its yearly mean is lowest
/// the day before the onset and highest on the last day. Missing counts as the mean.
struct RainyStretch {
  std::size_t onset = 0, end = 0;
};

RainyStretch anomalous_accumulation(std::span<const double> rain_mm, double daily_mean_mm);

enum class OnsetDefinition { sivakumar, stern, accumulated, anomaly };
inline constexpr std::size_t kOnsetDefinitions = 4;

struct SeasonYear {
  Date start = {};  ///< first day of the search
  std::array<std::optional<Date>, kOnsetDefinitions>
      onset;  ///< by OnsetDefinition; empty = none or unknown
  std::optional<Date> end_dry_run, end_anomaly;
};

/// Onsets of one definition over the years that have one, in days after the start of the search.
struct OnsetSpread {
  int years = 0;
  double middle = 0, earliest = 0, latest = 0;  ///< middle = median
};

struct SeasonResult {
  bool season_told = false;  ///< false: no season can be told from rain; `years` is empty
  double seasonality =
      0;  ///< Walsh & Lawler (1981) index: sum |month - year/12| / year; NaN if unknown
  int dry_months = 0;           ///< months with a mean below climate.month.dry_mm
  std::vector<int> wet_months;  ///< months above the mean, in order from the driest
  unsigned start_month = 1;     ///< middle of the driest three months: searches begin there
  std::vector<SeasonYear> years;
  std::array<OnsetSpread, kOnsetDefinitions> spread;  ///< by OnsetDefinition
  Message first_line;
};

/// Walsh & Lawler's index of twelve monthly means, the month in the middle of the driest three (1
/// to 12), and the mean rain of a day.
double seasonality_index(std::span<const double> month_means_mm);
unsigned driest_middle_month(std::span<const double> month_means_mm);
double mean_daily_rain_mm(std::span<const double> month_means_mm);

SeasonResult seasons(const WeatherBook& book, const Parameters& parameters);

}  // namespace wildling::climate
