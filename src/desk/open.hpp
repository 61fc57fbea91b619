#pragma once
#include <iosfwd>
#include <optional>
#include <string>

#include "desk/desk.hpp"

namespace wildling::desk {

/// What `wildling open` was asked for.
struct OpenOptions {
  std::string path = {};
  int port = 0;  ///< 0 = a free one
  std::optional<Date> today = {};
  std::string language = "en";
  std::string who = {};
  std::string program_version = {};
  bool browser = true;  ///< start one, where the machine has a screen
};

/// Opens a programme in the browser: prints the address as the only line on `out`, what people
/// should know on `notes`, and serves until Ctrl-C (SIGINT), SIGTERM or SIGHUP. Then the file is
/// left as one file that opens from a write-protected stick.
/// @return the exit code. @throws Error as store::open_file, Server, and when the programme has its
/// page open already
int open_programme(const OpenOptions& options, const Faces& faces, std::ostream& out,
                   std::ostream& notes);

}  // namespace wildling::desk
