#include <filesystem>
#include <iostream>

#include <CLI/CLI.hpp>

#include "base/files.hpp"
#include "cli/common.hpp"
#include "plan/sheet_kinds.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string kind, file, folder, day, crew, today;
  std::vector<std::string> blocks;
  bool overwrite = false;
};

int write_sheet(const Options& options, Context& context) {
  const Words words = context.words();
  const plan::SheetKind& kind = plan::sheet_kind(options.kind);
  plan::SheetWish wish;
  if (!options.day.empty()) wish.day = day_option(options.day, "--day");
  wish.blocks = options.blocks;
  wish.crew = options.crew;
  const Date today = today_or(options.today, context);
  const auto store = open_to_read(options.file, context, words);
  const plan::SheetContent content = kind.fill(*store, wish, today);
  make_folder(options.folder);
  for (const NamedBytes& file : context.faces.write_sheet(content, words)) {
    const std::string path = (std::filesystem::path(options.folder) / file.name).string();
    write_file(path, file.bytes, options.overwrite);
    std::cout << path << '\n';
  }
  return 0;
}

}  // namespace

void add_sheet(CLI::App& app, Context& context, Command& chosen) {
  auto options = std::make_shared<Options>();
  std::string kinds;
  for (const plan::SheetKind& kind : plan::sheet_kinds())
    kinds += (kinds.empty() ? "" : ", ") + kind.name;
  CLI::App* command = app.add_subcommand("sheet", "Prints one kind of sheet from the field book.");
  command->add_option("KIND", options->kind, kinds)->required();
  command->add_option("FILE", options->file, "the programme")->required();
  command->add_option("--to", options->folder, "folder to write to")->required();
  command->add_option("--day", options->day, "the day it is for, like 2026-11-25");
  command->add_option("--block", options->blocks, "code of a block; may be given several times");
  command->add_option("--crew", options->crew, "name of the crew leader");
  command->add_option("--today", options->today, "take this day as today");
  command->add_flag("--overwrite", options->overwrite, "write over files that are there");
  command->callback([options, &context, &chosen] {
    chosen = [options, &context] { return write_sheet(*options, context); };
  });
}

}  // namespace wildling::cli
