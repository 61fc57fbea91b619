#pragma once
/// Fire class of today: three fuels, three rules, the highest wins. The lowest class is "not high",
/// never "safe".
///  - grass and fern: days since useful rain, afternoon humidity, share of cured (dead) grass seen
///  on the weekly walk, and
///    the Fine Fuel Moisture Code where noon readings exist (Van Wagner 1987, Forestry Technical
///    Report 35);
///  - forest litter: the Keetch-Byram drought index (Keetch & Byram 1968, SE-38, with the erratum
///  of Alexander 1990);
///  - peat: depth of the water table.
/// The manager may raise the class (smoke seen, neighbours burning), never lower it below the rule.
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// One day's Fine Fuel Moisture Code, 0 (wet) to 101.
/// @param wind_km_h at 10 m; @param rain_mm of the last 24 h; @param before  yesterday's code (85
/// to start)
double fine_fuel_moisture_code(double noon_temperature_c, double noon_rh_pct, double wind_km_h,
                               double rain_mm, double before);

/// Net rain of the Keetch-Byram index: the first 0.20 in of each unbroken run of wet days is lost.
struct WetRun {
  double left = 0;  ///< of the loss not yet met; set to the whole loss after a dry day
  double net(double rain, double loss);
};

/// One day of the Keetch-Byram index in hundredths of an inch: net rain first, then drying, SE-38
/// eq. 18 with 8.30.
double keetch_byram_us(double before, double net_rain_in, double tmax_f, double annual_rain_in);
/// The same in mm, 0 to 203.2; no drying below 10 degC.
double keetch_byram_mm(double before_mm, double net_rain_mm, double tmax_c, double annual_rain_mm);
/// Variant of Finkele, Mills, Beard & Jones (2006): 5 mm loss, drying at yesterday's index. Check
/// only.
double keetch_byram_finkele_mm(double before_mm, double net_rain_mm, double tmax_c,
                               double annual_rain_mm);

/// Index for every day of the log from `start_mm` (0 = saturated). Missing Tmax: the log's mean
/// Tmax; missing rain: 0.
/// @return empty when there is no Tmax at all or the mean annual rain cannot be told (less than a
/// year of days)
std::vector<double> keetch_byram_series(const DailyWeather& daily, double start_mm = 0);

enum class FireClass { not_high, high, very_high, extreme };

struct FireInputs {
  std::optional<int> days_since_useful_rain;
  std::optional<double> afternoon_rh_pct;
  std::optional<double> cured_share;  ///< 0 to 1, from the weekly walk
  std::optional<double> fine_fuel_code;
  std::optional<double> keetch_byram_mm;
  std::optional<double> water_table_below_m;  ///< peat only; positive = below the surface
  std::optional<FireClass> manager_says;      ///< raised by the manager
};

struct FuelClass {
  std::optional<FireClass> value;  ///< empty: cannot be told
  Message reason;
};

struct FireResult {
  FuelClass grass, litter, peat;
  std::optional<FireClass> value;  ///< empty: no fuel could be judged
  bool raised = false;             ///< the manager's class is above the rule's
  Message first_line;
  std::vector<Message> notes;
};

/// The grass rule's thresholds, each {high, very high, extreme}.
struct GrassRule {
  std::array<double, 3> days{}, code{};
  double dry_air_pct = 0, cured_share = 0, green_share = 0;
};

GrassRule grass_rule(const Parameters& parameters);

/// Grass and fern by days without useful rain: one class up in dry air with cured grass (or when
/// the days alone already say high), one down while the grass is green; the Fine Fuel Moisture Code
/// where it says more. Nothing when neither was read.
std::optional<FireClass> grass_class(const FireInputs& inputs, const GrassRule& rule);

FireResult fire_class(const FireInputs& inputs, const Parameters& parameters);

}  // namespace wildling::climate
