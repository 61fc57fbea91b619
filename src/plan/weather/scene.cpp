#include "plan/weather/scene.hpp"

#include <algorithm>
#include <cmath>

#include "ground/shape.hpp"
#include "plan/weather/words_of.hpp"

namespace wildling::plan::weather {
namespace {

using store::Filter;
using store::Row;

std::optional<bool> flag(const Row& row, const char* column) {
  const auto value = store::integer_of(row, column);
  return value ? std::optional<bool>(*value != 0) : std::nullopt;
}

// A newer row's answer takes the place of an older one; rows come by rising day.
template <class T>
void put(Seen<T>& seen, const std::optional<T>& value, const Row& row) {
  if (value) seen = {value, store::date_of(row, "day"), store::text_of(row, "who")};
}

void put_look(Look& look, const Row& row, bool fresh) {
  put(look.strip_cleared, flag(row, "strip_cleared"), row);
  put(look.pits_dug, flag(row, "pits_dug"), row);
  put(look.stock_ready, flag(row, "stock_ready"), row);
  put(look.pit_drains, flag(row, "pit_drains"), row);
  put(look.crew_and_way_in, flag(row, "crew_and_way_in"), row);
  put(look.rewetted, flag(row, "rewetted"), row);
  put(look.water_below_m, store::real_of(row, "water_below_m"), row);
  if (!fresh) return;
  put(look.river_not_rising, flag(row, "river_not_rising"), row);
  put(look.water_falling, flag(row, "water_falling"), row);
  const std::string soil = store::text_of(row, "soil");
  if (soil == "moist_to_bottom")
    put(look.soil, std::optional(climate::SoilSeen::moist_to_bottom), row);
  if (soil == "dry") put(look.soil, std::optional(climate::SoilSeen::dry), row);
}

std::map<std::string, Look> load_looks(const store::Store& store, const Parameters& parameters,
                                       Date today) {
  std::map<std::string, Look> looks;
  for (const Row& row : store.rows("block_looks", Filter{}.by("day"))) {
    const Date day = *store::date_of(row, "day");
    const auto age = static_cast<double>((today - day).count());
    if (age < 0) continue;
    Look& look = looks[store::text_of(row, "block_uid")];
    look.last = day;
    if (age > parameters.value("weather.look_days")) continue;
    look.any = true;
    put_look(look, row, age <= parameters.value("weather.fresh_days"));
  }
  return looks;
}

std::optional<Seen<double>> load_cured(const store::Store& store, const Parameters& parameters,
                                       Date today) {
  std::map<std::string, Seen<double>> newest;
  for (const Row& row : store.rows("walks", Filter{}.by("day"))) {
    const auto age = static_cast<double>((today - *store::date_of(row, "day")).count());
    if (age < 0 || age > parameters.value("weather.walk_days")) continue;
    put(newest[store::text_of(row, "block_uid")], store::real_of(row, "cured_share"), row);
  }
  std::optional<Seen<double>> most;
  for (const auto& [uid, seen] : newest) {
    if (seen.value && (!most || *seen.value > *most->value)) most = seen;
  }
  return most;
}

std::optional<FireWord> load_fire_word(const store::Store& store, Date today) {
  std::optional<FireWord> highest;
  for (const Row& row : store.rows("fire_words", Filter{}.with("day", store::from(today)))) {
    const auto value = parse_fire_class(store::text_of(row, "class"));
    if (value && (!highest || *value > highest->value))
      highest = FireWord{*value, store::text_of(row, "why"), store::text_of(row, "who")};
  }
  return highest;
}

std::optional<WetMonths> load_wet_months(const store::Store& store) {
  std::optional<WetMonths> newest;
  for (const Row& row : store.rows("wet_months", Filter{}.by("day"))) {
    WetMonths told{parse_months(store::text_of(row, "months")), store::text_of(row, "told_by"),
                   *store::date_of(row, "day")};
    if (!told.months.empty()) newest = std::move(told);
  }
  return newest;
}

// A stated distance, or that of the station's place to the nearest corner of a block.
std::optional<double> distance_of(const Programme& programme, const climate::Station& station) {
  if (station.distance_km) return station.distance_km;
  if (!station.lon_deg || !station.lat_deg) return {};
  std::optional<double> least;
  for (const ground::Block& block : programme.blocks) {
    for (const ground::Polygon& part : block.shape.parts) {
      for (const ground::LonLat& corner : part.outer) {
        const double km = ground::distance_m({*station.lon_deg, *station.lat_deg}, corner) / 1000;
        if (!least || km < *least) least = km;
      }
    }
  }
  return least;
}

// Nothing after `last`: an answer of a day knows nothing of later days. False when no day is left.
bool cut_after(climate::DailyWeather& daily, Date last) {
  if (daily.first > last) return false;
  const auto days =
      std::min(daily.days(), static_cast<std::size_t>((last - daily.first).count()) + 1);
  for (auto* column : {&daily.rain_mm, &daily.tmax_c, &daily.tmin_c, &daily.rh_max_pct,
                       &daily.rh_min_pct, &daily.rh_mean_pct, &daily.wind_m_s, &daily.sun_h}) {
    if (!column->empty()) column->resize(days);
  }
  std::erase_if(daily.totals, [&](const climate::RainTotal& total) { return total.last > last; });
  return true;
}

void choose_book(Scene& scene, std::vector<climate::WeatherBook> books, const Entries& entries) {
  for (const climate::WeatherBook& book : books) scene.stations.push_back(book.station.name);
  const auto wanted = text_of(entries, "station");
  if (wanted)
    scene.book = book_named(books, *wanted);
  else
    scene.book = scene.programme.weather;
  if (scene.book && !cut_after(scene.book->daily, scene.today)) scene.book.reset();
  if (!scene.book) return;
  const auto km = distance_of(scene.programme, scene.book->station);
  if (km && *km > scene.parameters().value("climate.station.on_site_km")) scene.distance_km = km;
  scene.book->station.distance_km = km;
}

}  // namespace

const climate::WeatherBook& book_named(const std::vector<climate::WeatherBook>& books,
                                       const std::string& name) {
  std::string list;
  for (const climate::WeatherBook& book : books) {
    if (book.station.name == name) return book;
    list += (list.empty() ? "" : "; ") + book.station.name;
  }
  throw Error(ErrorKind::usage, name,
              list.empty() ? say("weather.no_station_at_all")
                           : say("weather.no_such_station", {{"name", name}, {"list", list}}));
}

Scene scene(const store::Store& store, const Entries& entries, Date today) {
  Scene scene;
  scene.programme = load_programme(store);
  scene.today = today;
  choose_book(scene, load_weather_books(store), entries);
  scene.looks = load_looks(store, scene.parameters(), today);
  scene.cured_share = load_cured(store, scene.parameters(), today);
  scene.fire_word = load_fire_word(store, today);
  scene.wet_months = load_wet_months(store);
  return scene;
}

std::vector<const ground::Block*> blocks_of(const Scene& scene, const Entries& entries) {
  const auto wanted = text_of(entries, "block");
  std::vector<const ground::Block*> blocks;
  for (const ground::Block& block : scene.programme.blocks) {
    if (!wanted || block.code == *wanted || block.site == *wanted) blocks.push_back(&block);
  }
  if (wanted && blocks.empty())
    throw Error(ErrorKind::input, *wanted, say("plan.no_such_block", {{"name", *wanted}}));
  return blocks;
}

bool is_wet_ground(const Scene& scene, const ground::Block& block) {
  const auto& flooded = scene.programme.flooded_ground;
  if (std::find(flooded.begin(), flooded.end(), block.ground_type) != flooded.end()) return true;
  return is_peat(block);
}

std::vector<Message> gauge_caveats(const Scene& scene) {
  std::vector<Message> caveats;
  if (!scene.book) return caveats;
  const climate::Station& station = scene.book->station;
  if (scene.distance_km)
    caveats.push_back(
        say("climate.rain_away", {{"station", station.name}, {"km", *scene.distance_km}}));
  if (station.origin != Origin::measured) {
    caveats.push_back(
        station.source.empty()
            ? say("climate.rain_told", {{"station", station.name}})
            : say("weather.rain_told_by", {{"station", station.name}, {"who", station.source}}));
  }
  return caveats;
}

Message from_gauge(const Scene& scene, Message message) {
  const bool away = scene.distance_km.has_value();
  message.arguments["gauge"] = std::string(away ? "away" : "here");
  message.arguments["km"] = away ? *scene.distance_km : 0.0;
  message.arguments["station"] = scene.book ? scene.book->station.name : std::string();
  return message;
}

const climate::WeatherBook& log_of(const Scene& scene) {
  if (!scene.book) throw Error(ErrorKind::input, "", say("weather.no_log"));
  return *scene.book;
}

}  // namespace wildling::plan::weather
