#include <algorithm>
#include <cmath>

#include "base/csv.hpp"
#include "plan/take_weather.hpp"
#include "plan/weather/notes.hpp"
#include "plan/weather/scene.hpp"

namespace wildling::plan::weather {
namespace {

using store::Filter;
using store::Row;
using store::RowChange;

struct Reading {
  const char* field;
  const char* column;
  std::optional<double> value;
};

std::vector<Reading> readings_of(const Entries& entries) {
  std::vector<Reading> list = {{"rain", "rain_mm", {}},      {"tmax", "tmax_c", {}},
                               {"tmin", "tmin_c", {}},       {"rh-max", "rh_max_pct", {}},
                               {"rh-min", "rh_min_pct", {}}, {"rh-mean", "rh_mean_pct", {}},
                               {"wind", "wind_m_s", {}},     {"sun", "sun_h", {}}};
  for (Reading& reading : list) reading.value = number_of(entries, reading.field);
  std::erase_if(list, [](const Reading& reading) { return !reading.value; });
  return list;
}

std::string column_word(const std::string& column) {
  return column.substr(0, column.rfind('_'));
}

// The act under way and what it has to say.
struct Writing {
  store::Store& store;
  store::ChangeSet act;
  std::string station_uid;
  std::string station_name;
  std::string corrected;  ///< "rain_mm 12 -> 21"
};

std::optional<Row> day_row(const store::Store& store, const std::string& station, Date day) {
  const auto rows = store.rows("weather_days",
                               Filter{}.with("station_uid", station).with("day", store::from(day)));
  return rows.empty() ? std::nullopt : std::optional<Row>(rows.front());
}

void check_pair(const Row& row, const char* low, const char* high, const char* key) {
  const auto least = store::real_of(row, low), most = store::real_of(row, high);
  if (least && most && *least > *most)
    throw Error(ErrorKind::input, "", say(key, {{"low", *least}, {"high", *most}}));
}

void note_correction(Writing& writing, const Row& old, const Row& values) {
  for (const auto& [column, value] : values) {
    const auto before = store::real_of(old, column);
    const auto after = store::real_of(values, column);
    if (!before || before == after) continue;
    writing.corrected += (writing.corrected.empty() ? "" : "; ") + column_word(column) + " " +
                         number_text(*before) + " > " + number_text(*after);
  }
}

void put_day(Writing& writing, Date day, const Row& values) {
  if (values.empty()) return;
  const auto old = day_row(writing.store, writing.station_uid, day);
  Row whole = old.value_or(Row{});
  for (const auto& [column, value] : values) whole[column] = value;
  check_pair(whole, "tmin_c", "tmax_c", "weather.day.tmin_above");
  check_pair(whole, "rh_min_pct", "rh_max_pct", "weather.day.rh_above");
  if (!old) {
    Row row = values;
    row["station_uid"] = writing.station_uid;
    row["day"] = store::from(day);
    writing.act.rows.push_back(RowChange::insert("weather_days", std::move(row)));
    return;
  }
  note_correction(writing, *old, values);
  writing.act.rows.push_back(RowChange::update("weather_days", store::text_of(*old, "uid"),
                                               *store::integer_of(*old, "row_version"), values));
}

// A total that covers the day, other than the one that ends on `own_last`.
void refuse_covered(const store::Store& store, const std::string& station, Date first, Date last,
                    std::optional<Date> own_last) {
  for (const Row& row : store.rows("rain_totals", Filter{}.with("station_uid", station))) {
    const Date from = *store::date_of(row, "first_day"), to = *store::date_of(row, "last_day");
    if (own_last == to || to < first || from > last) continue;
    throw Error(ErrorKind::input, iso_date(last),
                say("weather.day.in_total", {{"first", from}, {"last", to}}));
  }
}

void refuse_read(const Writing& writing, Date first, Date last) {
  for (const Row& row : writing.store.rows(
           "weather_days", Filter{}
                               .with("station_uid", writing.station_uid)
                               .with("day", store::Compare::at_least, store::from(first))
                               .with("day", store::Compare::at_most, store::from(last)))) {
    if (store::real_of(row, "rain_mm"))
      throw Error(ErrorKind::input, iso_date(first),
                  say("weather.day.already_read", {{"day", *store::date_of(row, "day")}}));
  }
}

void put_total(Writing& writing, Date first, Date last, double rain_mm) {
  if (first > last)
    throw Error(ErrorKind::usage, "--rain-since", say("weather.day.total_backwards"));
  refuse_covered(writing.store, writing.station_uid, first, last, last);
  refuse_read(writing, first, last);
  const auto rows = writing.store.rows(
      "rain_totals",
      Filter{}.with("station_uid", writing.station_uid).with("last_day", store::from(last)));
  const Row values = {{"first_day", store::from(first)}, {"rain_mm", store::from(rain_mm)}};
  if (rows.empty()) {
    Row row = values;
    row["station_uid"] = writing.station_uid;
    row["last_day"] = store::from(last);
    writing.act.rows.push_back(RowChange::insert("rain_totals", std::move(row)));
    return;
  }
  note_correction(writing, rows.front(), {{"rain_mm", store::from(rain_mm)}});
  writing.act.rows.push_back(RowChange::update("rain_totals", store::text_of(rows.front(), "uid"),
                                               *store::integer_of(rows.front(), "row_version"),
                                               values));
}

// The station named, the one that speaks for the programme, or a new one of that name.
Row station_row(Writing& writing, const Entries& entries) {
  const auto name = text_of(entries, "station");
  const auto rows =
      name ? writing.store.rows("stations", Filter{}.with("name", *name))
           : writing.store.rows("stations", Filter{}.with("uid", main_station(writing.store)));
  if (!rows.empty()) {
    writing.station_uid = store::text_of(rows.back(), "uid");
    writing.station_name = store::text_of(rows.back(), "name");
    return rows.back();
  }
  if (!name) throw Error(ErrorKind::usage, "--station", say("weather.day.which_station"));
  writing.station_uid = writing.store.new_uid();
  writing.station_name = *name;
  Row row = {{"name", *name},
             {"rain_read_next_morning", store::from_flag(false)},
             {"origin", std::string(origin_name(Origin::measured))}};
  writing.act.rows.push_back(RowChange::insert("stations", row, writing.station_uid));
  return row;
}

Message kept(const Writing& writing, Date day, Date rain_day, bool shifted) {
  const std::string how = !writing.corrected.empty() ? "corrected" : shifted ? "shifted" : "new";
  return say("weather.day.kept", {{"how", how},
                                  {"day", day},
                                  {"rain_day", rain_day},
                                  {"station", writing.station_name},
                                  {"old", writing.corrected}});
}

}  // namespace

Message keep_day(store::Store& store, const Entries& entries, Date today, const Actor& actor) {
  const Date day = day_of(entries, "day").value_or(today);
  if (day > today)
    throw Error(ErrorKind::input, "--day",
                say("weather.day.future", {{"day", day}, {"today", today}}));
  const std::vector<Reading> readings = readings_of(entries);
  if (readings.empty()) throw Error(ErrorKind::usage, "", say("weather.day.nothing"));
  Writing writing{store, {}, {}, {}, {}};
  writing.act.who = actor.who;
  writing.act.face = actor.face;
  writing.act.why = "readings of " + iso_date(day);
  const Row station = station_row(writing, entries);
  const bool next_morning = store::flag_of(station, "rain_read_next_morning");
  const Date rain_day = next_morning ? day - std::chrono::days(1) : day;
  const auto since = day_of(entries, "rain-since");
  Row same_day, rain;
  for (const Reading& reading : readings) {
    const bool is_rain = std::string(reading.column) == "rain_mm";
    if (is_rain && since)
      put_total(writing, *since, rain_day, *reading.value);
    else
      (is_rain ? rain : same_day)[reading.column] = store::from(*reading.value);
  }
  if (since && !number_of(entries, "rain"))
    throw Error(ErrorKind::usage, "--rain-since", say("weather.day.total_without_rain"));
  if (!rain.empty()) refuse_covered(store, writing.station_uid, rain_day, rain_day, {});
  if (rain_day == day) {
    same_day.merge(rain);
    rain.clear();
  }
  put_day(writing, day, same_day);
  put_day(writing, rain_day, rain);
  store.apply(writing.act);
  return kept(writing, day, rain_day, next_morning && number_of(entries, "rain").has_value());
}

}  // namespace wildling::plan::weather
