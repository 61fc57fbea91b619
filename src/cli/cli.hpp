#pragma once
/// cli: the command line. It reads arguments, opens the programme, calls plan/ and intake/, and
/// prints what they give; it computes nothing. Results go to standard output, everything else to
/// standard error; exit codes are those of base/error.hpp. Paper is written by a room on the same
/// floor and comes in as Faces.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/parameters.hpp"
#include "base/words.hpp"
#include "plan/result.hpp"
#include "plan/sheet_kinds.hpp"

namespace wildling::cli {

/// A file before it is written.
struct NamedBytes {
  std::string name = {};
  std::string bytes = {};
};

/// What `wildling open` was asked for.
struct OpenRequest {
  std::string file = {};
  int port = 0;  ///< 0 = a free one
  std::optional<Date> today = {};
  std::string language = "en";
  std::string who = {};
  std::string program_version = {};
  bool browser = true;
};

/// What the program's main hands in from the other faces.
struct Faces {
  /// Writes crew sheets, rain sheet, summary and map picture of a plan into a folder; returns the
  /// names.
  std::function<std::vector<std::string>(const plan::PlanResult&, const Parameters&,
                                         const std::string& folder, const Words&, bool overwrite)>
      write_paper = {};
  /// Sets one sheet in type: its files, without folder.
  std::function<std::vector<NamedBytes>(const plan::SheetContent&, const Words&)> write_sheet = {};
  /// Opens the page of a programme and serves it until the program is asked to end.
  std::function<int(const OpenRequest&)> open = {};
};

/// Runs one command. Never throws. @return the exit code
int run(int argc, const char* const* argv, const Faces& faces);

}  // namespace wildling::cli
