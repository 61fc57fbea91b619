#include <iostream>

#include <CLI/CLI.hpp>

#include "cli/common.hpp"
#include "cli/version.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, today;
  int port = 0;
  bool no_browser = false;
};

int open_page(const Options& options, Context& context) {
  OpenRequest request;
  request.file = options.file;
  request.port = options.port;
  if (!options.today.empty()) request.today = day_option(options.today, "--today");
  request.language = context.language;
  request.who = context.actor().who;
  request.program_version = program_version();
  request.browser = !options.no_browser;
  return context.faces.open(request);
}

}  // namespace

void add_open(CLI::App& app, Context& context, Command& chosen) {
  if (!context.faces.open) return;
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("open", "Opens the programme in the browser.");
  command->add_option("FILE", options->file, "the programme")->required();
  command->add_option("--port", options->port, "port on this machine; 0 or without it a free one")
      ->check(CLI::Range(0, 65535));
  command->add_option("--today", options->today,
                      "the day that counts as today; without it the machine's");
  command->add_flag("--no-browser", options->no_browser,
                    "print the address only, start no browser");
  command->callback([options, &context, &chosen] {
    chosen = [options, &context] { return open_page(*options, context); };
  });
}

}  // namespace wildling::cli
