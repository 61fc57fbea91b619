#pragma once
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "base/workings.hpp"

namespace wildling {

/// A number that lives in data/parameters/ROOM.csv, with its origin.
struct Parameter {
  std::string key;  ///< "nursery.yield.germination"
  double value = 0;
  std::optional<double> low;   ///< what a user may enter at least
  std::optional<double> high;  ///< and at most
  std::string unit;
  Origin origin = Origin::assumed;
  std::string source;
  std::string note;
};

/// All parameters: the shipped ones, over which a programme lays its own.
class Parameters {
 public:
  /// Reads every embedded data/parameters/*.csv. Throws Error{internal} on a faulty file (a test
  /// would have seen it).
  static Parameters shipped();

  /// @throws Error{internal} when there is no such key
  [[nodiscard]] const Parameter& at(std::string_view key) const;

  [[nodiscard]] double value(std::string_view key) const { return at(key).value; }

  [[nodiscard]] const Parameter* find(std::string_view key) const;

  [[nodiscard]] const std::map<std::string, Parameter, std::less<>>& all() const {
    return parameters_;
  }

  /// Lays a value over the shipped one.
  /// @throws Error{input} if the key is unknown or the value outside [low, high]; then nothing
  /// changed
  void set(std::string_view key, double value, Origin origin, std::string source, std::string note);

  /// Adds from CSV text with the columns key,value,low,high,unit,origin,source,note.
  /// @throws Error{input} with file and line
  void add_csv(std::string_view text, const std::string& file);

 private:
  std::map<std::string, Parameter, std::less<>> parameters_;
};

/// Adds the parameter as a leaf "parameter/KEY" labelled by word key "parameter.KEY"; returns its
/// key.
std::string add_parameter(Workings& workings, const Parameter& parameter);

}  // namespace wildling
