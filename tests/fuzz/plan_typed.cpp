// What is typed from a slip: counts, rows and stretches of rows. Anything but Error{usage} is a
// fault.
#include <cstdint>
#include <string>

#include "base/error.hpp"
#include "plan/field/typed.hpp"

namespace {

template <typename Read>
void read(const Read& reader, const std::string& text) {
  try {
    reader("slip", text);
  } catch (const wildling::Error& error) {
    if (error.kind() != wildling::ErrorKind::usage) __builtin_trap();
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(data, data + size);
  read(wildling::plan::read_counts, text);
  read(wildling::plan::read_row, text);
  read(wildling::plan::read_rows, text);
  return 0;
}
