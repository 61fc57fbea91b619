#pragma once
/// An invented log for tests: chance rain with a dry season, temperatures that follow it, gaps.
#include <cmath>
#include <limits>

#include "base/random.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

inline WeatherBook invented_log(int years, std::uint64_t seed = 7, double dry_depth = 0.42) {
  WeatherBook book;
  book.station.source = "invented";
  book.station.lat_deg = -1.5;
  book.station.elevation_m = 40;
  book.daily.first = make_date(1995, 1, 1);
  Stream luck(Seed{seed}, Purpose{"invented log"}, 0);
  bool wet = false;
  for (Date d = book.daily.first; d < make_date(1995 + years, 1, 1); d += std::chrono::days(1)) {
    const double season = std::cos(6.283185307 * (day_of_year(d) - 20) / 365.25);
    const double chance = 0.45 + dry_depth * season + (wet ? 0.12 : -0.02);
    wet = luck.uniform() < chance;
    const double rain = wet ? std::round(10 * (1 + 12 * luck.gamma(0.8))) / 10 : 0;
    const bool missing = luck.uniform() < 0.004;
    book.daily.rain_mm.push_back(missing ? std::numeric_limits<double>::quiet_NaN() : rain);
    book.daily.tmax_c.push_back(32.5 - 1.2 * season - (wet ? 1.1 : 0) + luck.normal());
    book.daily.tmin_c.push_back(23 + 0.4 * season + 0.7 * luck.normal());
    book.daily.rh_mean_pct.push_back(
        std::fmin(99, std::fmax(40, 80 + 5 * season + (wet ? 5 : 0) + 3 * luck.normal())));
  }
  return book;
}

}  // namespace wildling::climate
