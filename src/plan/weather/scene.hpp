#pragma once
/// What the weather room's questions read from the programme: blocks, the station's log, what
/// people saw at the blocks and on the weekly walk, what the manager said of fire, and wet months
/// as told.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "climate/fire.hpp"
#include "climate/verdict.hpp"
#include "plan/ask.hpp"
#include "plan/programme.hpp"

namespace wildling::plan::weather {

/// An answer somebody gave by looking, with the day it was seen.
template <class T>
struct Seen {
  std::optional<T> value = {};
  std::optional<Date> day = {};
  std::string who = {};
};

/// The newest answer to each question about a block, each at most so many days old
/// (weather.look_days; soil and river weather.fresh_days). Older ones are as if nobody had looked.
struct Look {
  Seen<bool> strip_cleared = {}, pits_dug = {}, stock_ready = {}, pit_drains = {},
             river_not_rising = {}, crew_and_way_in = {}, water_falling = {}, rewetted = {};
  Seen<climate::SoilSeen> soil = {};
  Seen<double> water_below_m = {};
  std::optional<Date> last = {};  ///< newest look of any age
  bool any = false;               ///< something counts today
};

struct FireWord {
  climate::FireClass value = climate::FireClass::high;
  std::string why = {}, who = {};
};

struct WetMonths {
  std::vector<int> months = {};  ///< 1 to 12
  std::string who = {};
  Date day = {};
};

struct Scene {
  Programme programme = {};
  std::optional<climate::WeatherBook> book = {};  ///< the station that is asked; empty: no log
  std::vector<std::string> stations = {};         ///< names of all, in order
  std::optional<double> distance_km = {};         ///< of the gauge, when far enough to be named
  std::map<std::string, Look> looks = {};         ///< by block uid
  std::optional<Seen<double>> cured_share = {};   ///< highest of the blocks' newest walks
  std::optional<FireWord> fire_word = {};         ///< highest of today
  std::optional<WetMonths> wet_months = {};
  Date today = {};

  [[nodiscard]] const Parameters& parameters() const { return programme.parameters; }
};

/// @throws Error{usage} when entries name a station or block that is not there
Scene scene(const store::Store& store, const Entries& entries, Date today);

/// The log of the station with that name. @throws Error{usage} that lists the stations
const climate::WeatherBook& book_named(const std::vector<climate::WeatherBook>& books,
                                       const std::string& name);

/// The blocks asked for: --block, or all. @throws Error{input} when there is no such block
std::vector<const ground::Block*> blocks_of(const Scene& scene, const Entries& entries);

/// True for drained peat, ground types that flood, and those called peat.
bool is_wet_ground(const Scene& scene, const ground::Block& block);

/// "The rain was read at the office, 14 km away." and "told by ...", where they hold.
std::vector<Message> gauge_caveats(const Scene& scene);

/// A table's caption with the gauge's place: key.away with station and km when the gauge is far,
/// else key.
Message from_gauge(const Scene& scene, Message message);

/// The log. @throws Error{input} that says how to take one in
const climate::WeatherBook& log_of(const Scene& scene);

}  // namespace wildling::plan::weather
