#pragma once
/// Planting today, in 3, 7, 14 days: in how many past years, from today's soil water on, would a
/// seedling have met no killing dry spell? Rain after today is that of each past year from the same
/// day on (analogue years) and, where the log can carry it, of invented continuations. A chance of
/// weather, not of survival, until the programme's own deaths by planting date fit it.
#include <optional>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "base/random.hpp"
#include "climate/generator.hpp"
#include "climate/planting_window.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// The soil poked by hand today; it overrides the balance.
enum class SoilSeen { not_looked, moist_to_bottom, dry };

struct OutlookDelay {
  int days = 0;              ///< planting so many days from today
  int good = 0, judged = 0;  ///< analogue years
  std::vector<int> good_years, bad_years;
  double share_low = 0, share_high = 0;  ///< Wilson 95 %
  int simulated_good = 0, simulated = 0;
};

struct Outlook {
  Date today;
  std::optional<Message> refused;   ///< old log, no years
  double ball_mm = 0, hole_mm = 0;  ///< today, after the spade
  double ball_holds_mm = 0, hole_holds_mm = 0;
  int days_since_useful_rain = -1;  ///< -1 unknown
  double rain_14_days_mm = 0;
  int missing_14_days = 0;
  std::vector<OutlookDelay> delays;
  Message first_line;
  std::vector<Message> caveats;
};

struct OutlookSettings {
  std::vector<int> delays = {0, 3, 7, 14};
  int simulations = 0;  ///< 0 = analogue years only
  Seed seed = {};
};

/// @param today  a day of the log, or at most climate.log.old_after_days after its last reading
/// (missing days count as dry)
Outlook planting_outlook(const WeatherBook& book, Date today, SoilSeen soil,
                         const OutlookSettings& settings, const Parameters& parameters);

/// Every ten days of the log advised again with only the years before it.
struct HindcastDay {
  Date day;
  double forecast = 0;  ///< k / n of the analogue years before that day
  int years = 0;        ///< n
  double usual = 0;     ///< share of good outcomes of the same ten days in the years before
  bool good = false;    ///< what happened
};

struct ReliabilityBin {
  double from = 0, to = 0;
  int days = 0;
  double sum_forecast = 0, sum_good = 0;
  double mean_forecast = 0, share_good = 0;  ///< sums over days; 0 without days
};

struct Hindcast {
  std::optional<Message> refused;
  std::vector<HindcastDay> days;
  double brier = 0, brier_usual = 0;
  double skill = 0;                         ///< 1 - brier / brier_usual; 0 when brier_usual is 0
  std::vector<ReliabilityBin> reliability;  ///< five bins
  Message first_line;                       ///< good or poor, as it is
};

Hindcast hindcast(const WeatherBook& book, const Parameters& parameters);

}  // namespace wildling::climate
