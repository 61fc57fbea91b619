#pragma once
/// Yearly figures of the station after the ETCCDI definitions (wet day >= 1 mm; spells cut at the
/// year's end), and whether they change: Mann-Kendall with ties, variance widened for serial
/// correlation, Sen slope with limits, and a test for a break (Pettitt 1979), which more often
/// means a new gauge than a new climate.
#include <optional>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/weather.hpp"
#include "stat/trend.hpp"

namespace wildling::climate {

struct YearIndices {
  int year = 0;
  int missing_days = 0;
  int days_in_totals = 0;     ///< of the missing: covered by a reading over several days
  bool judged = false;        ///< a whole year with at most climate.index.missing_days_most missing
  bool total_judged = false;  ///< the same without days covered by readings over several days
  double total_mm = 0;        ///< all rain, readings over several days inside the year included
  double totals_mm = 0;       ///< rain of those readings
  double prcptot_mm = 0;      ///< rain of wet days
  double sdii_mm = 0;         ///< prcptot per wet day; NaN without wet days
  double rx1day_mm = 0, rx5day_mm = 0;  ///< most in one and in five days (by the last of the five)
  Date rx1day = {}, rx5day = {};
  int r10 = 0, r20 = 0;   ///< days with at least 10, 20 mm
  int cdd = 0, cwd = 0;   ///< longest run of days below, at least 1 mm
  double r95ptot_mm = 0;  ///< rain of days above the 95th percentile of the log's wet days
  double r95_mm = 0;      ///< that percentile; infinite without wet days
  double tmax_mean_c = 0, tmin_mean_c = 0;  ///< NaN when fewer than 300 days were read
};

/// Every calendar year that the log touches, in order.
std::vector<YearIndices> year_indices(const DailyWeather& daily, const Parameters& parameters);

/// The pieces, for a stretch [begin, end) of days.
double rain_on_wet_days_mm(std::span<const double> rain_mm, double wet_day_mm);
double rain_per_wet_day_mm(std::span<const double> rain_mm, double wet_day_mm);
int days_at_least(std::span<const double> values, double limit);

/// Longest run of days below / of at least `wet_day_mm` inside [begin, end); the first of equals. A
/// missing day ends a run.
struct DayRun {
  std::size_t first = 0;
  int days = 0;
};

DayRun longest_dry_run(std::span<const double> rain_mm, std::size_t begin, std::size_t end,
                       double wet_day_mm);
DayRun longest_wet_run(std::span<const double> rain_mm, std::size_t begin, std::size_t end,
                       double wet_day_mm);

struct WettestRun {
  double rain_mm = 0;
  std::size_t last = 0;  ///< index of its last day
};

/// Over windows of `days` that end in [begin, end); windows may reach back before begin. NaN counts
/// as 0.
WettestRun wettest_run(std::span<const double> rain_mm, std::size_t begin, std::size_t end,
                       int days);

enum class TrendVerdict { rising, falling, no_change, cannot_tell };

struct TrendResult {
  std::string what;  ///< "total", "cdd", ... : word keys climate.index_NAME
  TrendVerdict verdict = TrendVerdict::cannot_tell;
  std::optional<Message> refused;  ///< fewer years than climate.index.years_for_trend
  int years = 0;
  stat::MannKendall test;
  stat::HamedRao serial;  ///< used when its factor is above 1; a factor below 1 never makes a trend
  double p = 1;           ///< the one the verdict uses
  stat::SenSlope slope;   ///< per year
  stat::Pettitt break_test;
  std::optional<int> break_after_year;  ///< p below climate.index.p
  Message first_line;
};

/// @param values  one per year, NaN = not judged
TrendResult trend_of(std::string what, const std::vector<int>& years,
                     const std::vector<double>& values, const Parameters& parameters);
/// The trends of total, wettest day, longest dry run, wet days' rain and, where read, Tmax and
/// Tmin.
std::vector<TrendResult> trends(const std::vector<YearIndices>& years,
                                const Parameters& parameters);

}  // namespace wildling::climate
