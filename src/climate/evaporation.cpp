// Notation of FAO-56: Delta, gamma kPa/degC; Rn, G MJ m^-2 day^-1; u2 m/s; es - ea kPa.
#include "climate/evaporation.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "climate/air.hpp"

namespace wildling::climate {
namespace {

bool known(const std::optional<double>& value) {
  return value && !std::isnan(*value);
}

void add_humidity(Et0Day& day) {
  const Et0Input& in = day.input;
  if (known(in.ea_kpa)) {
    day.humidity = Humidity::given;
    day.ea_kpa = *in.ea_kpa;
  } else if (known(in.rh_max_pct) && known(in.rh_min_pct)) {
    day.humidity = Humidity::rh_max_min;
    day.ea_kpa =
        vapour_pressure_from_rh_max_min_kpa(in.tmax_c, in.tmin_c, *in.rh_max_pct, *in.rh_min_pct);
  } else if (known(in.rh_max_pct)) {
    day.humidity = Humidity::rh_max;
    day.ea_kpa = vapour_pressure_from_rh_max_kpa(in.tmin_c, *in.rh_max_pct);
  } else if (known(in.rh_mean_pct)) {
    day.humidity = Humidity::rh_mean;
    day.ea_kpa = vapour_pressure_from_rh_mean_kpa(in.tmax_c, in.tmin_c, *in.rh_mean_pct);
  } else {
    day.humidity = Humidity::dew_point_is_tmin;  // eq. 48
    day.ea_kpa = vapour_pressure_from_dew_point_kpa(in.tmin_c - day.settings.dew_below_tmin_c);
  }
}

void add_radiation(Et0Day& day, const SunDay& sun) {
  const Et0Input& in = day.input;
  day.dr = sun.dr;
  day.declination_rad = sun.delta_rad;
  day.sunset_rad = sun.omega_s_rad;
  day.ra_mj_m2 = sun.ra_mj_m2;
  day.daylight_h = sun.daylight_h;
  day.rso_mj_m2 = clear_sky_mj_m2(day.ra_mj_m2, in.elevation_m);
  if (known(in.rs_mj_m2)) {
    day.radiation = Radiation::given;
    day.rs_mj_m2 = *in.rs_mj_m2;
  } else if (known(in.sun_h)) {
    day.radiation = Radiation::sunshine;
    day.rs_mj_m2 = solar_from_sunshine_mj_m2(day.ra_mj_m2, *in.sun_h, day.daylight_h,
                                             day.settings.a_s, day.settings.b_s);
  } else {
    day.radiation = Radiation::temperature_range;
    day.rs_mj_m2 = std::min(
        day.rso_mj_m2,
        solar_from_temperature_mj_m2(day.ra_mj_m2, in.tmax_c, in.tmin_c, day.settings.k_rs));
  }
  day.rns_mj_m2 = net_shortwave_mj_m2(day.rs_mj_m2, day.settings.albedo);
  const double ratio = day.rso_mj_m2 > 0 ? day.rs_mj_m2 / day.rso_mj_m2 : 1.0;
  day.rnl_mj_m2 = net_longwave_mj_m2(in.tmax_c, in.tmin_c, day.ea_kpa, ratio);
  day.rn_mj_m2 = day.rns_mj_m2 - day.rnl_mj_m2;  // eq. 40
}

}  // namespace

Et0Settings et0_settings(const Parameters& parameters) {
  Et0Settings s;
  s.wind_missing_m_s = parameters.value("climate.et0.wind_missing_m_s");
  s.wind_least_m_s = parameters.value("climate.et0.wind_least_m_s");
  s.k_rs = parameters.value("climate.et0.k_rs");
  s.dew_below_tmin_c = parameters.value("climate.et0.dew_below_tmin_c");
  s.a_s = parameters.value("climate.et0.a_s");
  s.b_s = parameters.value("climate.et0.b_s");
  s.albedo = parameters.value("climate.et0.albedo");
  return s;
}

double day_vapour_pressure_kpa(const Et0Input& input, const Et0Settings& settings) {
  Et0Day day;
  day.input = input;
  day.settings = settings;
  add_humidity(day);
  return day.ea_kpa;
}

double penman_monteith_mm(double delta_kpa_c, double gamma_kpa_c, double rn_mj_m2, double g_mj_m2,
                          double t_mean_c, double wind_2m_m_s, double vpd_kpa) {
  return (0.408 * delta_kpa_c * (rn_mj_m2 - g_mj_m2) +
          gamma_kpa_c * 900 / (t_mean_c + 273) * wind_2m_m_s * vpd_kpa) /
         (delta_kpa_c + gamma_kpa_c * (1 + 0.34 * wind_2m_m_s));  // eq. 6
}

double penman_monteith_hour_mm(double delta_kpa_c, double gamma_kpa_c, double rn_mj_m2,
                               double g_mj_m2, double t_c, double wind_2m_m_s, double vpd_kpa) {
  return (0.408 * delta_kpa_c * (rn_mj_m2 - g_mj_m2) +
          gamma_kpa_c * 37 / (t_c + 273) * wind_2m_m_s * vpd_kpa) /
         (delta_kpa_c + gamma_kpa_c * (1 + 0.34 * wind_2m_m_s));  // eq. 53
}

double hargreaves_mm(double tmax_c, double tmin_c, double ra_mj_m2) {
  const double t_mean = (tmax_c + tmin_c) / 2;
  return 0.0023 * (t_mean + 17.8) * std::sqrt(tmax_c - tmin_c) * to_mm(ra_mj_m2);  // eq. 52
}

Et0Day et0_day(const Et0Input& input, const Et0Settings& settings) {
  return et0_day(input, settings, sun_day(input.latitude_deg, input.day_of_year));
}

Et0Day et0_day(const Et0Input& input, const Et0Settings& settings, const SunDay& sun) {
  if (input.tmin_c > input.tmax_c) {
    throw Error(ErrorKind::input, "",
                say("climate.tmin_above_tmax", {{"tmin", input.tmin_c}, {"tmax", input.tmax_c}}));
  }
  Et0Day day;
  day.input = input;
  day.settings = settings;
  day.t_mean_c = (input.tmax_c + input.tmin_c) / 2;  // eq. 9
  day.pressure_kpa = pressure_kpa(input.elevation_m);
  day.gamma_kpa_c = psychrometric_constant_kpa_c(day.pressure_kpa);
  day.delta_kpa_c = slope_vapour_pressure_kpa_c(day.t_mean_c);
  day.e0_tmax_kpa = saturation_vapour_pressure_kpa(input.tmax_c);
  day.e0_tmin_kpa = saturation_vapour_pressure_kpa(input.tmin_c);
  day.es_kpa = (day.e0_tmax_kpa + day.e0_tmin_kpa) / 2;  // eq. 12
  add_humidity(day);
  day.vpd_kpa = std::max(0.0, day.es_kpa - day.ea_kpa);
  day.wind_assumed = !known(input.wind_2m_m_s);
  day.wind_2m_m_s = std::max(settings.wind_least_m_s,
                             day.wind_assumed ? settings.wind_missing_m_s : *input.wind_2m_m_s);
  add_radiation(day, sun);
  day.et0_mm = std::max(
      0.0, penman_monteith_mm(day.delta_kpa_c, day.gamma_kpa_c, day.rn_mj_m2, input.soil_heat_mj_m2,
                              day.t_mean_c, day.wind_2m_m_s, day.vpd_kpa));
  return day;
}

}  // namespace wildling::climate
