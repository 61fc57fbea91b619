#pragma once
#include <string>
#include <vector>

#include "base/parameters.hpp"
#include "base/workings.hpp"
#include "plan/cells.hpp"

namespace wildling::plan {

/// Adds nodes to the workings of one reply; labels are word keys "fieldbook.label.NAME".
class FieldNodes {
 public:
  explicit FieldNodes(Workings& workings) : workings_(workings) {}

  std::string leaf(const std::string& key, Message label, double value, const std::string& unit,
                   Origin origin, const std::string& source = {});
  std::string node(const std::string& key, Message label, double value, const std::string& unit,
                   const std::string& formula, std::vector<std::string> inputs);
  std::string parameter(const Parameters& parameters, const std::string& key);

 private:
  Workings& workings_;
};

/// Formulas of the field book's replies; part of all_formulas().
Formulas field_book_formulas();

}  // namespace wildling::plan
