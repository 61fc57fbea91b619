#pragma once
#include <string>

#include "store/value.hpp"

namespace wildling::store {

/// The row as one line of JSON, keys sorted: null, number, text, and {"hex": "00ff"} for bytes.
/// Reals keep every bit.
std::string to_json(const Row& row);

/// What to_json() wrote. @throws Error{input} for anything else: the log of the file is damaged
Row from_json(const std::string& text);

}  // namespace wildling::store
