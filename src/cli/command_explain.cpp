#include <iostream>

#include <CLI/CLI.hpp>

#include "cli/common.hpp"
#include "cli/print_workings.hpp"
#include "plan/keep.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, key, format = "text";
};

int explain(const Options& options, Context& context) {
  const Words words = context.words();
  const auto store = open_to_read(options.file, context, words);
  const Workings workings = plan::load_workings(*store);
  check_key(workings, options.key);
  if (options.format == "json") {
    std::cout << workings_text(workings, options.key) << '\n';
  } else {
    print_workings(std::cout, workings, options.key, words);
  }
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
