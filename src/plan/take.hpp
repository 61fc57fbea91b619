#pragma once
/// What a person does to a programme: each call is one act, kept whole or not at all.
#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "climate/weather.hpp"
#include "ground/block.hpp"
#include "species/candidate.hpp"
#include "store/store.hpp"

namespace wildling::plan {

/// Who acts, and through which face.
struct Actor {
  std::string who = {};
  std::string face = "command line";
};

/// The file that an act takes in.
struct TakenFile {
  std::string name = {};  ///< without folder
  std::string sha256 = {};
  std::int64_t bytes = 0;
  std::int64_t read = 0, kept = 0, set_aside = 0;
  Findings findings = {};
};

struct NewSite {
  std::string name = {};
  ground::Shape shape = {};
  std::string ground_type = {};
  ground::Cover cover = ground::Cover::running_grass;
  std::optional<double> slope_deg = {};
  bool floods = false;
  double vertex_error_m = 0;
};

/// @param spacing_m  both distances of the grid; empty = the shipped parameter
void start_programme(store::Store& store, const std::string& name, std::optional<double> spacing_m,
                     const Actor& actor);

/// Keeps the sites and divides each into blocks of at most plan.block_most_ha. Codes: B1, B2 ...
/// @return the codes of the new blocks
std::vector<std::string> take_sites(store::Store& store, const std::vector<NewSite>& sites,
                                    const TakenFile& file, const Actor& actor);

void take_water(store::Store& store, const std::vector<ground::Line>& lines, const TakenFile& file,
                const Actor& actor);

/// @param replace  the days take the place of those the station of that name has; without it, days
/// that
///                 are there already are an Error{conflict}-free refusal (Error{input})
void take_weather(store::Store& store, const climate::WeatherBook& book, bool replace,
                  const TakenFile& file, const Actor& actor);

/// Replaces the list of candidates.
void take_candidates(store::Store& store, const std::vector<species::Candidate>& candidates,
                     const TakenFile& file, const Actor& actor);

/// Answers to some of the four questions; empty = keep the old one.
struct GateUpdate {
  std::optional<ground::Answer> consent = {}, fire_and_cattle = {}, drained_peat = {};
  bool natural_trees_said = false;
  std::optional<double> natural_trees_per_ha =
      {};  ///< with natural_trees_said: empty = not counted
  std::string who = {};
  std::optional<Date> day = {};
  std::string note = {};
};

/// @param block_or_site  a block's code, a site's name, or empty for all blocks
/// @return number of blocks answered for
/// @throws Error{input} when there is no such block or site, or a number is negative
int take_answers(store::Store& store, const std::string& block_or_site, const GateUpdate& update,
                 const Actor& actor);

/// Lays a value over a shipped parameter. @throws Error{input} as Parameters::set
void take_parameter(store::Store& store, const std::string& key, double value, Origin origin,
                    const std::string& source, const Actor& actor);

}  // namespace wildling::plan
