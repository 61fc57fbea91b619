#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/workings.hpp"
#include "species/species.hpp"

namespace wildling::nursery {

/// A step at which a batch is thinned, in the order of the work.
enum class StageName {
  sound,         ///< seed that is whole after sorting and floating
  germination,   ///< sown sound seed that comes up
  recovery,      ///< lifted wildling seedlings that root again in closed humid shade
  pricking_out,  ///< germinated that live two weeks after pricking out
  growing_on,    ///< potted that live to hardening off
  hardening,     ///< live through hardening off
  grading,       ///< fit to plant at grading out
  transport      ///< alive at the planting pit
};

std::string_view stage_word(StageName stage);  ///< "sound", "germination" ...

/// What somebody knows better than the book about one stage of one species.
struct ToldStage {
  StageName stage = StageName::germination;
  double mean = 1;                    ///< share that passes, in (0, 1]
  std::optional<double> correlation;  ///< within a batch; empty: the parameter's
  Origin origin = Origin::told;
  std::string source;  ///< who and when, or the record
};

/// What one species of the order needs, and what is there.
struct Order {
  std::string species;     ///< name to show
  long long to_field = 0;  ///< alive at the planting pit; 0: only a possible stand-in
  const species::Species* facts = nullptr;  ///< null: nothing is known
  long long ready = 0;                 ///< seedlings in the nursery that can be planted this season
  std::optional<long long> can_raise;  ///< what the nursery says it can still raise
  std::optional<int> mother_trees;     ///< known and tagged
  int lots = 1;  ///< seed lots raised apart, each with luck of its own, 1 to 12
  std::vector<ToldStage> told;
  std::optional<bool>
      fruit_seen;  ///< ripe or ripening fruit seen this season; empty: nobody looked
  std::optional<double> seeds_per_kg_of_fruit;  ///< own count; replaces the library
};

/// The two days all dates hang on.
struct Season {
  Date planting_first = {};  ///< first day of the planting window
  Date today = {};
};

}  // namespace wildling::nursery
