#pragma once
/// Keeping a weather log that was read: new days, a log in place of the old one, or corrections
/// day by day. Every value that changes is a finding, and the old value stays in the change log.
#include <string>
#include <vector>

#include "climate/weather.hpp"
#include "plan/take.hpp"
#include "store/store.hpp"

namespace wildling::plan {

enum class TakeDays {
  fresh,    ///< days the station does not have yet; refused when one of them is there
  replace,  ///< the log becomes the station's only one: days it does not have are removed
  correct   ///< days of the log are added or corrected; what it leaves blank stays
};

struct WeatherTaking {
  TakeDays days = TakeDays::fresh;
  bool main = false;  ///< the station speaks for the programme from now on
  /// Where each day and each total of the log stands ("rain.csv:12"); may be empty.
  std::vector<std::string> places = {}, total_places = {};
};

struct WeatherTaken {
  std::string station_uid = {};
  bool main = false;  ///< it is the programme's main station now
  std::int64_t added = 0, changed = 0, same = 0, removed = 0;  ///< days
  Findings findings = {};  ///< of what changed; they are kept with the file's own
};

/// @throws Error{input} with TakeDays::fresh when a day or total of the log is there already
WeatherTaken take_weather(store::Store& store, const climate::WeatherBook& book,
                          const WeatherTaking& how, const TakenFile& file, const Actor& actor);

/// Uid of the station that speaks for the programme: the one chosen, else the first taken in that
/// has a reading. Empty: there is none.
std::string main_station(const store::Store& store);

}  // namespace wildling::plan
