#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "base/workings.hpp"
#include "species/species.hpp"

namespace wildling::species {

/// What the programme says about its stock of one species. Empty = not said.
struct StockLine {
  std::string species;          ///< scientific name as matched; empty when no name matched
  std::string name_as_written;  ///< as it stands in the programme's table
  std::optional<int> seedlings_ready;
  std::optional<int> can_raise;  ///< further seedlings that could be ready for this season
  std::optional<int> mother_trees;
  std::optional<double> price_per_seedling;  ///< in the programme's currency
  std::string nursery;
  std::string source;  ///< "species.csv:7"

  bool operator==(const StockLine&) const = default;
};

/// The programme's own survival of a species on one kind of ground.
struct OwnSurvival {
  double alive_pct = 0;              ///< of the planted, in [0, 100]
  std::optional<double> age_months;  ///< age at which it was counted; empty: parameter
                                     ///< species.own_survival_age
  Origin origin = Origin::told;      ///< measured when it comes from a count
  std::string source;                ///< "species.csv:7, column survival_open_pct"

  bool operator==(const OwnSurvival&) const = default;
};

/// A species the programme could plant.
struct Candidate {
  Species species;
  StockLine stock;
  std::optional<OwnSurvival> own_open;   ///< column survival_open_pct
  std::optional<OwnSurvival> own_cover;  ///< column survival_shade_pct
  bool use = true;                       ///< column use; false: the manager left it out
  std::vector<Message> unknowns;

  /// Scientific name, else the name as written.
  [[nodiscard]] const std::string& name() const {
    return species.scientific_name.empty() ? stock.name_as_written : species.scientific_name;
  }
};

}  // namespace wildling::species
