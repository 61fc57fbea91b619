#include <algorithm>
#include <cmath>
#include <iostream>
#include <set>

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include "base/csv.hpp"
#include "cli/common.hpp"
#include "plan/chain.hpp"
#include "plan/keep.hpp"
#include "plan/message_json.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, key, format = "text";
};

constexpr int kDeepest = 4;        // levels of inputs printed
constexpr std::size_t kMost = 12;  // inputs printed of one number; the count of the others is said

class Printer {
 public:
  Printer(const Workings& workings, const Formulas& formulas, const Words& words)
      : workings_(workings), formulas_(formulas), words_(words) {}

  void print(const std::string& key, int depth) {
    const WorkingsNode* node = workings_.find(key);
    if (node == nullptr) return;
    const std::string indent(static_cast<std::size_t>(2 * depth), ' ');
    std::cout << indent << words_.text(node->label) << " = " << value_text(*node) << "  ("
              << words_.text("base.origin." + std::string(origin_name(node->origin))) << ")  ["
              << key << "]\n";
    print_formula(*node, indent);
    if (!node->source.empty())
      std::cout << indent << "  " << words_.text("cli.explain.source") << " " << node->source
                << '\n';
    if (!node->note.empty())
      std::cout << indent << "  " << words_.text("cli.explain.note") << " " << node->note << '\n';
    if (!seen_.insert(key).second || depth >= kDeepest) return;
    for (std::size_t i = 0; i < std::min(kMost, node->inputs.size()); ++i)
      print(node->inputs[i], depth + 1);
    if (node->inputs.size() > kMost) {
      std::cout << indent << "  "
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
      std::cout << indent << "  " << words_.text("cli.explain.formula") << " " << formula.text
                << '\n';
      if (!formula.source.empty()) {
        std::cout << indent << "  " << words_.text("cli.explain.source") << " " << formula.source
                  << '\n';
      }
    }
  }

  const Workings& workings_;
  const Formulas& formulas_;
  const Words& words_;
  std::set<std::string> seen_;
};

void add_json(const Workings& workings, const std::string& key, nlohmann::json& nodes,
              std::set<std::string>& seen) {
  const WorkingsNode* node = workings.find(key);
  if (node == nullptr || !seen.insert(key).second) return;
  nodes.push_back({{"key", node->key},
                   {"label", node->label},
                   {"value", node->value},
                   {"unit", node->unit},
                   {"origin", origin_name(node->origin)},
                   {"formula", node->formula},
                   {"source", node->source},
                   {"note", node->note},
                   {"inputs", node->inputs}});
  for (const std::string& input : node->inputs) add_json(workings, input, nodes, seen);
}

[[noreturn]] void refuse_key(const Workings& workings, const std::string& key) {
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

int explain(const Options& options, Context& context) {
  const Words words = context.words();
  const auto store = open_to_read(options.file, context, words);
  const Workings workings = plan::load_workings(*store);
  if (workings.find(options.key) == nullptr) refuse_key(workings, options.key);
  if (options.format == "json") {
    nlohmann::json nodes = nlohmann::json::array();
    std::set<std::string> seen;
    add_json(workings, options.key, nodes, seen);
    std::cout << nodes.dump(1) << '\n';
    return 0;
  }
  const Formulas formulas = plan::all_formulas();
  Printer(workings, formulas, words).print(options.key, 0);
  return 0;
}

}  // namespace

void add_explain(CLI::App& app, Context& context, Command& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("explain", "Prints the workings of one number.");
  command->add_option("FILE", options->file, "the programme")->required();
  command->add_option("KEY", options->key, "key of the number")->required();
  command->add_option("--format", options->format, "text or json")
      ->check(CLI::IsMember({"text", "json"}));
  command->callback([options, &context, &chosen] {
    chosen = [options, &context] { return explain(*options, context); };
  });
}

}  // namespace wildling::cli
