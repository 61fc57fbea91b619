#include <iostream>

#include <CLI/CLI.hpp>

#include "base/csv.hpp"
#include "cli/common.hpp"
#include "cli/print_reply.hpp"
#include "plan/keep.hpp"
#include "plan/letter.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, format = "text";
};

// key, value, unit and origin of every number.
void print_csv(const store::Store& store) {
  std::cout << csv_line({"key", "value", "unit", "origin"});
  const Workings workings = plan::load_workings(store);
  for (const WorkingsNode& node : workings.nodes()) {
    std::cout << csv_line(
        {node.key, number_text(node.value), node.unit, std::string(origin_name(node.origin))});
  }
}

int show(const Options& options, Context& context) {
  const Words words = context.words();
  const auto store = open_to_read(options.file, context, words);
  if (options.format == "json") {
    std::cout << plan::plan_text(*store) << '\n';
  } else if (options.format == "csv") {
    print_csv(*store);
  } else {
    const plan::PlanResult result = plan::load_plan(*store);
    if (plan::is_stale(*store, result)) std::cerr << words.text("cli.show.stale") << '\n';
    print_parts(std::cout, plan::letter(result), words);
  }
  std::cout.flush();
  if (!std::cout) throw Error(ErrorKind::io, "", say("cli.output_failed"));
  return 0;
}

}  // namespace

void add_show(CLI::App& app, Context& context, Command& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("show", "Prints the newest plan.");
  command->add_option("FILE", options->file, "the programme")->required();
  command->add_option("--format", options->format, "text, csv or json")
      ->check(CLI::IsMember({"text", "csv", "json"}));
  command->callback([options, &context, &chosen] {
    chosen = [options, &context] { return show(*options, context); };
  });
}

}  // namespace wildling::cli
