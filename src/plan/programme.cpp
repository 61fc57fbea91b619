#include "plan/programme.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <nlohmann/json.hpp>

#include "base/csv.hpp"
#include "base/hash.hpp"
#include "plan/geometry.hpp"
#include "plan/take_weather.hpp"
#include "species/library.hpp"

namespace wildling::plan {
namespace {

using store::blob_of;
using store::date_of;
using store::Filter;
using store::flag_of;
using store::integer_of;
using store::is_null;
using store::real_of;
using store::Row;
using store::text_of;

std::vector<std::string> split(const std::string& list) {
  std::vector<std::string> parts;
  if (list.empty()) return parts;
  std::size_t begin = 0;
  for (;;) {
    const std::size_t end = list.find(';', begin);
    parts.push_back(list.substr(begin, end == std::string::npos ? end : end - begin));
    if (end == std::string::npos) return parts;
    begin = end + 1;
  }
}

ground::Answer answer_of(const std::string& name) {
  if (name == "yes") return ground::Answer::yes;
  return name == "no" ? ground::Answer::no : ground::Answer::not_asked;
}

void put_answer(ground::Gates& gates, const Row& row) {
  const ground::GateAnswer answer{answer_of(text_of(row, "answer")), text_of(row, "answered_by"),
                                  date_of(row, "day"), text_of(row, "note")};
  const std::string gate = text_of(row, "gate");
  if (gate == "consent") gates.consent = answer;
  if (gate == "fire_and_cattle") gates.fire_and_cattle = answer;
  if (gate == "drained_peat") gates.drained_peat = answer;
  if (gate == "natural_trees_counted") {
    gates.natural_trees_counted = answer;
    gates.natural_trees_per_ha = real_of(row, "natural_trees_per_ha");
  }
}

std::map<std::string, ground::Gates> all_gates(const store::Store& store) {
  std::map<std::string, ground::Gates> gates;
  for (const Row& row : store.rows("gate_answers"))
    put_answer(gates[text_of(row, "block_uid")], row);
  return gates;
}

std::vector<ground::Line> all_water(const store::Store& store) {
  std::vector<ground::Line> lines;
  for (const Row& row : store.rows("water_lines"))
    lines.push_back(to_line(store::decode(blob_of(row, "geom"))));
  return lines;
}

void load_blocks(const store::Store& store, Programme& programme) {
  std::map<std::string, std::string> codes;
  for (const Row& row : store.rows("sites")) {
    codes[text_of(row, "uid")] = text_of(row, "code");
    programme.site_uids[text_of(row, "code")] = text_of(row, "uid");
    programme.site_perimeters_m[text_of(row, "code")] =
        ground::perimeter_m(to_shape(store::decode(blob_of(row, "geom"))));
  }
  const auto gates = all_gates(store);
  const std::vector<ground::Line> water = all_water(store);
  for (const Row& row : store.rows("blocks")) {
    ground::Block block;
    block.uid = text_of(row, "uid");
    block.code = text_of(row, "code");
    block.site = codes[text_of(row, "site_uid")];
    block.shape = to_shape(store::decode(blob_of(row, "geom")));
    block.ground_type = text_of(row, "ground_type");
    block.cover = ground::parse_cover(text_of(row, "cover")).value_or(ground::Cover::running_grass);
    block.slope_known = real_of(row, "slope_deg").has_value();
    block.slope_deg = real_of(row, "slope_deg").value_or(0);
    block.vertex_error_m = real_of(row, "vertex_error_m").value_or(0);
    if (const auto found = gates.find(block.uid); found != gates.end()) block.gates = found->second;
    block.water_lines = water;
    programme.blocks.push_back(std::move(block));
  }
}

void put_day(climate::DailyWeather& daily, std::size_t i, const Row& row) {
  const auto put = [&](std::vector<double>& column, const char* name) {
    if (const auto value = real_of(row, name)) column[i] = *value;
  };
  put(daily.rain_mm, "rain_mm");
  put(daily.tmax_c, "tmax_c");
  put(daily.tmin_c, "tmin_c");
  put(daily.rh_max_pct, "rh_max_pct");
  put(daily.rh_min_pct, "rh_min_pct");
  put(daily.rh_mean_pct, "rh_mean_pct");
  put(daily.wind_m_s, "wind_m_s");
  put(daily.sun_h, "sun_h");
}

void drop_if_never_measured(std::vector<double>& column) {
  if (std::all_of(column.begin(), column.end(), [](double v) { return std::isnan(v); }))
    column.clear();
}

std::vector<climate::RainTotal> load_totals(const store::Store& store, const std::string& station) {
  std::vector<climate::RainTotal> totals;
  for (const Row& row :
       store.rows("rain_totals", Filter{}.with("station_uid", station).by("last_day"))) {
    totals.push_back({*date_of(row, "first_day"), *date_of(row, "last_day"),
                      real_of(row, "rain_mm").value_or(0)});
  }
  return totals;
}

// First and last day that any row speaks of; false when there is none.
bool log_span(const std::vector<Row>& rows, const std::vector<climate::RainTotal>& totals,
              Date& first, Date& last) {
  bool any = false;
  const auto widen = [&](Date from, Date to) {
    first = any ? std::min(first, from) : from;
    last = any ? std::max(last, to) : to;
    any = true;
  };
  if (!rows.empty()) widen(*date_of(rows.front(), "day"), *date_of(rows.back(), "day"));
  for (const climate::RainTotal& total : totals) widen(total.first, total.last);
  return any;
}

climate::DailyWeather load_days(const store::Store& store, const std::string& station_uid) {
  climate::DailyWeather daily;
  const auto rows = store.rows("weather_days", Filter{}.with("station_uid", station_uid).by("day"));
  daily.totals = load_totals(store, station_uid);
  Date last = {};
  if (!log_span(rows, daily.totals, daily.first, last)) return daily;
  const auto days = static_cast<std::size_t>((last - daily.first).count()) + 1;
  for (auto* column : {&daily.rain_mm, &daily.tmax_c, &daily.tmin_c, &daily.rh_max_pct,
                       &daily.rh_min_pct, &daily.rh_mean_pct, &daily.wind_m_s, &daily.sun_h}) {
    column->assign(days, std::numeric_limits<double>::quiet_NaN());
  }
  for (const Row& row : rows) {
    put_day(daily, static_cast<std::size_t>((*date_of(row, "day") - daily.first).count()), row);
  }
  for (auto* column : {&daily.tmax_c, &daily.tmin_c, &daily.rh_max_pct, &daily.rh_min_pct,
                       &daily.rh_mean_pct, &daily.wind_m_s, &daily.sun_h}) {
    drop_if_never_measured(*column);
  }
  return daily;
}

climate::Station load_station(const Row& row) {
  climate::Station station;
  station.uid = text_of(row, "uid");
  station.name = text_of(row, "name");
  station.elevation_m = real_of(row, "elevation_m");
  station.distance_km = real_of(row, "distance_km");
  station.rain_read_next_morning = flag_of(row, "rain_read_next_morning");
  station.origin = parse_origin(text_of(row, "origin")).value_or(Origin::measured);
  station.source = text_of(row, "source");
  if (is_null(row, "geom")) return station;
  const auto geometry = store::decode(blob_of(row, "geom"));
  if (const auto* at = std::get_if<store::Position>(&geometry)) {
    station.lon_deg = at->lon_deg;
    station.lat_deg = at->lat_deg;
  }
  return station;
}

void load_main_weather(const store::Store& store, Programme& programme) {
  const auto row = store.row("stations", main_station(store));
  if (!row) return;
  climate::WeatherBook book;
  book.station = load_station(*row);
  book.daily = load_days(store, book.station.uid);
  if (book.daily.days() > 0) programme.weather = std::move(book);
}

std::optional<int> count_of(const Row& row, const char* column) {
  const auto value = integer_of(row, column);
  return value ? std::optional<int>(static_cast<int>(*value)) : std::nullopt;
}

std::optional<species::OwnSurvival> own_survival(const Row& row, const char* column) {
  const auto value = real_of(row, column);
  if (!value) return {};
  species::OwnSurvival own;
  own.alive_pct = *value;
  own.origin = Origin::told;
  own.source = text_of(row, "source_file") + ", " + column;
  return own;
}

void put_own_fields(species::Species& species, const std::string& text) {
  if (text.empty()) return;
  const auto fields = nlohmann::json::parse(text);
  for (const auto& [column, field] : fields.items()) {
    species::Basis basis;
    basis.origin = Origin::told;
    basis.source = field.at("source").get<std::string>();
    species::set_field(species, column, field.at("text").get<std::string>(), basis);
  }
}

void load_candidates(const store::Store& store, Programme& programme) {
  const species::Library library = species::Library::shipped();
  for (const Row& row : store.rows("candidates")) {
    species::Candidate candidate;
    const std::string name = text_of(row, "scientific_name");
    put_own_fields(candidate.species, text_of(row, "fields"));
    if (const auto* known = library.find(name)) species::fill_blanks(candidate.species, *known);
    candidate.species.scientific_name = name;
    const std::string group = text_of(row, "successional_group");
    if (group == "pioneer") candidate.species.group = species::Group::pioneer;
    if (group == "early") candidate.species.group = species::Group::early;
    if (group == "late") candidate.species.group = species::Group::late;
    candidate.stock.species = name;
    candidate.stock.name_as_written = text_of(row, "name_as_written");
    candidate.stock.seedlings_ready = count_of(row, "seedlings_ready");
    candidate.stock.can_raise = count_of(row, "can_raise");
    candidate.stock.mother_trees = count_of(row, "mother_trees");
    candidate.stock.price_per_seedling = real_of(row, "price_per_seedling");
    candidate.stock.nursery = text_of(row, "nursery");
    candidate.stock.source = text_of(row, "source_file");
    candidate.own_open = own_survival(row, "survival_open_pct");
    candidate.own_cover = own_survival(row, "survival_shade_pct");
    candidate.use = flag_of(row, "use_it", true);
    programme.candidates.push_back(std::move(candidate));
  }
}

void hash_table(const store::Store& store, std::string_view table, std::string& text,
                const Filter& filter = {}) {
  std::vector<std::string> lines;
  store.for_each(table, filter, [&](const Row& row) {
    std::string line;
    for (const auto& [column, value] : row) {
      if (column == "who" || column == "changed_utc" || column == "row_version" || column == "id" ||
          column == "import_uid") {
        continue;
      }
      line += column;
      line += '=';
      if (const auto* integer = std::get_if<std::int64_t>(&value)) line += std::to_string(*integer);
      if (const auto* real = std::get_if<double>(&value)) line += number_text(*real);
      if (const auto* words = std::get_if<std::string>(&value)) line += *words;
      if (const auto* bytes = std::get_if<store::Blob>(&value))
        line.append(bytes->begin(), bytes->end());
      line += '\x1f';
    }
    lines.push_back(std::move(line));
  });
  std::sort(lines.begin(), lines.end());
  text += table;
  for (const std::string& line : lines) text += line + '\x1e';
}

}  // namespace

std::map<std::string, std::string> programme_settings(const store::Store& store) {
  std::map<std::string, std::string> result;
  for (const Row& row : store.rows("settings")) result[text_of(row, "key")] = text_of(row, "value");
  return result;
}

std::vector<ground::Block> programme_blocks(const store::Store& store) {
  Programme programme;
  load_blocks(store, programme);
  return std::move(programme.blocks);
}

Parameters programme_parameters(const store::Store& store) {
  Parameters parameters = Parameters::shipped();
  for (const Row& row : store.rows("parameter_overrides")) {
    parameters.set(text_of(row, "key"), *real_of(row, "value"),
                   parse_origin(text_of(row, "origin")).value_or(Origin::told),
                   text_of(row, "source"), "");
  }
  return parameters;
}

std::vector<climate::WeatherBook> load_weather_books(const store::Store& store) {
  std::vector<climate::WeatherBook> books;
  for (const Row& row : store.rows("stations")) {
    climate::WeatherBook book;
    book.station = load_station(row);
    book.daily = load_days(store, book.station.uid);
    if (book.daily.days() > 0) books.push_back(std::move(book));
  }
  return books;
}

Programme load_programme(const store::Store& store) {
  Programme programme;
  const auto set = programme_settings(store);
  const auto get = [&](const char* key) {
    const auto found = set.find(key);
    return found == set.end() ? std::string() : found->second;
  };
  programme.name = get("name");
  programme.invented_figures = get("invented") == "yes";
  programme.flooded_ground = split(get("flooded_ground"));
  load_blocks(store, programme);
  load_main_weather(store, programme);
  load_candidates(store, programme);
  programme.parameters = programme_parameters(store);
  return programme;
}

std::string fingerprint(const store::Store& store, const Parameters& parameters) {
  std::string text;
  for (const char* table : {"settings", "sites", "blocks", "water_lines", "gate_answers",
                            "candidates", "parameter_overrides"}) {
    hash_table(store, table, text);
  }
  // Of the stations only the one that speaks for the programme is planned with.
  const std::string station = main_station(store);
  hash_table(store, "stations", text, Filter{}.with("uid", station));
  hash_table(store, "weather_days", text, Filter{}.with("station_uid", station));
  hash_table(store, "rain_totals", text, Filter{}.with("station_uid", station));
  for (const auto& [key, parameter] : parameters.all())
    text += key + "=" + number_text(parameter.value) + '\x1e';
  return sha256_hex(text);
}

}  // namespace wildling::plan
