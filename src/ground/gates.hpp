#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/message.hpp"

namespace wildling::ground {

enum class Answer { not_asked, yes, no };

/// What somebody answered, with who and when, so that it can be asked again.
struct GateAnswer {
  Answer answer = Answer::not_asked;
  std::string who = {};
  std::optional<Date> day = {};
  std::string note = {};

  bool operator==(const GateAnswer&) const = default;
};

/// The four questions before any plan of a block.
struct Gates {
  GateAnswer consent = {};          ///< rights and consent: yes = we may plant and protect here
  GateAnswer fire_and_cattle = {};  ///< yes = fire and cattle can be kept out
  GateAnswer natural_trees_counted = {};  ///< yes = counted, and natural_trees_per_ha is the count
  std::optional<double> natural_trees_per_ha = {};
  GateAnswer drained_peat = {};  ///< no = it is not; yes = drained peat, rewet first

  bool operator==(const Gates&) const = default;
};

/// Closed: every output of the block says "draft, not for crews" and no seed, planting or crew list
/// leaves the office.
struct GateVerdict {
  bool open = false;
  std::vector<Message> reasons =
      {};  ///< one per question that is unanswered or adverse; empty when open

  bool operator==(const GateVerdict&) const = default;
};

/// Open only when consent is yes, fire and cattle is yes, natural trees are counted with a number
/// >= 0, and it is not drained peat.
GateVerdict judge(const Gates& gates);

}  // namespace wildling::ground
