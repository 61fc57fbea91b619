#include <iostream>

#include <CLI/CLI.hpp>

#include "cli/common.hpp"

namespace wildling::cli {

void add_set(CLI::App& app, Context& context, Command& chosen) {
  struct Options {
    std::string file, key, source, origin = "told";
    double value = 0;
  };

  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("set", "Lays your own number over a shipped one.");
  command->add_option("FILE", options->file, "the programme")->required();
  command->add_option("KEY", options->key, "name of the number, as explain prints it")->required();
  command->add_option("VALUE", options->value, "the new value, in the unit of the number")
      ->required();
  command->add_option("--source", options->source, "who says so and when, or publication and place")
      ->required();
  command->add_option("--origin", options->origin, "measured, told, documented or assumed");
  command->callback([options, &context, &chosen] {
    chosen = [options, &context] {
      const Words words = context.words();
      const auto origin = parse_origin(options->origin);
      if (!origin || *origin == Origin::computed || *origin == Origin::chosen) {
        throw Error(ErrorKind::usage, "--origin",
                    say("cli.set.origin", {{"value", options->origin}}));
      }
      const auto store = open_to_write(options->file, context, words);
      plan::take_parameter(*store, options->key, options->value, *origin, options->source,
                           context.actor());
      std::cerr << words.text("cli.set.done", {{"key", options->key}, {"value", options->value}})
                << '\n';
      return 0;
    };
  });
}

}  // namespace wildling::cli
