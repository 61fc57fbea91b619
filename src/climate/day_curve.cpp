#include "climate/day_curve.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/exact_math.hpp"
#include "base/exact_trig.hpp"
#include "climate/air.hpp"
#include "climate/radiation.hpp"

namespace wildling::climate {
namespace {

constexpr double kPi = std::numbers::pi;

struct Shape {
  double rise_h;   // hours from minimum to the end of the half wave
  double night_h;  // length of the night in the decay
};

double sine_and_decay(const DayCurve& c, const Shape& shape, double hour) {
  const double begin = c.sunrise_h + c.min_lag_h;
  const double range = c.tmax_c - c.tmin_c;
  const auto by_day = [&](double h) {
    return c.tmin_c + range * exact_sin(kPi * (h - begin) / shape.rise_h);
  };
  if (hour >= begin && hour <= c.sunset_h) return by_day(hour);
  const double since_sunset = hour > c.sunset_h ? hour - c.sunset_h : hour + 24 - c.sunset_h;
  return c.tmin_c +
         (by_day(c.sunset_h) - c.tmin_c) * exact_exp(-c.night * since_sunset / shape.night_h);
}

double share_at(double phi, double delta, double hour) {
  const double up = exact_sin(phi) * exact_sin(delta), across = exact_cos(phi) * exact_cos(delta);
  return std::max(0.0, (up + across * exact_cos(kPi / 12 * (hour - 12))) / (up + across));
}

}  // namespace

double parton_logan_c(const DayCurve& c, double hour) {
  const double day = c.sunset_h - c.sunrise_h;
  return sine_and_decay(c, {day + 2 * c.max_lag_h, 24 - day}, hour);
}

double wann_c(const DayCurve& c, double hour) {
  const double day = c.sunset_h - c.sunrise_h;
  return sine_and_decay(c, {day + 2 * (c.max_lag_h - c.min_lag_h), 24 - day + c.min_lag_h}, hour);
}

double campbell_norman_c(double tmax_c, double tmin_c, double hour) {
  const double w = kPi / 12;
  const double g = 0.44 - 0.46 * exact_sin(0.9 + w * hour) + 0.11 * exact_sin(0.9 + 2 * w * hour);
  return tmax_c * g + tmin_c * (1 - g);
}

double cesaraccio_c(double tmax_c, double tmin_c, double next_tmin_c, double sunrise_h,
                    double sunset_h, double hour) {
  const double warmest_h = sunset_h - 4;
  const double at_sunset = tmax_c - 0.39 * (tmax_c - next_tmin_c);
  if (hour > sunrise_h && hour <= warmest_h) {
    return tmin_c +
           (tmax_c - tmin_c) * exact_sin((hour - sunrise_h) / (warmest_h - sunrise_h) * kPi / 2);
  }
  if (hour > warmest_h && hour < sunset_h) {
    return at_sunset + (tmax_c - at_sunset) * exact_sin(kPi / 2 + (hour - warmest_h) / 4 * kPi / 2);
  }
  const double night = sunrise_h + 24 - sunset_h;
  const double since = hour >= sunset_h ? hour - sunset_h : hour + 24 - sunset_h;
  return at_sunset + (next_tmin_c - at_sunset) / std::sqrt(night) * std::sqrt(since);
}

double sun_share(double latitude_deg, int day_of_year, double hour) {
  return share_at(radians(latitude_deg), sun_day(latitude_deg, day_of_year).delta_rad, hour);
}

DayHours day_hours(double tmax_c, double tmin_c, double ea_kpa, double latitude_deg,
                   int day_of_year, const Parameters& parameters) {
  const SunDay sun = sun_day(latitude_deg, day_of_year);
  DayCurve curve{tmax_c,
                 tmin_c,
                 12 - sun.daylight_h / 2,
                 12 + sun.daylight_h / 2,
                 parameters.value("climate.curve.max_lag_h"),
                 parameters.value("climate.curve.night"),
                 parameters.value("climate.curve.min_lag_h")};
  const double phi = radians(latitude_deg);
  DayHours hours;
  for (std::size_t h = 0; h < 24; ++h) {
    const double hour = static_cast<double>(h) + 0.5;
    const double t = parton_logan_c(curve, hour);
    const double e0 = saturation_vapour_pressure_kpa(t);
    hours.temperature_c[h] = t;
    hours.vpd_kpa[h] = std::max(0.0, e0 - ea_kpa);
    hours.rh_pct[h] = std::min(100.0, 100 * ea_kpa / e0);
    hours.sun_share[h] = share_at(phi, sun.delta_rad, hour);
  }
  return hours;
}

}  // namespace wildling::climate
