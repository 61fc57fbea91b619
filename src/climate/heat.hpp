#pragma once
/// Heat for people who work outside, as a plan of the day: when to start and finish, how long to
/// rest in the shade, how much to drink. A planning aid: symptoms always come before numbers (stop,
/// shade, cool, carry out).
#include <array>
#include <optional>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/day_curve.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// Heat index in degF: nine-term regression of Rothfusz (1990), NWS SR 90-23.
double heat_index_regression_f(double temperature_f, double rh_pct);
/// The whole procedure of the United States National Weather Service: simple form while its mean
/// with T is below 80 degF, adjustments below 13 % and above 85 %.
double heat_index_f(double temperature_f, double rh_pct);
double heat_index_c(double temperature_c, double rh_pct);

/// Wet bulb at sea level: Stull (2011), J. Appl. Meteor. Climatol. 50:2267, eq. 1; 5-99 %, -20 to
/// 50 degC, within 1 degC.
double stull_wet_bulb_c(double temperature_c, double rh_pct);

/// Wet-bulb globe temperature in moderate sun and light wind from T and vapour pressure: simplified
/// form used by the Australian Bureau of Meteorology: 0.567 T + 0.393 e + 3.94, e in hPa.
double wbgt_in_sun_c(double temperature_c, double vapour_pressure_kpa);
/// In shade: 0.7 Tw + 0.3 T (ISO 7243 without sun, globe taken as air), Tw by Stull.
double wbgt_in_shade_c(double temperature_c, double rh_pct);

/// NIOSH (2016), Publication 2016-106, section 8.1: limit of WBGT for people used to the heat, and
/// for others.
double recommended_limit_c(double metabolic_w);  ///< REL = 56.7 - 11.5 log10 M
double alert_limit_c(double metabolic_w);        ///< RAL = 59.9 - 14.1 log10 M

/// Share of a full day's exposure allowed on day `day` (1 = first): new 20, 40, 60, 80, 100;
/// returning 50, 60, 80, 100.
int exposure_share_pct(int day, bool returning);

/// WBGT in the open: shade's, and the sun's part by the sun's height (full from half the day's
/// highest radiation on).
double wbgt_outside_c(double full_sun_c, double shade_c, double sun_share);

/// Smallest rest in shade per hour, in steps of 5 minutes to 45, for which the hour's mean WBGT
/// meets the NIOSH limit of its mean effort; 60 when none does.
int rest_minutes(double wbgt_work_c, double wbgt_rest_c, bool acclimatised, double work_w,
                 double rest_w);

struct HeatHour {
  int hour = 0;  ///< sun time, from hour to hour + 1
  double wbgt_sun_c = 0, wbgt_shade_c = 0;
  int rest_minutes_sun =
      0;  ///< in shade, per hour of work in the sun; 60 = do not do this work now
  int rest_minutes_shade = 0;  ///< the same for work in shade
  double litres = 0;           ///< water per person
  double heat_index_c = 0;     ///< in shade, for comparison: heat_index_c
};

/// Hours of work that people not used to the heat may do on day `day`, of the day's fit stretch.
struct HeatStep {
  int day = 1;
  double new_hours = 0, returning_hours = 0;
};

struct HeatPlan {
  std::vector<HeatHour> hours;  ///< inside the safe working hours
  std::optional<int> start_hour,
      finish_hour;  ///< longest stretch in the sun with at most climate.heat.rest_most_min of rest
  std::array<HeatStep, 5> steps;  ///< days 1 to 5, exposure_share_pct of the stretch
  double worst_wbgt_sun_c = 0;
  bool worse_than_usual = false;  ///< above the site's own usual: worst hour over the given limit
  std::vector<Message> notes;
};

/// @param acclimatised  false = the limits for people not used to the heat
/// @param usual_worst_c  the site's own high value (see usual_worst_wbgt_c); empty = unknown, never
/// flagged
HeatPlan heat_plan(const DayHours& hours, double ea_kpa, bool acclimatised,
                   std::optional<double> usual_worst_c, const Parameters& parameters);

/// The value that the worst hour exceeds on one day in ten of the site's own log; empty below 60
/// values.
std::optional<double> usual_worst_wbgt_c(std::vector<double> worst_of_each_day);

/// The same from every day of a log that has Tmax and Tmin.
std::optional<double> usual_worst_wbgt_c(const WeatherBook& book, const Parameters& parameters);

}  // namespace wildling::climate
