#include <iostream>

#include <CLI/CLI.hpp>

#include "cli/common.hpp"
#include "plan/ask.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, today;
  plan::Entries entries;
};

int keep(const plan::Note& note, const Options& options, Context& context) {
  const Words words = context.words();
  plan::check_entries(note.fields, options.entries);
  const auto store = open_to_write(options.file, context, words);
  const Message kept =
      note.keep(*store, options.entries, today_or(options.today, context), context.actor());
  std::cout << words.text(kept) << '\n';
  return 0;
}

void add_kind(CLI::App& app, const plan::Note& note, Context& context, Command& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(note.name, note.help);
  command->add_option("FILE", options->file, "the programme")->required();
  add_fields(*command, note.fields, options->entries);
  command->add_option("--today", options->today,
                      "the day that counts as today; without it the machine's");
  command->callback([options, &note, &context, &chosen] {
    chosen = [options, &note, &context] { return keep(note, *options, context); };
  });
}

}  // namespace

void add_note(CLI::App& app, Context& context, Command& chosen) {
  if (plan::notes().empty()) return;
  CLI::App* command = app.add_subcommand("note", "Writes one line into the programme's books.");
  command->require_subcommand(1);
  for (const plan::Note& note : plan::notes()) add_kind(*command, note, context, chosen);
}

}  // namespace wildling::cli
