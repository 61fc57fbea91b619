// Any bytes as a weather log: read or refused with an Error of the user's; what is read keeps the
// rules of climate::check, accounts for every row, and knows where each day stands. Three forms: as
// they are, as rows under Indonesian column names, and as the cells of a month matrix.
#include <cmath>
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
    require(file.places.size() == file.daily.days());
    require(file.total_places.size() == file.daily.totals.size());
    for (const auto& total : file.daily.totals) {  // never divided: its days stay missing
      for (auto day = total.first; day <= total.last; day += std::chrono::days(1))
        require(std::isnan(file.daily.rain_mm[*file.daily.index(day)]));
    }
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
  read("tanggal;hujan;tmaks;tmin;days covered;ket\n" + text, options);
  options.units = {{"rain", "inch"}};
  options.year = 2020;
  read("Tahun 2019\nTgl;Jan;Feb;Mar;Apr;Mei;Jun;Jul;Agt;Sep;Okt;Nop;Des;Jml\n1;0;2;}\n2;1;;4 }\n" +
           text,
       options);
  return 0;
}
