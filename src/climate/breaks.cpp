#include "climate/breaks.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "base/exact_math.hpp"
#include "stat/student.hpp"

namespace wildling::climate {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

struct Months {
  int first_year = 0;
  std::vector<double> values = {};  // January of first_year first; NaN = not judged

  [[nodiscard]] Date day(std::size_t m) const {
    return make_date(first_year + static_cast<int>(m / 12), static_cast<unsigned>(m % 12) + 1, 1);
  }
};

struct MonthNumbers {
  double sum = 0;  // of what the kind looks at
  int used = 0, measured = 0, days = 0;
};

double month_value(const MonthNumbers& m, BreakKind kind, const Parameters& parameters) {
  const auto enough = parameters.value("climate.quality.break_wet_days_least");
  if (m.days - m.measured > parameters.value("climate.month.missing_days_most")) return kMissing;
  if (kind == BreakKind::rain_days) return static_cast<double>(m.used) / m.measured;
  if (kind == BreakKind::rain_amount && m.used < enough) return kMissing;
  return m.used > 0 ? m.sum / m.used : kMissing;
}

Months months_of(const DailyWeather& daily, Column column, BreakKind kind,
                 const Parameters& parameters) {
  const std::vector<double>& values = column_of(daily, column);
  const double wet = parameters.value("climate.rain.wet_day_mm");
  Months months;
  months.first_year = year_of(daily.first);
  for (int year = months.first_year; year <= year_of(daily.last()); ++year) {
    for (unsigned month = 1; month <= 12; ++month) {
      MonthNumbers m;
      m.days = static_cast<int>(days_in_month(year, month));
      const auto start = (make_date(year, month, 1) - daily.first).count();
      for (auto i = std::max<std::ptrdiff_t>(start, 0);
           i < std::min<std::ptrdiff_t>(start + m.days, static_cast<std::ptrdiff_t>(values.size()));
           ++i) {
        const double v = values[static_cast<std::size_t>(i)];
        if (std::isnan(v)) continue;
        ++m.measured;
        if (kind != BreakKind::level && v < wet) continue;
        ++m.used;
        m.sum += kind == BreakKind::rain_amount ? exact_log(v) : v;
      }
      months.values.push_back(m.measured > 0 ? month_value(m, kind, parameters) : kMissing);
    }
  }
  return months;
}

// Differences from the mean of the calendar month.
void take_off_season(Months& months) {
  for (std::size_t c = 0; c < 12; ++c) {
    double sum = 0;
    int n = 0;
    for (std::size_t m = c; m < months.values.size(); m += 12) {
      if (std::isnan(months.values[m])) continue;
      sum += months.values[m];
      ++n;
    }
    for (std::size_t m = c; m < months.values.size() && n > 0; m += 12) months.values[m] -= sum / n;
  }
}

void years_of(const Months& months, const Parameters& parameters, BreakResult& result) {
  for (std::size_t y = 0; y * 12 < months.values.size(); ++y) {
    double sum = 0;
    int n = 0;
    for (std::size_t m = 12 * y; m < 12 * y + 12; ++m) {
      if (std::isnan(months.values[m])) continue;
      sum += months.values[m];
      ++n;
    }
    if (n < parameters.value("climate.quality.break_months_least")) continue;
    result.years.push_back(months.first_year + static_cast<int>(y));
    result.values.push_back(sum / n);
  }
}

// The month within a year of `guess` that parts the months best.
Date best_month(const Months& months, std::size_t guess) {
  double all = 0, n = 0;
  for (const double v : months.values) {
    if (std::isnan(v)) continue;
    all += v;
    n += 1;
  }
  double below = 0, k = 0, best = -1;
  std::size_t at = guess;
  for (std::size_t m = 0; m < months.values.size(); ++m) {
    const bool near = m + 12 >= guess && m <= guess + 12;
    if (near && k > 0 && k < n) {
      const double parted = below * below / k + (all - below) * (all - below) / (n - k);
      if (parted > best) {
        best = parted;
        at = m;
      }
    }
    if (std::isnan(months.values[m])) continue;
    below += months.values[m];
    k += 1;
  }
  return months.day(at);
}

void measure(BreakResult& result) {
  const auto k = static_cast<std::size_t>(result.test.change_after);
  const std::size_t n = result.values.size();
  if (k == 0 || n < 3) return;
  const double d = result.test.after - result.test.before;
  double square = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double off = result.values[i] - (i < k ? result.test.before : result.test.after);
    square += off * off;
  }
  const auto first = static_cast<double>(k), second = static_cast<double>(n - k);
  const double df = first + second - 2;
  const double reach =
      stat::student_quantile(0.975, df) * std::sqrt(square / df * (1 / first + 1 / second));
  const bool ratio = result.kind == BreakKind::rain_amount;
  result.size = ratio ? exact_exp(d) : d;
  result.low = ratio ? exact_exp(d - reach) : d - reach;
  result.high = ratio ? exact_exp(d + reach) : d + reach;
}

void judge(BreakResult& result, const Parameters& parameters) {
  const double p = parameters.value("climate.index.p");
  const bool strong = result.test.t > result.limit_one_pct && result.pettitt.p < p;
  const bool weak = result.test.t > result.limit_five_pct || result.pettitt.p < p;
  result.verdict = strong ? BreakVerdict::yes : weak ? BreakVerdict::cannot_tell : BreakVerdict::no;
}

Message line_of(const BreakResult& result) {
  const auto years = static_cast<std::int64_t>(result.years.size());
  std::string key = "climate.break_none";
  if (result.verdict == BreakVerdict::cannot_tell) key = "climate.break_unsure";
  if (result.verdict == BreakVerdict::yes) {
    key = result.kind == BreakKind::rain_amount ? "climate.break_rain_amount"
          : result.kind == BreakKind::rain_days ? "climate.break_rain_days"
                                                : "climate.break_level";
  }
  const double scale = result.kind == BreakKind::rain_days ? 100 : 1;
  return say(key, {{"what", std::string(break_name(result))},
                   {"from", result.from},
                   {"size", scale * result.size},
                   {"low", scale * result.low},
                   {"high", scale * result.high},
                   {"years", years}});
}

BreakResult break_of(const DailyWeather& daily, Column column, BreakKind kind,
                     const Parameters& parameters) {
  BreakResult result;
  result.column = column;
  result.kind = kind;
  Months months = months_of(daily, column, kind, parameters);
  take_off_season(months);
  years_of(months, parameters, result);
  const double least = parameters.value("climate.quality.break_years_least");
  if (static_cast<double>(result.years.size()) < least) {
    result.first_line =
        say("climate.break_refused", {{"what", std::string(break_name(result))},
                                      {"years", static_cast<std::int64_t>(result.years.size())},
                                      {"least", least}});
    return result;
  }
  result.test = stat::standard_normal_homogeneity(result.values);
  result.pettitt = stat::pettitt(result.values);
  result.limit_five_pct =
      stat::homogeneity_critical(result.test.n, stat::HomogeneityLevel::five_pct);
  result.limit_one_pct = stat::homogeneity_critical(result.test.n, stat::HomogeneityLevel::one_pct);
  measure(result);
  if (result.test.change_after > 0) {
    const int year = result.years[static_cast<std::size_t>(result.test.change_after)];
    result.from = best_month(months, static_cast<std::size_t>(year - months.first_year) * 12);
  }
  judge(result, parameters);
  result.first_line = line_of(result);
  return result;
}

}  // namespace

std::string_view break_name(const BreakResult& result) {
  if (result.kind == BreakKind::rain_amount) return "rain_amount";
  if (result.kind == BreakKind::rain_days) return "rain_days";
  return column_name(result.column);
}

std::vector<BreakResult> breaks(const DailyWeather& daily, const Parameters& parameters) {
  std::vector<BreakResult> results;
  results.push_back(break_of(daily, Column::rain, BreakKind::rain_amount, parameters));
  results.push_back(break_of(daily, Column::rain, BreakKind::rain_days, parameters));
  for (const Column column : {Column::tmax, Column::tmin, Column::rh_max, Column::rh_min,
                              Column::rh_mean, Column::wind, Column::sun}) {
    if (!column_of(daily, column).empty())
      results.push_back(break_of(daily, column, BreakKind::level, parameters));
  }
  return results;
}

}  // namespace wildling::climate
