#pragma once
#include <memory>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

#include "base/outside.hpp"
#include "base/words.hpp"
#include "cli/cli.hpp"
#include "plan/ask.hpp"
#include "plan/take.hpp"
#include "store/store.hpp"

namespace CLI {
class App;
}  // namespace CLI

namespace wildling::cli {

/// Options that every command has, and where it prints.
struct Context {
  std::string language = {};  ///< "en" or "id"
  std::string who = {};       ///< name in the log
  Faces faces = {};
  Machine outside = {};

  [[nodiscard]] Words words() const;
  [[nodiscard]] plan::Actor actor() const;
};

/// A command: options are declared at once, `run` works later.
using Command = std::function<int()>;

/// Each adds its subcommand to `app`; when it was chosen, `chosen` is its work.
void add_new(CLI::App& app, Context& context, Command& chosen);
void add_take(CLI::App& app, Context& context, Command& chosen);
void add_answer(CLI::App& app, Context& context, Command& chosen);
void add_set(CLI::App& app, Context& context, Command& chosen);
void add_plan(CLI::App& app, Context& context, Command& chosen);
void add_show(CLI::App& app, Context& context, Command& chosen);
void add_explain(CLI::App& app, Context& context, Command& chosen);
void add_open(CLI::App& app, Context& context, Command& chosen);
void add_export(CLI::App& app, Context& context, Command& chosen);
void add_sheet(CLI::App& app, Context& context, Command& chosen);
/// One command for every question of plan/ask.hpp, and `note` with one kind for every note.
void add_questions(CLI::App& app, Context& context, Command& chosen);
void add_note(CLI::App& app, Context& context, Command& chosen);
/// An option for each field; what is given lands in `entries`, unread.
void add_fields(CLI::App& command, const std::vector<plan::Field>& fields, plan::Entries& entries);

/// Opens for writing or reading and prints what opening had to say.
std::unique_ptr<store::Store> open_to_write(const std::string& path, Context& context,
                                            const Words& words);
std::unique_ptr<store::Store> open_to_read(const std::string& path, Context& context,
                                           const Words& words);

/// @throws Error{usage} naming the option when the text is no day
Date day_option(const std::string& text, const std::string& option);
/// The option's day, or the machine's.
Date today_or(const std::string& text, Context& context);

/// One line per finding, those set aside first.
void print_findings(std::ostream& out, const Findings& findings, const Words& words);

/// Makes the folder and those above it. @throws Error{io}
void make_folder(const std::string& folder);

std::string file_name_of(const std::string& path);

}  // namespace wildling::cli
