// Any bytes as a species table, its sources and published survival, and as a name: a table is read
// or refused with an Error; a name never throws, and its key is the key of itself.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "base/error.hpp"
#include "species/library.hpp"
#include "species/taxon_name.hpp"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

void read_table(const std::string& text) {
  try {
    const auto library = wildling::species::Library::from_csv(text, text, text);
    for (const auto& species : library.all())
      require(!library.find_all(species.scientific_name).empty());
  } catch (const wildling::Error& error) {
    require(error.kind() == wildling::ErrorKind::input);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  read_table(text);
  read_table("scientific_name,local_name_ms_id,seeds_per_kg,fruiting_months\n" + text);
  const std::string key = wildling::species::name_key(text);
  require(wildling::species::name_key(key) == key);
  wildling::species::parse_taxon(text);
  static const auto shipped = wildling::species::Library::shipped();
  require(shipped.find_all(text).size() <= shipped.all().size());
  if (size < 60) require(shipped.similar_names(text).size() <= 3);
  return 0;
}
