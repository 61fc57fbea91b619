#include "cli/cli.hpp"

#include <iostream>

#include <CLI/CLI.hpp>

#include "base/embedded.hpp"
#include "base/progress.hpp"
#include "cli/common.hpp"
#include "cli/version.hpp"

namespace wildling::cli {
namespace {

std::string language_of(const std::string& wanted) {
  return parse_language(wanted) ? wanted : std::string("en");
}

int complain(const Error& error, const Words& words) {
  std::cerr << words.text(error) << '\n';
  return exit_code(error.kind());
}

int work(const Command& command, const Context& context) {
  try {
    return command();
  } catch (const Error& error) {
    return complain(error, context.words());
  } catch (const Cancelled&) {
    std::cerr << context.words().text("cli.cancelled") << '\n';
    return 1;
  } catch (const std::bad_alloc&) {
    std::cerr << context.words().text("cli.no_memory") << '\n';
    return 1;
  } catch (const std::exception& fault) {
    std::cerr << context.words().text("cli.fault", {{"what", std::string(fault.what())}}) << '\n';
    return 1;
  }
}

std::vector<std::string> command_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
    names.push_back(command->get_name());
  return names;
}

// Empty, or the sentence for a first word that names no command.
std::optional<Error> no_such_command(const CLI::App& app, int argc, const char* const* argv) {
  if (argc < 2 || argv[1][0] == '-') return {};
  std::string listed;
  for (const std::string& name : command_names(app)) {
    if (name == argv[1]) return {};
    listed += (listed.empty() ? "" : ", ") + name;
  }
  return Error(ErrorKind::usage, argv[1], say("cli.no_command", {{"names", listed}}));
}

// CLI11's own sentences are English; the exit code and the next step are ours.
int refuse(const CLI::App& app, const CLI::ParseError& error, const Context& context) {
  if (error.get_exit_code() == 0) return app.exit(error);
  std::cerr << error.what() << '\n' << context.words().text("cli.see_help") << '\n';
  return 2;
}

}  // namespace

int run(int argc, const char* const* argv, const Faces& faces) {
  Context context;
  context.faces = faces;
  Command chosen;
  CLI::App app(
      "Plans the restoration of tropical rainforest from a walked boundary, a weather log and a "
      "species list.",
      "wildling");
  app.require_subcommand(1);
  app.fallthrough();
  app.add_option("--lang", context.language,
                 "en or id, the language of everything that people read");
  app.add_option("--as", context.who, "your name, for the log of changes");
  app.set_version_flag("--version", version_text);
  for (const auto add : {add_new, add_take, add_answer, add_set, add_plan, add_show, add_explain,
                         add_export, add_sheet, add_note, add_open, add_questions}) {
    add(app, context, chosen);
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (const auto fault = no_such_command(app, argc, argv))
      return complain(*fault, context.words());
    return refuse(app, error, context);
  }
  if (!context.language.empty() && !parse_language(context.language)) {
    return complain(
        Error(ErrorKind::usage, "--lang", say("cli.no_language", {{"value", context.language}})),
        context.words());
  }
  context.language = language_of(context.language);
  return work(chosen, context);
}

}  // namespace wildling::cli
