#include "cli/common.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <iostream>

#include <unistd.h>

namespace wildling::cli {
namespace {

std::string mark_of(Severity severity) {
  if (severity == Severity::set_aside) return "cli.finding.set_aside";
  return severity == Severity::changed ? "cli.finding.changed" : "cli.finding.note";
}

void print_opening(const store::Store& store, const Words& words) {
  print_findings(std::cerr, store.findings(), words);
}

}  // namespace

Words Context::words() const {
  return Words(parse_language(language).value_or(Language::en));
}

plan::Actor Context::actor() const {
  if (!who.empty()) return {who, "command line"};
  const char* name = std::getenv("USER");
  return {name != nullptr && *name != '\0' ? name : "user " + std::to_string(::getuid()),
          "command line"};
}

std::unique_ptr<store::Store> open_to_write(const std::string& path, Context& context,
                                            const Words& words) {
  auto store = store::open_file(path, store::OpenMode::read_write, context.outside);
  print_opening(*store, words);
  return store;
}

std::unique_ptr<store::Store> open_to_read(const std::string& path, Context& context,
                                           const Words& words) {
  auto store = store::open_file(path, store::OpenMode::read_only, context.outside);
  print_opening(*store, words);
  return store;
}

Date day_option(const std::string& text, const std::string& option) {
  const auto day = parse_iso_date(text);
  if (!day) throw Error(ErrorKind::usage, option, say("cli.no_day", {{"value", text}}));
  return *day;
}

Date today_or(const std::string& text, Context& context) {
  return text.empty() ? *parse_iso_date(context.outside.now_utc().substr(0, 10))
                      : day_option(text, "--today");
}

void print_findings(std::ostream& out, const Findings& findings, const Words& words) {
  for (const Severity severity : {Severity::set_aside, Severity::changed, Severity::note}) {
    for (const Finding& finding : findings) {
      if (finding.severity == severity)
        out << words.text(mark_of(severity)) << " " << words.text(finding) << '\n';
    }
  }
}

void make_folder(const std::string& folder) {
  std::error_code status;
  std::filesystem::create_directories(folder, status);
  if (status)
    throw Error(ErrorKind::io, folder, say("cli.export.no_folder", {{"reason", status.message()}}));
}

std::string file_name_of(const std::string& path) {
  return std::filesystem::path(path).filename().string();
}

}  // namespace wildling::cli
