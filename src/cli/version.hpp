#pragma once
#include <string>

namespace wildling::cli {

/// "0.1.0"
std::string program_version();

/// Versions of the program and of the libraries whose results it shows, one a line.
std::string version_text();

}  // namespace wildling::cli
