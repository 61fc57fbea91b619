#include <iostream>

#include <CLI/CLI.hpp>

#include "cli/common.hpp"

namespace wildling::cli {

void add_new(CLI::App& app, Context& context, Command& chosen) {
  struct Options {
    std::string file, name, today;
    std::optional<double> spacing_m;
  };

  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("new", "Makes a programme file.");
  command->add_option("FILE", options->file, "the programme file to make")->required();
  command->add_option("--name", options->name, "what the programme is called on every paper")
      ->required();
  command->add_option("--spacing", options->spacing_m, "distance between seedlings, metres");
  command->add_option("--today", options->today,
                      "the day that counts as today; without it the machine's");
  command->callback([options, &context, &chosen] {
    chosen = [options, &context] {
      const Words words = context.words();
      today_or(options->today, context);
      if (options->spacing_m) {
        Parameters::shipped().set("layout.spacing", *options->spacing_m, Origin::told, "", "");
      }
      const auto store = store::create_file(options->file, context.outside);
      plan::start_programme(*store, options->name, options->spacing_m, context.actor());
      std::cerr << words.text("cli.new.done", {{"file", options->file}, {"name", options->name}})
                << '\n';
      return 0;
    };
  });
}

}  // namespace wildling::cli
