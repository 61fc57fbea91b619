#pragma once
#include <string>
#include <string_view>

namespace wildling {

/// SHA-256 of bytes, 64 lower-case hexadecimal digits. @throws Error{internal} if the library
/// fails.
std::string sha256_hex(std::string_view bytes);

}  // namespace wildling
