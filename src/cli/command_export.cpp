#include <filesystem>
#include <iostream>

#include <CLI/CLI.hpp>

#include "cli/common.hpp"
#include "plan/export_files.hpp"
#include "plan/keep.hpp"
#include "plan/programme.hpp"

namespace wildling::cli {
namespace {

struct Options {
  std::string file, folder;
  bool overwrite = false;
};

int export_all(const Options& options, Context& context) {
  const Words words = context.words();
  const auto store = open_to_read(options.file, context, words);
  const plan::PlanResult result = plan::load_plan(*store);
  const Parameters parameters = plan::load_programme(*store).parameters;
  if (plan::is_stale(*store, result)) std::cerr << words.text("cli.show.stale") << '\n';
  make_folder(options.folder);
  std::vector<std::string> names =
      plan::write_tables(result, parameters, options.folder, words, options.overwrite);
  for (const std::string& name :
       context.faces.write_paper(result, parameters, options.folder, words, options.overwrite)) {
    names.push_back(name);
  }
  for (const std::string& name : names)
    std::cout << (std::filesystem::path(options.folder) / name).string() << '\n';
  return 0;
}

}  // namespace

void add_export(CLI::App& app, Context& context, Command& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("export", "Writes every file that leaves the office.");
  command->add_option("FILE", options->file, "the programme")->required();
  command->add_option("--to", options->folder, "folder to write to")->required();
  command->add_flag("--overwrite", options->overwrite, "write over files that are there");
  command->callback([options, &context, &chosen] {
    chosen = [options, &context] { return export_all(*options, context); };
  });
}

}  // namespace wildling::cli
