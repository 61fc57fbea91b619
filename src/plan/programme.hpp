#pragma once
/// plan: from what the programme file knows to a plan a crew can follow. It reads the file into
/// plain structs, runs the science rooms in their order (land, weather, species and mix, places,
/// nursery, tending, money), keeps the result with the workings of every number, and fills sheets
/// and tables from a kept plan. The science and its sources are in the rooms below.
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/parameters.hpp"
#include "climate/weather.hpp"
#include "ground/block.hpp"
#include "species/candidate.hpp"
#include "store/store.hpp"

namespace wildling::plan {

/// Everything a plan is made from.
struct Programme {
  std::string name = {};
  bool invented_figures = false;                         ///< demonstration: every page says so
  std::vector<ground::Block> blocks = {};                ///< by code order of entry
  std::map<std::string, std::string> site_uids = {};     ///< site code to uid
  std::map<std::string, double> site_perimeters_m = {};  ///< site code to length of its outline
  std::vector<std::string> flooded_ground = {};  ///< ground types that flood in an ordinary year
  std::optional<climate::WeatherBook> weather = {};
  std::vector<species::Candidate> candidates = {};
  Parameters parameters = {};
};

/// Reads the programme. @throws Error as the store does
Programme load_programme(const store::Store& store);

/// The blocks with their gates and the water lines, by order of entry.
std::vector<ground::Block> programme_blocks(const store::Store& store);

/// The shipped parameters with the programme's own laid over them.
Parameters programme_parameters(const store::Store& store);

/// Name of the programme and whatever else its table `settings` holds.
std::map<std::string, std::string> programme_settings(const store::Store& store);

/// The logs of all stations that have any reading, in the order they were taken in. Rain read over
/// several days stands in the totals, its days are missing in rain_mm.
std::vector<climate::WeatherBook> load_weather_books(const store::Store& store);

/// Hash over all inputs that a plan depends on (SHA-256 over the stored rows, sorted by uid,
/// without who and when, and over the shipped parameters); 64 hexadecimal digits.
std::string fingerprint(const store::Store& store, const Parameters& parameters);

}  // namespace wildling::plan
