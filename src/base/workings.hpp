#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/message.hpp"

namespace wildling {

/// Where a number comes from. What is assumed must never look known.
enum class Origin {
  measured,    ///< on this site, by this programme
  told,        ///< by somebody; the source says whom and when
  documented,  ///< elsewhere; the source says where and in which year
  assumed,     ///< chosen by us; the note says why
  computed,    ///< from its inputs by a formula
  chosen       ///< decided by a solver or by the manager; constraints on it are computed nodes
};

std::string_view origin_name(Origin origin);  ///< "measured" ...
std::optional<Origin> parse_origin(std::string_view name);

/// One number a person may see, or an input of one.
struct WorkingsNode {
  std::string
      key;  ///< unique within a plan: "block/B1/planted", "parameter/nursery.yield.germination"
  Message label;  ///< catalogue key and arguments
  double value = 0;
  std::string unit;  ///< "mm", "stems/ha", "" for a pure number
  Origin origin = Origin::computed;
  std::string formula;              ///< id of a Formula; empty for a leaf
  std::string source;               ///< publication and place, person and date, or file and lines
  std::string note;                 ///< why this value, for what is assumed
  std::vector<std::string> inputs;  ///< keys, in the order the formula takes them

  bool operator==(const WorkingsNode&) const = default;
};

/// A rule that turns inputs into a value. `evaluate` must be pure: a test re-evaluates every stored
/// node.
struct Formula {
  std::string id;  ///< "nursery.smallest_order"
  std::string
      text;  ///< as a person would write it: "planted = target / alive", symbols as in the source
  std::string source;
  double (*evaluate)(std::span<const double> inputs) = nullptr;
};

using Formulas = std::vector<Formula>;

/// The workings of a plan: nodes in the order they were added, found by key.
class Workings {
 public:
  /// A key that is there already keeps its first node; the two must be equal (assert).
  /// @return the key, to be used as input of others
  std::string add(WorkingsNode node);
  [[nodiscard]] const WorkingsNode* find(std::string_view key) const;

  [[nodiscard]] const std::vector<WorkingsNode>& nodes() const { return nodes_; }

  /// Adds all nodes of `other`.
  void append(const Workings& other);

 private:
  std::vector<WorkingsNode> nodes_;
  std::unordered_map<std::string, std::size_t> index_;
};

/// Re-evaluates every computed node from its inputs' stored values.
/// @return keys of nodes whose formula or inputs are missing, or whose value differs by more than
///         1e-9 relative (or 1e-12 absolute); empty when all hold
std::vector<std::string> nodes_that_do_not_hold(const Workings& workings,
                                                std::span<const Formula> formulas);

}  // namespace wildling
