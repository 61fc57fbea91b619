// Notation of FAO-56: P kPa, z m, gamma and Delta kPa/degC, e kPa, T degC.
#include "climate/air.hpp"

#include <cmath>
#include <limits>

#include "base/exact_math.hpp"

namespace wildling::climate {

double pressure_kpa(double elevation_m) {
  return 101.3 * exact_pow((293 - 0.0065 * elevation_m) / 293, 5.26);  // eq. 7
}

double psychrometric_constant_kpa_c(double pressure_kpa) {
  return 0.665e-3 * pressure_kpa;  // eq. 8
}

double saturation_vapour_pressure_kpa(double temperature_c) {
  return 0.6108 * exact_exp(17.27 * temperature_c / (temperature_c + 237.3));  // eq. 11
}

double mean_saturation_vapour_pressure_kpa(double tmax_c, double tmin_c) {
  return (saturation_vapour_pressure_kpa(tmax_c) + saturation_vapour_pressure_kpa(tmin_c)) /
         2;  // eq. 12
}

double slope_vapour_pressure_kpa_c(double temperature_c) {
  const double t = temperature_c + 237.3;
  return 4098 * saturation_vapour_pressure_kpa(temperature_c) / (t * t);  // eq. 13
}

double vapour_pressure_from_dew_point_kpa(double dew_point_c) {
  return saturation_vapour_pressure_kpa(dew_point_c);  // eq. 14
}

double vapour_pressure_from_wet_bulb_kpa(double dry_c, double wet_c, double pressure_kpa,
                                         double a_psy) {
  return saturation_vapour_pressure_kpa(wet_c) -
         a_psy * pressure_kpa * (dry_c - wet_c);  // eq. 15, 16
}

double vapour_pressure_from_rh_max_min_kpa(double tmax_c, double tmin_c, double rh_max_pct,
                                           double rh_min_pct) {
  return (saturation_vapour_pressure_kpa(tmin_c) * rh_max_pct / 100 +
          saturation_vapour_pressure_kpa(tmax_c) * rh_min_pct / 100) /
         2;  // eq. 17
}

double vapour_pressure_from_rh_max_kpa(double tmin_c, double rh_max_pct) {
  return saturation_vapour_pressure_kpa(tmin_c) * rh_max_pct / 100;  // eq. 18
}

double vapour_pressure_from_rh_mean_kpa(double tmax_c, double tmin_c, double rh_mean_pct) {
  return rh_mean_pct / 100 * mean_saturation_vapour_pressure_kpa(tmax_c, tmin_c);  // eq. 19
}

double dew_point_c(double vapour_pressure_kpa) {
  if (!(vapour_pressure_kpa > 0)) return std::numeric_limits<double>::quiet_NaN();
  const double ratio = exact_log(vapour_pressure_kpa / 0.6108) / 17.27;
  return 237.3 * ratio / (1 - ratio);  // eq. 11 solved for T
}

double wind_factor_to_2m(double height_m) {
  return 4.87 / exact_log(67.8 * height_m - 5.42);  // eq. 47
}

double wind_at_2m_m_s(double wind_m_s, double height_m) {
  return wind_m_s * wind_factor_to_2m(height_m);
}

}  // namespace wildling::climate
