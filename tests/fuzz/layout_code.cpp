#include <cstdint>
#include <string_view>

#include "base/error.hpp"
#include "layout/code.hpp"

// A stored layout comes out of a file that others may have written.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  (void)wildling::layout::parse_seedling_id(bytes);
  try {
    const wildling::layout::StoredLayout stored = wildling::layout::decode(bytes);
    wildling::ground::XyPolygon part;
    part.outer = {{0, 0}, {4, 0}, {4, 3}, {0, 3}};
    (void)wildling::layout::recompute(stored, {part}, {});
  } catch (const wildling::Error&) {
  }
  return 0;
}
