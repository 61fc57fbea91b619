// Any bytes as a geometry blob: refused with a sentence, or read, written and read again to the
// same shape.
#include <cstdlib>

#include "base/error.hpp"
#include "store/geometry.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace wildling::store;
  const std::span<const std::uint8_t> blob(data, size);
  static_cast<void>(envelope_of(blob));
  try {
    const Geometry geometry = decode(blob);
    if (!(decode(encode(geometry)) == geometry)) std::abort();
  } catch (const wildling::Error&) {
    return 0;
  }
  return 0;
}
