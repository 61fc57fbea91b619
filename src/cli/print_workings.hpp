#pragma once
#include <ostream>
#include <string>

#include "base/words.hpp"
#include "base/workings.hpp"

namespace wildling::cli {

/// Prints a number with its formula, source and inputs, four levels deep.
void print_workings(std::ostream& out, const Workings& workings, const std::string& key,
                    const Words& words);

/// The nodes a number rests on, each once, as a JSON list.
std::string workings_text(const Workings& workings, const std::string& key);

/// @throws Error{usage} that names keys which hold the same letters
void check_key(const Workings& workings, const std::string& key);

}  // namespace wildling::cli
