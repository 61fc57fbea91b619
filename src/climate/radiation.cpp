// Notation of FAO-56: phi latitude, delta declination, omega hour angle, rad; G_sc MJ m^-2 min^-1.
#include "climate/radiation.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/error.hpp"
#include "base/exact_trig.hpp"

namespace wildling::climate {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kGsc = 0.0820;
constexpr double kSigma = 4.903e-9;  // MJ K^-4 m^-2 day^-1

double inverse_distance(int j) {
  return 1 + 0.033 * exact_cos(2 * kPi / 365 * j);
}  // eq. 23

double declination(int j) {
  return 0.409 * exact_sin(2 * kPi / 365 * j - 1.39);
}  // eq. 24

double sunset_angle(double phi, double delta) {
  return exact_acos(std::clamp(-exact_tan(phi) * exact_tan(delta), -1.0, 1.0));  // eq. 25
}

void check_place(double latitude_deg, int day_of_year) {
  const bool fine =
      latitude_deg >= -90 && latitude_deg <= 90 && day_of_year >= 1 && day_of_year <= 366;
  if (fine) return;
  throw Error(ErrorKind::input, "",
              say("climate.place_impossible",
                  {{"latitude", latitude_deg}, {"day", static_cast<std::int64_t>(day_of_year)}}));
}

}  // namespace

double radians(double degrees) {
  return kPi / 180 * degrees;
}  // eq. 22

SunDay sun_day(double latitude_deg, int day_of_year) {
  check_place(latitude_deg, day_of_year);
  const double phi = radians(latitude_deg);
  SunDay sun;
  sun.dr = inverse_distance(day_of_year);
  sun.delta_rad = declination(day_of_year);
  sun.omega_s_rad = sunset_angle(phi, sun.delta_rad);
  const double ws = sun.omega_s_rad;
  sun.ra_mj_m2 = 24 * 60 / kPi * kGsc * sun.dr *
                 (ws * exact_sin(phi) * exact_sin(sun.delta_rad) +
                  exact_cos(phi) * exact_cos(sun.delta_rad) * exact_sin(ws));  // eq. 21
  sun.ra_mj_m2 = std::max(0.0, sun.ra_mj_m2);
  sun.daylight_h = 24 / kPi * ws;  // eq. 34
  return sun;
}

SunPeriod sun_period(double latitude_deg, double longitude_west_deg, double zone_west_deg,
                     int day_of_year, double midpoint_h, double length_h) {
  check_place(latitude_deg, day_of_year);
  const double phi = radians(latitude_deg);
  const double delta = declination(day_of_year);
  const double ws = sunset_angle(phi, delta);
  const double b = 2 * kPi * (day_of_year - 81) / 364;  // eq. 33
  SunPeriod sun;
  sun.sc_h = 0.1645 * exact_sin(2 * b) - 0.1255 * exact_cos(b) - 0.025 * exact_sin(b);  // eq. 32
  sun.omega_rad =
      kPi / 12 *
      (midpoint_h + 0.06667 * (zone_west_deg - longitude_west_deg) + sun.sc_h - 12);  // eq. 31
  sun.omega1_rad = sun.omega_rad - kPi * length_h / 24;                               // eq. 29
  sun.omega2_rad = sun.omega_rad + kPi * length_h / 24;                               // eq. 30
  const double w1 = std::clamp(sun.omega1_rad, -ws, ws);
  const double w2 = std::clamp(sun.omega2_rad, -ws, ws);
  sun.ra_mj_m2 = 12 * 60 / kPi * kGsc * inverse_distance(day_of_year) *
                 ((w2 - w1) * exact_sin(phi) * exact_sin(delta) +
                  exact_cos(phi) * exact_cos(delta) * (exact_sin(w2) - exact_sin(w1)));  // eq. 28
  return sun;
}

double solar_from_sunshine_mj_m2(double ra_mj_m2, double sun_h, double daylight_h, double a_s,
                                 double b_s) {
  const double share = daylight_h > 0 ? std::clamp(sun_h / daylight_h, 0.0, 1.0) : 0.0 * sun_h;
  return (a_s + b_s * share) * ra_mj_m2;  // eq. 35
}

double solar_from_temperature_mj_m2(double ra_mj_m2, double tmax_c, double tmin_c, double k_rs) {
  return k_rs * std::sqrt(tmax_c - tmin_c) * ra_mj_m2;  // eq. 50
}

double solar_on_island_mj_m2(double ra_mj_m2) {
  return 0.7 * ra_mj_m2 - 4;
}  // eq. 51

double clear_sky_mj_m2(double ra_mj_m2, double elevation_m) {
  return (0.75 + 2e-5 * elevation_m) * ra_mj_m2;  // eq. 37
}

double clear_sky_from_coefficients_mj_m2(double ra_mj_m2, double a_s, double b_s) {
  return (a_s + b_s) * ra_mj_m2;  // eq. 36
}

double net_shortwave_mj_m2(double rs_mj_m2, double albedo) {
  return (1 - albedo) * rs_mj_m2;
}  // eq. 38

double stefan_boltzmann_mj_m2(double temperature_c) {
  const double k2 = (temperature_c + 273.16) * (temperature_c + 273.16);
  return kSigma * k2 * k2;
}

double net_longwave_mj_m2(double tmax_c, double tmin_c, double ea_kpa, double rs_over_rso) {
  return (stefan_boltzmann_mj_m2(tmax_c) + stefan_boltzmann_mj_m2(tmin_c)) / 2 *
         (0.34 - 0.14 * std::sqrt(ea_kpa)) *
         (1.35 * std::clamp(rs_over_rso, 0.0, 1.0) - 0.35);  // eq. 39
}

double net_longwave_hour_mj_m2(double temperature_c, double ea_kpa, double rs_over_rso) {
  return net_longwave_mj_m2(temperature_c, temperature_c, ea_kpa, rs_over_rso) / 24;
}

double to_mm(double mj_m2) {
  return 0.408 * mj_m2;
}  // eq. 20

double soil_heat_between_months_mj_m2(double t_before_c, double t_after_c) {
  return 0.07 * (t_after_c - t_before_c);  // eq. 43
}

double soil_heat_from_month_before_mj_m2(double t_before_c, double t_c) {
  return 0.14 * (t_c - t_before_c);
}  // eq. 44

double soil_heat_hour_mj_m2(double rn_mj_m2, bool daylight) {
  return (daylight ? 0.1 : 0.5) * rn_mj_m2;  // eq. 45, 46
}

}  // namespace wildling::climate
