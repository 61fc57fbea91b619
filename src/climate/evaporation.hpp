#pragma once
/// Reference evapotranspiration by FAO Penman-Monteith (Allen et al. 1998, FAO-56 eq. 6) with
/// whatever was measured, the paper's own procedures where it was not (chapter 3), and Hargreaves
/// (eq. 52).
#include <optional>

#include "base/parameters.hpp"
#include "climate/radiation.hpp"

namespace wildling::climate {

/// How the vapour pressure of a day was found, best first (FAO-56 p. 36-39 and eq. 48).
enum class Humidity { rh_max_min, rh_max, rh_mean, dew_point_is_tmin, given };
/// How its radiation was found (eq. 35, 50).
enum class Radiation { sunshine, temperature_range, given };

/// One day (or the mean day of a month). NaN = not measured; only both temperatures are needed.
struct Et0Input {
  double tmax_c, tmin_c;
  std::optional<double> rh_max_pct = {}, rh_min_pct = {}, rh_mean_pct = {};
  std::optional<double> ea_kpa = {};  ///< given outright
  std::optional<double> wind_2m_m_s = {};
  std::optional<double> sun_h = {};
  std::optional<double> rs_mj_m2 = {};  ///< given outright
  double soil_heat_mj_m2 = 0;           ///< G: 0 for a day (eq. 42)
  double latitude_deg = 0, elevation_m = 0;
  int day_of_year = 1;
};

/// Constants of the procedures, from climate.et0.*.
struct Et0Settings {
  double wind_missing_m_s = 2;    ///< FAO-56 p. 63
  double wind_least_m_s = 0.5;    ///< floor, p. 63
  double k_rs = 0.16;             ///< eq. 50
  double dew_below_tmin_c = 0;    ///< Ko of eq. 48
  double a_s = 0.25, b_s = 0.50;  ///< eq. 35
  double albedo = 0.23;           ///< eq. 38
};

Et0Settings et0_settings(const Parameters& parameters);

/// All intermediate values of one day.
struct Et0Day {
  Et0Input input;
  Et0Settings settings;
  Humidity humidity = Humidity::given;
  Radiation radiation = Radiation::given;
  bool wind_assumed = false;
  double t_mean_c = 0, pressure_kpa = 0, gamma_kpa_c = 0, delta_kpa_c = 0;
  double e0_tmax_kpa = 0, e0_tmin_kpa = 0, es_kpa = 0, ea_kpa = 0, vpd_kpa = 0;
  double wind_2m_m_s = 0;
  double dr = 0, declination_rad = 0, sunset_rad = 0, ra_mj_m2 = 0, daylight_h = 0;
  double rs_mj_m2 = 0, rso_mj_m2 = 0, rns_mj_m2 = 0, rnl_mj_m2 = 0, rn_mj_m2 = 0;
  double et0_mm = 0;  ///< never below 0
};

/// Tmean is (Tmax + Tmin)/2 (eq. 9). NaN temperatures give a NaN result.
/// @throws Error{input} when Tmin > Tmax or place and day are impossible
Et0Day et0_day(const Et0Input& input, const Et0Settings& settings);
/// The same with the sun of that place and day already known.
Et0Day et0_day(const Et0Input& input, const Et0Settings& settings, const SunDay& sun);

/// Vapour pressure of the day by the first of the procedures whose readings are there.
double day_vapour_pressure_kpa(const Et0Input& input, const Et0Settings& settings);

/// eq. 6 alone.
double penman_monteith_mm(double delta_kpa_c, double gamma_kpa_c, double rn_mj_m2, double g_mj_m2,
                          double t_mean_c, double wind_2m_m_s, double vpd_kpa);
/// Hourly form, eq. 53: mm per hour.
double penman_monteith_hour_mm(double delta_kpa_c, double gamma_kpa_c, double rn_mj_m2,
                               double g_mj_m2, double t_c, double wind_2m_m_s, double vpd_kpa);
/// Hargreaves, eq. 52, with Ra in mm/day by 0.408. Check only: needs local calibration.
double hargreaves_mm(double tmax_c, double tmin_c, double ra_mj_m2);

}  // namespace wildling::climate
