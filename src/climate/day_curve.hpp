#pragma once
/// Temperature and dryness of the air through one day from its highest and lowest temperature.
/// Hours are sun time: 12 = the sun at its highest.
#include <array>

#include "base/parameters.hpp"

namespace wildling::climate {

/// Sine by day, exponential decay by night: Parton & Logan (1981), Agric. Meteorol. 23:205-216.
struct DayCurve {
  double tmax_c = 0, tmin_c = 0;
  double sunrise_h = 6, sunset_h = 18;
  double max_lag_h = 1.86;   ///< a: the maximum comes that long after noon
  double night = 2.20;       ///< b: decay over the night, without unit
  double min_lag_h = -0.17;  ///< c: the minimum comes that long after sunrise
};

/// @param hour  in [0, 24)
double parton_logan_c(const DayCurve& curve, double hour);

/// The same shape with the constants' meaning of Wann, Yen & Gold (1985): maximum at noon +
/// max_lag, night counted to the next minimum.
double wann_c(const DayCurve& curve, double hour);

/// Two harmonics (Campbell & Norman 1998): one shape for all day lengths.
double campbell_norman_c(double tmax_c, double tmin_c, double hour);

/// Two sines and a square root (Cesaraccio, Spano, Duce & Snyder 2001, Int. J. Biometeorol.
/// 45:161-169).
double cesaraccio_c(double tmax_c, double tmin_c, double next_tmin_c, double sunrise_h,
                    double sunset_h, double hour);

/// Twenty-four hours, value at half past each.
struct DayHours {
  std::array<double, 24> temperature_c{}, vpd_kpa{}, rh_pct{};
  std::array<double, 24> sun_share{};  ///< of the day's highest clear-sky radiation, 0 by night
};

/// Sine of the sun's height at `hour` over that at noon (FAO-56 eq. 24, 28); 0 below the horizon.
double sun_share(double latitude_deg, int day_of_year, double hour);

/// By Parton & Logan's curve at 150 cm with the vapour pressure of the day held constant (cautious
/// in the afternoon, when it usually falls a little less dry than this says).
DayHours day_hours(double tmax_c, double tmin_c, double ea_kpa, double latitude_deg,
                   int day_of_year, const Parameters& parameters);

}  // namespace wildling::climate
