#include "climate/et0_series.hpp"

#include <array>
#include <cmath>
#include <limits>

namespace wildling::climate {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

std::optional<double> known(const std::vector<double>& column, std::size_t i) {
  const double value = at_or_missing(column, i);
  if (std::isnan(value)) return {};
  return value;
}

Et0Input input_of(const WeatherBook& book, std::size_t i, int day_of_year) {
  const DailyWeather& daily = book.daily;
  Et0Input input{at_or_missing(daily.tmax_c, i), at_or_missing(daily.tmin_c, i)};
  input.rh_max_pct = known(daily.rh_max_pct, i);
  input.rh_min_pct = known(daily.rh_min_pct, i);
  input.rh_mean_pct = known(daily.rh_mean_pct, i);
  input.wind_2m_m_s = known(daily.wind_m_s, i);
  input.sun_h = known(daily.sun_h, i);
  input.latitude_deg = book.station.lat_deg.value_or(0);
  input.elevation_m = book.station.elevation_m.value_or(0);
  input.day_of_year = day_of_year;
  return input;
}

Et0Series constant(std::size_t days, double low, double high) {
  Et0Series series;
  series.low_mm.assign(days, low);
  series.high_mm.assign(days, high);
  return series;
}

Et0Series assumed_series(const WeatherBook& book, const Parameters& parameters, const char* why) {
  const double low = parameters.value("climate.et0.assumed_low_mm_d");
  const double high = parameters.value("climate.et0.assumed_high_mm_d");
  Et0Series series = constant(book.daily.days(), low, high);
  series.assumed = true;
  series.notes.push_back(say(why, {{"low", low}, {"high", high}}));
  return series;
}

void compute(Et0Series& series, const WeatherBook& book, const Parameters& parameters) {
  const Et0Settings settings = et0_settings(parameters);
  std::vector<SunDay> sun;  // by day of the year: angles cost more than the rest
  for (int j = 1; j <= 366; ++j) sun.push_back(sun_day(book.station.lat_deg.value_or(0), j));
  const std::vector<int> days = detail::days_of_year(book.daily);
  for (std::size_t i = 0; i < book.daily.days(); ++i) {
    const Et0Input input = input_of(book, i, days[i]);
    if (!(input.tmin_c <= input.tmax_c)) continue;
    const Et0Day day = et0_day(input, settings, sun[static_cast<std::size_t>(days[i] - 1)]);
    series.high_mm[i] = day.et0_mm;
    ++series.days_computed;
    if (day.humidity != Humidity::dew_point_is_tmin) ++series.days_with_humidity;
    if (!day.wind_assumed) ++series.days_with_wind;
    if (day.radiation == Radiation::sunshine) ++series.days_with_sun;
  }
}

// Mean of the computed days of each calendar month; of the log where a month has none.
std::array<double, 12> month_means(const Et0Series& series, const DailyWeather& daily) {
  std::array<double, 12> sum{}, count{}, means{};
  double all = 0, n = 0;
  const std::vector<char> months = detail::months_of(daily);
  for (std::size_t i = 0; i < series.high_mm.size(); ++i) {
    if (std::isnan(series.high_mm[i])) continue;
    const auto m = static_cast<std::size_t>(months[i] - 1);
    sum[m] += series.high_mm[i];
    count[m] += 1;
    all += series.high_mm[i];
    n += 1;
  }
  for (std::size_t m = 0; m < 12; ++m) means[m] = count[m] > 0 ? sum[m] / count[m] : all / n;
  return means;
}

void fill(Et0Series& series, const DailyWeather& daily) {
  const std::array<double, 12> means = month_means(series, daily);
  for (std::size_t i = 0; i < series.high_mm.size(); ++i) {
    if (!std::isnan(series.high_mm[i])) continue;
    series.high_mm[i] = means[month_of(daily.day(i)) - 1];
    ++series.days_filled;
  }
}

void add_notes(Et0Series& series) {
  const auto note = [&](const char* key, int days) {
    series.notes.push_back(say(key, {{"days", static_cast<std::int64_t>(days)},
                                     {"of", static_cast<std::int64_t>(series.days_computed)}}));
  };
  const int n = series.days_computed;
  if (series.days_with_humidity < n)
    note("climate.et0_humidity_missing", n - series.days_with_humidity);
  if (series.days_with_wind < n) note("climate.et0_wind_missing", n - series.days_with_wind);
  if (series.days_with_sun < n) note("climate.et0_sun_missing", n - series.days_with_sun);
  if (series.days_filled > 0) note("climate.et0_days_filled", series.days_filled);
}

}  // namespace

Et0Input et0_input(const WeatherBook& book, std::size_t i) {
  return input_of(book, i, day_of_year(book.daily.day(i)));
}

Et0Series et0_series(const WeatherBook& book, const Parameters& parameters,
                     std::optional<double> override_mm_d) {
  if (override_mm_d) {
    Et0Series series = constant(book.daily.days(), *override_mm_d, *override_mm_d);
    series.overridden = true;
    return series;
  }
  if (!book.station.lat_deg)
    return assumed_series(book, parameters, "climate.et0_assumed_no_place");
  Et0Series series = constant(book.daily.days(), kMissing, kMissing);
  compute(series, book, parameters);
  if (series.days_computed < parameters.value("climate.et0.days_least") ||
      series.days_computed == 0) {
    return assumed_series(book, parameters, "climate.et0_assumed_no_temperature");
  }
  fill(series, book.daily);
  series.low_mm = series.high_mm;
  add_notes(series);
  return series;
}

}  // namespace wildling::climate
