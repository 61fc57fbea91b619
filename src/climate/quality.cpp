#include "climate/quality.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/exact_math.hpp"

namespace wildling::climate {
namespace {

constexpr std::array<Column, 8> kColumns = {Column::rain,   Column::tmax,   Column::tmin,
                                            Column::rh_max, Column::rh_min, Column::rh_mean,
                                            Column::wind,   Column::sun};
constexpr std::array<std::string_view, 8> kNames = {"rain",   "tmax",    "tmin", "rh_max",
                                                    "rh_min", "rh_mean", "wind", "sun"};
constexpr std::array<std::string_view, 9> kCheckKeys = {
    "climate.flag_bounds",    "climate.flag_internal", "climate.flag_repeated",
    "climate.flag_same_year", "climate.flag_gap",      "climate.flag_outlier",
    "climate.flag_spike",     "climate.flag_step",     "climate.flag_dry_month"};

bool is_temperature(Column c) {
  return c == Column::tmax || c == Column::tmin;
}

struct Range {
  double low, high;
};

Range world_range(Column column, const Parameters& p) {
  switch (column) {
    case Column::rain:
      return {0, p.value("climate.quality.rain_most_mm")};
    case Column::tmax:
    case Column::tmin:
      return {p.value("climate.quality.temperature_least_c"),
              p.value("climate.quality.temperature_most_c")};
    case Column::wind:
      return {0, p.value("climate.quality.wind_most_m_s")};
    case Column::sun:
      return {0, 24};
    case Column::rh_max:
    case Column::rh_min:
    case Column::rh_mean:
      break;
  }
  return {0, 100};
}

void flag_bounds(const DailyWeather& daily, Column column, const Parameters& parameters,
                 detail::Passed& passed, std::vector<Flag>& flags) {
  const Range range = world_range(column, parameters);
  const std::vector<double>& values = column_of(daily, column);
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!(values[i] < range.low || values[i] > range.high)) continue;
    flags.push_back(detail::day_flag(daily, Check::bounds, column, i));
    passed[i] = 0;
  }
}

void flag_internal(const DailyWeather& daily, Column high, Column low, std::vector<Flag>& flags) {
  const std::vector<double>& top = column_of(daily, high);
  const std::vector<double>& bottom = column_of(daily, low);
  for (std::size_t i = 0; i < std::min(top.size(), bottom.size()); ++i) {
    if (bottom[i] > top[i]) flags.push_back(detail::day_flag(daily, Check::internal, low, i));
  }
}

// Missing days are stepped over; so is rain of 0.
void flag_repeated(const DailyWeather& daily, Column column, const Parameters& parameters,
                   detail::Passed& passed, std::vector<Flag>& flags) {
  const std::vector<double>& values = column_of(daily, column);
  const auto least = static_cast<std::size_t>(parameters.value("climate.quality.repeated_days"));
  std::vector<std::size_t> run;
  const auto finish = [&] {
    if (run.size() >= least) {
      flags.push_back(detail::run_flag(daily, Check::repeated, column, run.front(), run.back()));
      for (const std::size_t i : run) passed[i] = 0;
    }
    run.clear();
  };
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (std::isnan(values[i]) || (column == Column::rain && values[i] == 0)) continue;
    if (!run.empty() && values[i] != values[run.front()]) finish();
    run.push_back(i);
  }
  finish();
}

void flag_spikes(const DailyWeather& daily, Column column, const Parameters& parameters,
                 const detail::Passed& passed, std::vector<Flag>& flags) {
  const std::vector<double>& v = column_of(daily, column);
  const double limit = parameters.value("climate.quality.spike_c");
  for (std::size_t i = 1; i + 1 < v.size(); ++i) {
    if (passed[i] == 0 ||
        !(std::abs(v[i] - v[i - 1]) >= limit && std::abs(v[i] - v[i + 1]) >= limit))
      continue;
    if ((v[i] > v[i - 1]) != (v[i] > v[i + 1])) continue;
    flags.push_back(detail::day_flag(daily, Check::spike, column, i));
  }
}

// A leap beyond so many robust standard deviations (median / 0.6745) of the log's own day-to-day
// changes. The way back from a single strange day is not flagged again.
void flag_steps(const DailyWeather& daily, Column column, const Parameters& parameters,
                const detail::Passed& passed, std::vector<Flag>& flags) {
  const std::vector<double>& v = column_of(daily, column);
  std::vector<double> changes;
  for (std::size_t i = 1; i < v.size(); ++i) {
    if (!std::isnan(v[i]) && !std::isnan(v[i - 1])) changes.push_back(std::abs(v[i] - v[i - 1]));
  }
  if (static_cast<double>(changes.size()) < parameters.value("climate.quality.step_days_least"))
    return;
  const auto middle = changes.begin() + static_cast<std::ptrdiff_t>(changes.size() / 2);
  std::nth_element(changes.begin(), middle, changes.end());
  constexpr double kMedianOfNormal = 0.6744897501960817;  // |z| of half of a normal distribution
  const double limit = parameters.value("climate.quality.step_sd") * *middle / kMedianOfNormal;
  if (!(limit > 0)) return;
  for (std::size_t i = 1; i < v.size(); ++i) {
    if (passed[i] == 0 || passed[i - 1] == 0 || !(std::abs(v[i] - v[i - 1]) > limit)) continue;
    flags.push_back(detail::day_flag(daily, Check::step, column, i));
    ++i;
  }
}

}  // namespace

std::string_view check_name(Check check) {
  return kCheckKeys[static_cast<std::size_t>(check)].substr(
      std::string_view("climate.flag_").size());
}

std::string_view column_name(Column column) {
  return kNames[static_cast<std::size_t>(column)];
}

const std::vector<double>& column_of(const DailyWeather& d, Column column) {
  switch (column) {
    case Column::rain:
      return d.rain_mm;
    case Column::tmax:
      return d.tmax_c;
    case Column::tmin:
      return d.tmin_c;
    case Column::rh_max:
      return d.rh_max_pct;
    case Column::rh_min:
      return d.rh_min_pct;
    case Column::rh_mean:
      return d.rh_mean_pct;
    case Column::wind:
      return d.wind_m_s;
    case Column::sun:
      break;
  }
  return d.sun_h;
}

namespace detail {

// Upper tail of chi-square with 6 degrees of freedom: exp(-x/2) (1 + x/2 + (x/2)^2/2).
double chi_square_6(const std::array<int, 7>& hits, const std::array<int, 7>& trials) {
  double all_hits = 0, all = 0;
  for (std::size_t w = 0; w < 7; ++w) {
    all_hits += hits[w];
    all += trials[w];
  }
  const double share = all > 0 ? all_hits / all : 0;
  if (share <= 0 || share >= 1) return 1;
  double x = 0;
  for (std::size_t w = 0; w < 7; ++w) {
    if (trials[w] == 0) continue;
    const double excess = hits[w] - share * trials[w];
    x += excess * excess / (trials[w] * share * (1 - share));
  }
  return exact_exp(-x / 2) * (1 + x / 2 + x * x / 8);
}

Flag day_flag(const DailyWeather& daily, Check check, Column column, std::size_t i) {
  const double value = column_of(daily, column)[i];
  return {
      check,
      column,
      i,
      i,
      value,
      say(std::string(kCheckKeys[static_cast<std::size_t>(check)]),
          {{"column", std::string(column_name(column))}, {"day", daily.day(i)}, {"value", value}})};
}

Flag run_flag(const DailyWeather& daily, Check check, Column column, std::size_t first,
              std::size_t last) {
  return {check,
          column,
          first,
          last,
          std::numeric_limits<double>::quiet_NaN(),
          say(std::string(kCheckKeys[static_cast<std::size_t>(check)]),
              {{"column", std::string(column_name(column))},
               {"first", daily.day(first)},
               {"last", daily.day(last)}})};
}

}  // namespace detail

std::vector<Flag> quality_flags(const DailyWeather& daily, const Parameters& parameters) {
  std::vector<Flag> flags;
  std::array<detail::Passed, kColumns.size()> passed;
  passed.fill(detail::Passed(daily.days(), 1));
  const auto each = [&](auto&& check, auto&& wanted) {
    for (std::size_t c = 0; c < kColumns.size(); ++c) {
      if (!column_of(daily, kColumns[c]).empty() && wanted(kColumns[c]))
        check(kColumns[c], passed[c]);
    }
  };
  const auto all = [](Column) { return true; };
  const auto weather = [](Column c) { return c == Column::rain || is_temperature(c); };
  using detail::Passed;
  each([&](Column c, Passed& p) { flag_bounds(daily, c, parameters, p, flags); }, all);
  flag_internal(daily, Column::tmax, Column::tmin, flags);
  flag_internal(daily, Column::rh_max, Column::rh_min, flags);
  each([&](Column c, Passed& p) { flag_repeated(daily, c, parameters, p, flags); }, weather);
  each([&](Column c, Passed& p) { detail::flag_same_years(daily, c, parameters, p, flags); },
       weather);
  each([&](Column c, Passed& p) { detail::flag_gaps(daily, c, parameters, p, flags); }, weather);
  each([&](Column c, Passed& p) { detail::flag_outliers(daily, c, parameters, p, flags); },
       weather);
  each([&](Column c, Passed& p) { flag_spikes(daily, c, parameters, p, flags); }, is_temperature);
  each([&](Column c, Passed& p) { flag_steps(daily, c, parameters, p, flags); }, is_temperature);
  detail::flag_dry_months(daily, parameters, flags);
  return flags;
}

WeekdayBias weekday_bias(const DailyWeather& daily, const Parameters& parameters) {
  WeekdayBias bias;
  const double wet_day = parameters.value("climate.rain.wet_day_mm");
  std::array<int, 7> days{};
  for (std::size_t i = 0; i < daily.days(); ++i) {
    const auto w = std::chrono::weekday(daily.day(i)).c_encoding();
    ++days[w];
    ++(std::isnan(daily.rain_mm[i]) ? bias.blank[w] : bias.measured[w]);
    if (daily.rain_mm[i] >= wet_day) ++bias.wet[w];
  }
  bias.wet_p = detail::chi_square_6(bias.wet, bias.measured);
  bias.blank_p = detail::chi_square_6(bias.blank, days);
  const double limit = parameters.value("climate.quality.weekday_p");
  bias.biased = bias.wet_p < limit || bias.blank_p < limit;
  return bias;
}

}  // namespace wildling::climate
