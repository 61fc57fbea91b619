#pragma once
/// Small steps for a reply's workings: leaves, and sums whose value is taken from their own
/// formula, so that what is shown and what is opened cannot differ.
#include <map>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "base/workings.hpp"
#include "climate/weather.hpp"
#include "plan/cells.hpp"

namespace wildling::plan::weather {

using Keys = std::vector<std::string>;

/// A number that is known, not computed.
struct Leaf {
  double value = 0;
  std::string unit = {};
  Origin origin = Origin::measured;
  std::string source = {};
  std::string note = {};
};

/// @return the key
std::string leaf(Workings& workings, std::string key, Message label, Leaf leaf);

/// The value is what the formula of that id gives for the inputs' values. @return the key
std::string computed(Workings& workings, std::string key, Message label, std::string unit,
                     const std::string& formula, Keys inputs);

/// Value of a node that is there.
double value_of(const Workings& workings, const std::string& key);

/// The leaf "parameter/KEY".
std::string parameter(Workings& workings, const Parameters& parameters, std::string_view key);

/// A count of things that were looked at, as a leaf.
std::string counted(Workings& workings, std::string key, Message label, std::int64_t n,
                    std::string unit, const climate::Station& station);

/// Renames every key that begins with `from` (nodes and inputs) and adds them all to `into`.
void add_renamed(Workings& into, const Workings& workings, const std::string& from,
                 const std::string& to);

/// The node's value; `whole`: as a count.
Cell cell_of(const Workings& workings, const std::string& key, bool whole = false);

/// The formulas of this folder: weather.sum, weather.count, weather.product ...
Formulas weather_formulas();

}  // namespace wildling::plan::weather
