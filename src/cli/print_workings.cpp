#include "cli/print_workings.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <nlohmann/json.hpp>

#include "base/error.hpp"
#include "plan/chain.hpp"
#include "plan/node_json.hpp"

namespace wildling::cli {
namespace {

constexpr int kDeepest = 4;        // levels of inputs printed
constexpr std::size_t kMost = 12;  // inputs printed of one number; the count of the others is said

class Printer {
 public:
  Printer(std::ostream& out, const Workings& workings, const Formulas& formulas, const Words& words)
      : out_(out), workings_(workings), formulas_(formulas), words_(words) {}

  void print(const std::string& key, int depth) {
    const WorkingsNode* node = workings_.find(key);
    if (node == nullptr) return;
    const std::string indent(static_cast<std::size_t>(2 * depth), ' ');
    out_ << indent << words_.text(node->label) << " = " << value_text(*node) << "  ("
         << words_.text("base.origin." + std::string(origin_name(node->origin))) << ")  [" << key
         << "]\n";
    print_formula(*node, indent);
    if (!node->source.empty())
      out_ << indent << "  " << words_.text("cli.explain.source") << " " << node->source << '\n';
    if (!node->note.empty())
      out_ << indent << "  " << words_.text("cli.explain.note") << " " << node->note << '\n';
    if (!seen_.insert(key).second || depth >= kDeepest) return;
    for (std::size_t i = 0; i < std::min(kMost, node->inputs.size()); ++i)
      print(node->inputs[i], depth + 1);
    if (node->inputs.size() > kMost) {
      out_ << indent << "  "
           << words_.text("cli.explain.more",
                          {{"count", static_cast<std::int64_t>(node->inputs.size() - kMost)}})
           << '\n';
    }
  }

 private:
  [[nodiscard]] std::string value_text(const WorkingsNode& node) const {
    const double size = std::abs(node.value);
    const int decimals = node.value == std::floor(node.value) ? 0
                         : size >= 100                        ? 1
                         : size >= 1                          ? 2
                                                              : 4;
    return words_.number(node.value, decimals) + (node.unit.empty() ? "" : " " + node.unit);
  }

  void print_formula(const WorkingsNode& node, const std::string& indent) const {
    for (const Formula& formula : formulas_) {
      if (formula.id != node.formula) continue;
      out_ << indent << "  " << words_.text("cli.explain.formula") << " " << formula.text << '\n';
      if (!formula.source.empty()) {
        out_ << indent << "  " << words_.text("cli.explain.source") << " " << formula.source
             << '\n';
      }
    }
  }

  std::ostream& out_;
  const Workings& workings_;
  const Formulas& formulas_;
  const Words& words_;
  std::set<std::string> seen_;
};

void add_json(const Workings& workings, const std::string& key, nlohmann::json& nodes,
              std::set<std::string>& seen) {
  const WorkingsNode* node = workings.find(key);
  if (node == nullptr || !seen.insert(key).second) return;
  nodes.push_back(*node);
  for (const std::string& input : node->inputs) add_json(workings, input, nodes, seen);
}

}  // namespace

void print_workings(std::ostream& out, const Workings& workings, const std::string& key,
                    const Words& words) {
  const Formulas formulas = plan::all_formulas();
  Printer(out, workings, formulas, words).print(key, 0);
}

std::string workings_text(const Workings& workings, const std::string& key) {
  nlohmann::json nodes = nlohmann::json::array();
  std::set<std::string> seen;
  add_json(workings, key, nodes, seen);
  return nodes.dump(1);
}

void check_key(const Workings& workings, const std::string& key) {
  if (workings.find(key) != nullptr) return;
  std::string near;
  for (const WorkingsNode& node : workings.nodes()) {
    if (node.key.find(key) == std::string::npos) continue;
    near += (near.empty() ? "" : ", ") + node.key;
    if (near.size() > 200) break;
  }
  throw Error(ErrorKind::usage, key,
              near.empty() ? say("cli.explain.unknown")
                           : say("cli.explain.did_you_mean", {{"keys", near}}));
}

}  // namespace wildling::cli
