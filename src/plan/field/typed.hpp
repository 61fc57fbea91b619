#pragma once
/// Reads what is typed from a slip: "A=12,B=4", "3:A=12,B=4", "1-12,15".
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "plan/result.hpp"

namespace wildling::plan {

/// Species codes of a plan's sheets, and names, to scientific names.
class SpeciesBook {
 public:
  /// @param plan  empty = names only
  SpeciesBook(const std::vector<std::string>& names, const std::optional<PlanResult>& plan);
  /// Code, scientific or local name, upper and lower case alike; empty when nothing fits.
  [[nodiscard]] std::optional<std::string> find(const std::string& written) const;

 private:
  std::map<std::string, std::string> names_;
};

using Counts = std::vector<std::pair<std::string, std::int64_t>>;  ///< as written, in order

/// "A=12,B=4" @throws Error{usage} naming the option, what was written and how it is written
Counts read_counts(const std::string& option, const std::string& text);

struct RowCounts {
  int row = 0;
  Counts counts = {};
};

/// "3:A=12,B=4" @throws as read_counts
RowCounts read_row(const std::string& option, const std::string& text);

/// "1-12,15" in order; rows 1 to 100,000, and no more than that in all. @throws as read_counts
std::vector<int> read_rows(const std::string& option, const std::string& text);

}  // namespace wildling::plan
