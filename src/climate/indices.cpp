#include "climate/indices.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace wildling::climate {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

// Sums of readings differ in their last bits by the order of adding; equal years must tie.
double to_the_millionth(double sum) {
  return std::round(sum * 1e6) / 1e6;
}

// Value at rank floor(0.95 (n - 1)) of the wet days.
double percentile_of_wet_days(const DailyWeather& daily, double wet_day_mm) {
  std::vector<double> wet;
  wet.reserve(daily.days());
  for (const double r : daily.rain_mm) {
    if (r >= wet_day_mm) wet.push_back(r);
  }
  if (wet.empty()) return std::numeric_limits<double>::infinity();
  const auto rank = static_cast<std::ptrdiff_t>(0.95 * static_cast<double>(wet.size() - 1));
  std::nth_element(wet.begin(), wet.begin() + rank, wet.end());
  return wet[static_cast<std::size_t>(rank)];
}

template <typename Inside>
DayRun longest(std::span<const double> rain, std::size_t begin, std::size_t end, Inside inside) {
  DayRun best;
  int run = 0;
  for (std::size_t i = begin; i < end; ++i) {
    run = inside(rain[i]) ? run + 1 : 0;
    if (run > best.days) best = {i + 1 - static_cast<std::size_t>(run), run};
  }
  return best;
}

// Readings over several days that lie inside the year.
void add_totals(YearIndices& y, const DailyWeather& daily, Date first, Date next) {
  for (const RainTotal& total : daily.totals) {
    if (total.first < first || total.last >= next) continue;
    y.totals_mm += total.total_mm;
    y.days_in_totals += static_cast<int>((total.last - total.first).count()) + 1;
  }
  y.total_mm = to_the_millionth(y.total_mm + y.totals_mm);
}

double mean_or_missing(const std::vector<double>& column, std::size_t begin, std::size_t end) {
  double sum = 0;
  int n = 0;
  for (std::size_t i = begin; i < std::min(end, column.size()); ++i) {
    if (std::isnan(column[i])) continue;
    sum += column[i];
    ++n;
  }
  return n >= 300 ? to_the_millionth(sum) / n : kMissing;
}

/// The log once more without holes, and the sums of each five days by their last.
struct Filled {
  std::vector<double> rain, five;
};

Filled filled(const DailyWeather& daily) {
  const std::size_t n = daily.days();
  Filled f{std::vector<double>(n), std::vector<double>(n)};
  for (std::size_t i = 0; i < n; ++i)
    f.rain[i] = std::isnan(daily.rain_mm[i]) ? 0 : daily.rain_mm[i];
  const double* r = f.rain.data();
  for (std::size_t i = 0; i < n && i < 4; ++i) f.five[i] = wettest_run(f.rain, i, i + 1, 5).rain_mm;
  for (std::size_t i = 4; i < n; ++i) f.five[i] = r[i - 4] + r[i - 3] + r[i - 2] + r[i - 1] + r[i];
  return f;
}

// No branch on the rain itself: half of the days would be guessed wrong.
void add_days(YearIndices& y, std::span<const double> rain, double wet) {
  int known = 0, wet_days = 0, r10 = 0, r20 = 0, dry_run = 0, wet_run = 0;
  double total = 0, on_wet = 0, very_wet = 0;
  for (const double r : rain) {
    known += r == r ? 1 : 0;
    total += r == r ? r : 0;
    on_wet += r >= wet ? r : 0;
    very_wet += r > y.r95_mm ? r : 0;
    wet_days += r >= wet ? 1 : 0;
    r10 += r >= 10 ? 1 : 0;
    r20 += r >= 20 ? 1 : 0;
    dry_run = (dry_run + 1) & -static_cast<int>(r < wet);
    wet_run = (wet_run + 1) & -static_cast<int>(r >= wet);
    y.cdd = std::max(y.cdd, dry_run);
    y.cwd = std::max(y.cwd, wet_run);
  }
  y.total_mm = total, y.r95ptot_mm = very_wet, y.r10 = r10, y.r20 = r20;
  y.missing_days -= known;
  y.prcptot_mm = to_the_millionth(on_wet);
  y.sdii_mm = wet_days > 0 ? y.prcptot_mm / wet_days : kMissing;
}

// Four maxima side by side, then the first place of the largest.
WettestRun largest(const std::vector<double>& sums, std::size_t begin, std::size_t end) {
  std::array<double, 4> most = {sums[begin], sums[begin], sums[begin], sums[begin]};
  std::size_t i = begin;
  for (; i + 4 <= end; i += 4) {
    for (std::size_t k = 0; k < 4; ++k) most[k] = std::max(most[k], sums[i + k]);
  }
  for (; i < end; ++i) most[0] = std::max(most[0], sums[i]);
  const double value = std::max(std::max(most[0], most[1]), std::max(most[2], most[3]));
  for (i = begin; sums[i] != value;) ++i;
  return {value, i};
}

struct YearRules {
  double r95 = 0, wet = 0, missing_most = 0;
};

YearIndices one_year(const DailyWeather& daily, const Filled& sums, int year,
                     const YearRules& rules) {
  YearIndices y;
  y.year = year;
  y.r95_mm = rules.r95;
  const Date first = make_date(year, 1, 1), next = make_date(year + 1, 1, 1);
  const std::size_t begin = daily.index(first).value_or(0);
  const std::size_t end = daily.index(next).value_or(daily.days());
  y.missing_days = static_cast<int>((next - first).count());
  add_days(y, std::span(daily.rain_mm).subspan(begin, end - begin), rules.wet);
  add_totals(y, daily, first, next);
  y.judged = y.missing_days <= rules.missing_most;
  y.total_judged = y.missing_days - y.days_in_totals <= rules.missing_most;
  const WettestRun one = largest(sums.rain, begin, end), five = largest(sums.five, begin, end);
  y.rx1day_mm = one.rain_mm, y.rx1day = daily.day(one.last);
  y.rx5day_mm = five.rain_mm, y.rx5day = daily.day(five.last);
  y.tmax_mean_c = mean_or_missing(daily.tmax_c, begin, end);
  y.tmin_mean_c = mean_or_missing(daily.tmin_c, begin, end);
  return y;
}

TrendVerdict verdict_of(const TrendResult& r, const std::vector<double>& values,
                        const Parameters& p) {
  if (r.p < p.value("climate.index.p"))
    return r.test.s > 0 ? TrendVerdict::rising : TrendVerdict::falling;
  double sum = 0;
  int n = 0;
  for (const double v : values) {
    if (!std::isnan(v)) sum += std::abs(v), ++n;
  }
  const double matters = p.value("climate.index.change_that_matters") * sum / std::max(1, n) / 10;
  const bool small = r.slope.low > -matters && r.slope.high < matters;
  return small ? TrendVerdict::no_change : TrendVerdict::cannot_tell;
}

Message line_of(const TrendResult& r) {
  const std::map<std::string, Argument> arguments = {{"what", r.what},
                                                     {"years", std::int64_t{r.years}},
                                                     {"slope", 10 * r.slope.slope},
                                                     {"low", 10 * r.slope.low},
                                                     {"high", 10 * r.slope.high}};
  switch (r.verdict) {
    case TrendVerdict::rising:
      return say("climate.trend_rising", arguments);
    case TrendVerdict::falling:
      return say("climate.trend_falling", arguments);
    case TrendVerdict::no_change:
      return say("climate.trend_none", arguments);
    case TrendVerdict::cannot_tell:
      break;
  }
  return say("climate.trend_cannot_tell", arguments);
}

}  // namespace

double rain_on_wet_days_mm(std::span<const double> rain_mm, double wet_day_mm) {
  double sum = 0;
  for (const double r : rain_mm) sum += r >= wet_day_mm ? r : 0;
  return sum;
}

double rain_per_wet_day_mm(std::span<const double> rain_mm, double wet_day_mm) {
  const int days = days_at_least(rain_mm, wet_day_mm);
  return days > 0 ? rain_on_wet_days_mm(rain_mm, wet_day_mm) / days : kMissing;
}

int days_at_least(std::span<const double> values, double limit) {
  return static_cast<int>(
      std::count_if(values.begin(), values.end(), [&](double v) { return v >= limit; }));
}

DayRun longest_dry_run(std::span<const double> rain_mm, std::size_t begin, std::size_t end,
                       double wet_day_mm) {
  return longest(rain_mm, begin, end, [&](double r) { return r < wet_day_mm; });
}

DayRun longest_wet_run(std::span<const double> rain_mm, std::size_t begin, std::size_t end,
                       double wet_day_mm) {
  return longest(rain_mm, begin, end, [&](double r) { return r >= wet_day_mm; });
}

WettestRun wettest_run(std::span<const double> rain_mm, std::size_t begin, std::size_t end,
                       int days) {
  WettestRun best{-1, begin};
  const auto w = static_cast<std::size_t>(days);
  const auto rain = [&](std::size_t i) { return std::isnan(rain_mm[i]) ? 0 : rain_mm[i]; };
  for (std::size_t i = begin; i < end; ++i) {
    if (w == 1) {
      if (rain(i) > best.rain_mm) best = {rain(i), i};
      continue;
    }
    double sum = 0;
    for (std::size_t j = i + 1 >= w ? i + 1 - w : 0; j <= i; ++j) sum += rain(j);
    if (sum > best.rain_mm) best = {sum, i};
  }
  return best;
}

std::vector<YearIndices> year_indices(const DailyWeather& daily, const Parameters& parameters) {
  std::vector<YearIndices> years;
  if (daily.days() == 0) return years;
  YearRules rules{0, parameters.value("climate.rain.wet_day_mm"),
                  parameters.value("climate.index.missing_days_most")};
  rules.r95 = percentile_of_wet_days(daily, rules.wet);
  const Filled sums = filled(daily);
  for (int year = year_of(daily.first); year <= year_of(daily.last()); ++year)
    years.push_back(one_year(daily, sums, year, rules));
  return years;
}

TrendResult trend_of(std::string what, const std::vector<int>& years,
                     const std::vector<double>& values, const Parameters& p) {
  TrendResult r;
  r.what = std::move(what);
  r.years = static_cast<int>(
      std::count_if(values.begin(), values.end(), [](double v) { return !std::isnan(v); }));
  const double needed = p.value("climate.index.years_for_trend");
  if (r.years < needed) {
    r.refused = say("climate.trend_refused",
                    {{"what", r.what}, {"years", std::int64_t{r.years}}, {"needed", needed}});
    r.first_line = *r.refused;
    return r;
  }
  const std::vector<double> t(years.begin(), years.end());
  r.test = stat::mann_kendall(values);
  r.slope = stat::sen_slope(t, values);
  r.serial =
      stat::hamed_rao(values, r.slope.slope, static_cast<int>(p.value("climate.index.lags")));
  r.p = r.serial.factor > 1 ? r.serial.p : r.test.p;
  r.break_test = stat::pettitt(values);
  if (r.break_test.p < p.value("climate.index.p")) {
    int seen = 0;
    for (std::size_t i = 0; i < values.size() && !r.break_after_year; ++i) {
      if (!std::isnan(values[i]) && ++seen == r.break_test.change_after)
        r.break_after_year = years[i];
    }
  }
  r.verdict = verdict_of(r, values, p);
  r.first_line = line_of(r);
  return r;
}

std::vector<TrendResult> trends(const std::vector<YearIndices>& all, const Parameters& parameters) {
  std::vector<int> years;
  for (const YearIndices& y : all) years.push_back(y.year);
  std::vector<TrendResult> results;
  const auto add = [&](const char* what, auto&& value) {
    std::vector<double> values;
    for (const YearIndices& y : all) values.push_back(value(y));
    const bool temperature = what[0] == 't' && what[1] == 'm';
    if (temperature &&
        std::all_of(values.begin(), values.end(), [](double v) { return std::isnan(v); }))
      return;
    results.push_back(trend_of(what, years, values, parameters));
  };
  const auto judged = [](const YearIndices& y, double v) { return y.judged ? v : kMissing; };
  add("total", [](const YearIndices& y) { return y.total_judged ? y.total_mm : kMissing; });
  add("rx1day", [&](const YearIndices& y) { return judged(y, y.rx1day_mm); });
  add("cdd", [&](const YearIndices& y) { return judged(y, y.cdd); });
  add("sdii", [&](const YearIndices& y) { return judged(y, y.sdii_mm); });
  add("tmax", [](const YearIndices& y) { return y.tmax_mean_c; });
  add("tmin", [](const YearIndices& y) { return y.tmin_mean_c; });
  return results;
}

}  // namespace wildling::climate
