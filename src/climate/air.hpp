#pragma once

/// Pressure, vapour pressure and wind of FAO-56 (Allen, Pereira, Raes & Smith 1998, FAO Irrigation
/// and Drainage Paper 56), chapter 3. Numbers in brackets are the paper's equations. NaN in gives
/// NaN out.

namespace wildling::climate {

double pressure_kpa(double elevation_m);                      ///< (7)
double psychrometric_constant_kpa_c(double pressure_kpa);     ///< gamma (8), with lambda 2.45
double saturation_vapour_pressure_kpa(double temperature_c);  ///< e0(T) (11)
double mean_saturation_vapour_pressure_kpa(double tmax_c, double tmin_c);  ///< es (12)
double slope_vapour_pressure_kpa_c(double temperature_c);                  ///< Delta (13)

/// Actual vapour pressure from dew point (14).
double vapour_pressure_from_dew_point_kpa(double dew_point_c);
/// From dry and wet bulb (15, 16); a_psy 0.000662 ventilated, 0.000800 natural, 0.001200 indoors
/// (1/degC).
double vapour_pressure_from_wet_bulb_kpa(double dry_c, double wet_c, double pressure_kpa,
                                         double a_psy);
/// From RHmax and RHmin (17), from RHmax alone (18), from RHmean (19).
double vapour_pressure_from_rh_max_min_kpa(double tmax_c, double tmin_c, double rh_max_pct,
                                           double rh_min_pct);
double vapour_pressure_from_rh_max_kpa(double tmin_c, double rh_max_pct);
double vapour_pressure_from_rh_mean_kpa(double tmax_c, double tmin_c, double rh_mean_pct);

/// Temperature at which `vapour_pressure_kpa` saturates: (11) turned round. 0 or less gives NaN.
double dew_point_c(double vapour_pressure_kpa);

/// Wind at 2 m from wind at z m over short grass (47); z > 0.08 + 5.42/67.8.
double wind_at_2m_m_s(double wind_m_s, double height_m);
double wind_factor_to_2m(double height_m);

}  // namespace wildling::climate
