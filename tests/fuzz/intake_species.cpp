// Any bytes as a programme's species table: read or refused with an Error of the user's; every row
// is a candidate, added to one, or set aside.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "base/error.hpp"
#include "intake/species_table.hpp"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

void read(const std::string& text) {
  static const auto library = wildling::species::Library::shipped();
  try {
    const auto file = wildling::intake::read_species_table_bytes(text, "species.csv", library);
    require(file.candidates.size() + file.set_aside + file.added == file.rows_read);
    for (const auto& candidate : file.candidates) require(!candidate.name().empty());
  } catch (const wildling::Error& error) {
    require(error.kind() == wildling::ErrorKind::input);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  read(text);
  read(
      "scientific_name,nama_lokal,successional_group,seedlings_ready,price,survival_open_pct,"
      "nursery,"
      "use\n" +
      text);
  return 0;
}
