#pragma once

/// Radiation of FAO-56 (Allen et al. 1998), chapter 3, equations in brackets. Radiation in MJ m^-2
/// day^-1 unless the name says otherwise. Sunset angle clamped, so poles are defined.

namespace wildling::climate {

double radians(double degrees);

/// Angles and distance of the sun on one day: dr (23), delta (24), sunset angle omega_s (25), Ra
/// (21), N (34).
struct SunDay {
  double dr = 0, delta_rad = 0, omega_s_rad = 0;
  double ra_mj_m2 = 0;
  double daylight_h = 0;
};

/// @param latitude_deg  [-90, 90]; @param day_of_year  1 to 366. @throws Error{input} outside
SunDay sun_day(double latitude_deg, int day_of_year);

/// Ra over a short period (28 to 33); longitudes in degrees west of Greenwich. 0 below the horizon.
struct SunPeriod {
  double sc_h = 0, omega_rad = 0, omega1_rad = 0, omega2_rad = 0;
  double ra_mj_m2 = 0;  ///< per period
};

SunPeriod sun_period(double latitude_deg, double longitude_west_deg, double zone_west_deg,
                     int day_of_year, double midpoint_h, double length_h);

/// Solar radiation from sunshine (35).
double solar_from_sunshine_mj_m2(double ra_mj_m2, double sun_h, double daylight_h,
                                 double a_s = 0.25, double b_s = 0.50);
/// From the range of temperature (50): kRs 0.16 inland, 0.19 coast; never above Rso.
double solar_from_temperature_mj_m2(double ra_mj_m2, double tmax_c, double tmin_c, double k_rs);
/// On small islands (51), for months only.
double solar_on_island_mj_m2(double ra_mj_m2);
double clear_sky_mj_m2(double ra_mj_m2, double elevation_m);                        ///< Rso (37)
double clear_sky_from_coefficients_mj_m2(double ra_mj_m2, double a_s, double b_s);  ///< Rso (36)
double net_shortwave_mj_m2(double rs_mj_m2, double albedo = 0.23);                  ///< Rns (38)
double stefan_boltzmann_mj_m2(double temperature_c);  ///< sigma T_K^4, K = degC + 273.16
/// Rnl (39); Rs/Rso is held in [0, 1].
double net_longwave_mj_m2(double tmax_c, double tmin_c, double ea_kpa, double rs_over_rso);
/// Rnl over an hour: (39) with sigma/24 and one temperature.
double net_longwave_hour_mj_m2(double temperature_c, double ea_kpa, double rs_over_rso);
double to_mm(double mj_m2);  ///< (20): 0.408 mm per MJ m^-2

/// Soil heat flux over a month from the months around (43) or from the month before (44).
double soil_heat_between_months_mj_m2(double t_before_c, double t_after_c);
double soil_heat_from_month_before_mj_m2(double t_before_c, double t_c);
/// Over an hour (45, 46).
double soil_heat_hour_mj_m2(double rn_mj_m2, bool daylight);

}  // namespace wildling::climate
