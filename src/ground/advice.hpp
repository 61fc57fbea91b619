#pragma once
#include <optional>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "ground/block.hpp"

namespace wildling::ground {

enum class Method {
  protect,  ///< enough natural trees stand: keep fire, cattle and axes out
  assist,   ///< enough stand but grass, fern or climbers hold them down: free them, plant none
  plant,    ///< too few stand: plant what is missing among them
  not_yet   ///< something must be settled first
};

/// "protect" ...; the label is word key "ground.method.NAME".
std::string_view method_name(Method method);

/// The method advised for a block, why, and what would change it.
struct Advice {
  Method method = Method::not_yet;
  std::vector<Message> reasons = {};       ///< the first is the deciding one
  std::vector<Message> would_change = {};  ///< what, if found otherwise, would change the method
  double enough_natural_per_ha = 0;        ///< parameter ground.method.enough_natural_per_ha
  std::optional<double> missing_per_ha =
      {};  ///< stems short of it; empty while natural trees are not counted

  bool operator==(const Advice&) const = default;
};

/// Not yet: consent, fire and cattle, or the count of natural trees unanswered or adverse, or
/// drained peat. Otherwise by natural trees per hectare against ground.method.enough_natural_per_ha
/// (Elliott et al., FORRU: plant wherever fewer than 3,100 natural regenerants stand) and
/// ground.method.slow_regrowth_per_ha (below it, protection alone brings nothing back in a working
/// life). With enough trees the cover decides between protect and assist.
Advice advise(const Gates& gates, Cover cover, const Parameters& parameters);

}  // namespace wildling::ground
