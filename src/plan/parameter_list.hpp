#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/parameters.hpp"
#include "plan/take.hpp"
#include "store/store.hpp"

namespace wildling::plan {

/// A parameter as the programme has it, beside the shipped one.
struct ParameterEntry {
  Parameter now = {};
  double shipped = 0;
  std::int64_t row_version = 0;  ///< of the programme's own value; 0 = it has none
};

/// All parameters, by key.
std::vector<ParameterEntry> parameter_list(const store::Store& store);

std::optional<ParameterEntry> parameter_entry(const store::Store& store, const std::string& key);

/// take_parameter for someone who saw version `row_version` (0 = the shipped value).
/// @throws Error{conflict} when it was changed since; Error{input} as Parameters::set
void change_parameter(store::Store& store, const std::string& key, double value, Origin origin,
                      const std::string& source, std::int64_t row_version, const Actor& actor);

}  // namespace wildling::plan
