#pragma once
#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "base/error.hpp"

namespace wildling::intake {

/// Findings of a long table: of many that say the same, the first five are told one by one and the
/// rest as a count.
class AlikeFindings {
 public:
  /// `about` tells kinds apart that share a sentence, such as the column.
  void add(Severity severity, std::string where, Message message, const std::string& about = {});

  /// All, kinds in the order of their first appearance.
  [[nodiscard]] Findings all(const std::string& file) const;

 private:
  struct Kind {
    Severity severity = Severity::note;
    Findings first = {};
    std::size_t count = 0;
  };

  std::vector<Kind> kinds_;
  std::map<std::string, std::size_t> places_;
};

}  // namespace wildling::intake
