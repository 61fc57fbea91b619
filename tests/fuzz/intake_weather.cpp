// Any bytes as a weather log: read or refused with an Error of the user's; what is read keeps the
// rules of climate::check and accounts for every row.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "base/error.hpp"
#include "intake/weather_log.hpp"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

void read(const std::string& text, const wildling::intake::WeatherOptions& options) {
  try {
    const auto file = wildling::intake::read_weather_bytes(text, "log.csv", options);
    require(file.kept + file.set_aside == file.rows_read);
    wildling::climate::check({{}, file.daily});
  } catch (const wildling::Error& error) {
    require(error.kind() == wildling::ErrorKind::input);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  read(text, {});
  wildling::intake::WeatherOptions options;
  options.date_order = "dmy";
  options.decimal = ',';
  options.read_next_morning = true;
  read("tanggal;hujan;tmaks;tmin;days covered\n" + text, options);
  return 0;
}
