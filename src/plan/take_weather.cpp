#include "plan/take_weather.hpp"

#include <array>
#include <cmath>
#include <map>

#include "plan/act.hpp"
#include "store/geometry.hpp"

namespace wildling::plan {
namespace {

using store::ChangeSet;
using store::date_of;
using store::Filter;
using store::from;
using store::integer_of;
using store::real_of;
using store::Row;
using store::RowChange;
using store::text_of;
using store::Value;

struct Column {
  const char* name;     // in the store
  const char* reading;  // in findings
  std::vector<double> climate::DailyWeather::*values;
};

constexpr std::array<Column, 8> kColumns = {
    {{"rain_mm", "rain", &climate::DailyWeather::rain_mm},
     {"tmax_c", "tmax", &climate::DailyWeather::tmax_c},
     {"tmin_c", "tmin", &climate::DailyWeather::tmin_c},
     {"rh_max_pct", "rh_max", &climate::DailyWeather::rh_max_pct},
     {"rh_min_pct", "rh_min", &climate::DailyWeather::rh_min_pct},
     {"rh_mean_pct", "rh_mean", &climate::DailyWeather::rh_mean_pct},
     {"wind_m_s", "wind", &climate::DailyWeather::wind_m_s},
     {"sun_h", "sun", &climate::DailyWeather::sun_h}}};

double value_at(const climate::DailyWeather& daily, const Column& column, std::size_t i) {
  return climate::at_or_missing(daily.*column.values, i);
}

Value cell(double value) {
  return std::isnan(value) ? Value{} : from(value);
}

Row station_row(const climate::Station& station) {
  Row row = {{"name", station.name},
             {"elevation_m", from(station.elevation_m)},
             {"distance_km", from(station.distance_km)},
             {"rain_read_next_morning", store::from_flag(station.rain_read_next_morning)},
             {"origin", std::string(origin_name(station.origin))},
             {"source", text_or_null(station.source)}};
  if (station.lon_deg && station.lat_deg) {
    row["geom"] = store::encode(store::Position{*station.lon_deg, *station.lat_deg});
  }
  return row;
}

// One log being laid over what the store has.
class Laying {
 public:
  Laying(store::Store& store, const climate::WeatherBook& book, const WeatherTaking& how,
         ChangeSet& act)
      : store_(store), book_(book), how_(how), act_(act) {}

  WeatherTaken lay() {
    settle_station();
    read_old();
    if (how_.days == TakeDays::fresh) refuse_what_is_there();
    remove_old_totals();
    for (std::size_t i = 0; i < book_.daily.days(); ++i) lay_day(i);
    clear_under_totals();
    if (how_.days == TakeDays::replace) remove_other_days();
    add_totals();
    return std::move(taken_);
  }

 private:
  store::Store& store_;
  const climate::WeatherBook& book_;
  const WeatherTaking& how_;
  ChangeSet& act_;
  WeatherTaken taken_;
  std::map<Date, Row> days_, totals_;  // of the store; totals by their last day
  std::map<Date, bool> kept_totals_;

  void settle_station() {
    const auto rows = store_.rows("stations", Filter{}.with("name", Value{book_.station.name}));
    if (!rows.empty()) {
      taken_.station_uid = text_of(rows.front(), "uid");
      update_station(rows.front());
      return;
    }
    taken_.station_uid = store_.new_uid();
    act_.rows.push_back(
        RowChange::insert("stations", station_row(book_.station), taken_.station_uid));
  }

  // What is said this time wins; what is not said stays.
  void update_station(const Row& old) {
    Row values;
    for (const auto& [name, value] : station_row(book_.station)) {
      const bool said = name == "elevation_m" || name == "distance_km" || name == "geom";
      const auto there = old.find(name);
      if (said && !std::holds_alternative<std::monostate>(value) &&
          (there == old.end() || there->second != value))
        values[name] = value;
    }
    if (values.empty()) return;
    act_.rows.push_back(RowChange::update("stations", taken_.station_uid,
                                          *integer_of(old, "row_version"), std::move(values)));
  }

  void read_old() {
    const Filter own = Filter{}.with("station_uid", Value{taken_.station_uid});
    for (Row& row : store_.rows("weather_days", own)) {
      const Date day = *date_of(row, "day");
      days_.emplace(day, std::move(row));
    }
    for (Row& row : store_.rows("rain_totals", own)) {
      const Date last = *date_of(row, "last_day");
      totals_.emplace(last, std::move(row));
    }
  }

  [[nodiscard]] bool measured(std::size_t i) const {
    for (const Column& column : kColumns) {
      if (!std::isnan(value_at(book_.daily, column, i))) return true;
    }
    return false;
  }

  [[nodiscard]] std::string place(std::size_t i) const {
    return i < how_.places.size() && !how_.places[i].empty() ? how_.places[i] : act_.source_file;
  }

  void tell(Severity severity, std::string where, Message message) {
    taken_.findings.push_back({severity, std::move(where), std::move(message)});
  }

  void refuse_what_is_there() const {
    std::int64_t there = 0;
    for (std::size_t i = 0; i < book_.daily.days(); ++i)
      there += measured(i) && days_.count(book_.daily.day(i)) > 0 ? 1 : 0;
    for (const climate::RainTotal& total : book_.daily.totals) {
      for (const auto& [last, row] : totals_)
        there += last >= total.first && *date_of(row, "first_day") <= total.last ? 1 : 0;
    }
    if (there == 0) return;
    throw Error(ErrorKind::input, "",
                say("plan.weather_there", {{"station", book_.station.name}, {"days", there}}));
  }

  void lay_day(std::size_t i) {
    if (!measured(i)) return;
    const Date day = book_.daily.day(i);
    const auto old = days_.find(day);
    if (old == days_.end()) {
      Row row = {{"station_uid", taken_.station_uid}, {"day", from(day)}};
      for (const Column& column : kColumns)
        row[column.name] = cell(value_at(book_.daily, column, i));
      act_.rows.push_back(RowChange::insert("weather_days", std::move(row)));
      ++taken_.added;
      return;
    }
    Row values;
    for (const Column& column : kColumns) compare(column, i, old->second, values);
    ++(values.empty() ? taken_.same : taken_.changed);
    if (!values.empty()) update("weather_days", old->second, std::move(values));
  }

  void compare(const Column& column, std::size_t i, const Row& old, Row& values) {
    const double now = value_at(book_.daily, column, i);
    const auto before = real_of(old, column.name);
    if (std::isnan(now) && (!before || how_.days == TakeDays::correct)) return;
    if (before && *before == now) return;
    values[column.name] = cell(now);
    if (!before) return;  // a reading that was missing
    Message message = std::isnan(now)
                          ? say("plan.reading_gone", {{"reading", std::string(column.reading)},
                                                      {"day", book_.daily.day(i)},
                                                      {"old", *before}})
                          : say("plan.reading_corrected", {{"reading", std::string(column.reading)},
                                                           {"day", book_.daily.day(i)},
                                                           {"old", *before},
                                                           {"new", now}});
    tell(Severity::changed, place(i), std::move(message));
  }

  // Later changes of one row in one act name the version the earlier one made.
  void update(const char* table, Row& old, Row values) {
    const std::int64_t version = *integer_of(old, "row_version");
    for (const auto& [name, value] : values) old[name] = value;
    old["row_version"] = Value{version + 1};
    act_.rows.push_back(RowChange::update(table, text_of(old, "uid"), version, std::move(values)));
  }

  [[nodiscard]] bool same_total(const climate::RainTotal& total, const Row& row) const {
    return *date_of(row, "first_day") == total.first && real_of(row, "rain_mm") == total.total_mm;
  }

  // A stored total stays when the log has the same, or says nothing of its days.
  void remove_old_totals() {
    std::map<Date, const climate::RainTotal*> now;
    for (const climate::RainTotal& total : book_.daily.totals) now[total.last] = &total;
    for (const auto& [last, row] : totals_) {
      const auto same = now.find(last);
      if (same != now.end() && same_total(*same->second, row)) {
        kept_totals_[last] = true;
        continue;
      }
      if (how_.days == TakeDays::correct && !spoken_of(*date_of(row, "first_day"), last)) continue;
      act_.rows.push_back(
          RowChange::remove("rain_totals", text_of(row, "uid"), *integer_of(row, "row_version")));
      tell(Severity::changed, act_.source_file,
           say("plan.total_gone", {{"total", real_of(row, "rain_mm").value_or(0)},
                                   {"first", *date_of(row, "first_day")},
                                   {"last", last}}));
    }
  }

  [[nodiscard]] bool spoken_of(Date first, Date last) const {
    for (Date day = first; day <= last; day += std::chrono::days(1)) {
      const auto i = book_.daily.index(day);
      if (i && !std::isnan(book_.daily.rain_mm[*i])) return true;
    }
    for (const climate::RainTotal& total : book_.daily.totals) {
      if (total.first <= last && total.last >= first) return true;
    }
    return false;
  }

  // Days that now belong to a catch of several days lose the rain of their own they had.
  void clear_under_totals() {
    for (std::size_t t = 0; t < book_.daily.totals.size(); ++t) {
      const climate::RainTotal& total = book_.daily.totals[t];
      for (Date day = total.first; day <= total.last; day += std::chrono::days(1)) {
        const auto old = days_.find(day);
        const auto before = old == days_.end() ? std::nullopt : real_of(old->second, "rain_mm");
        if (!before) continue;
        tell(Severity::changed, total_place(t),
             say("plan.reading_gone",
                 {{"reading", std::string("rain")}, {"day", day}, {"old", *before}}));
        update("weather_days", old->second, {{"rain_mm", Value{}}});
      }
    }
  }

  [[nodiscard]] std::string total_place(std::size_t t) const {
    return t < how_.total_places.size() ? how_.total_places[t] : act_.source_file;
  }

  void remove_other_days() {
    for (const auto& [day, row] : days_) {
      const auto i = book_.daily.index(day);
      if (i && measured(*i)) continue;
      act_.rows.push_back(
          RowChange::remove("weather_days", text_of(row, "uid"), *integer_of(row, "row_version")));
      ++taken_.removed;
    }
    if (taken_.removed == 0) return;
    tell(Severity::changed, act_.source_file,
         say("plan.days_gone", {{"days", taken_.removed}, {"station", book_.station.name}}));
  }

  void add_totals() {
    for (const climate::RainTotal& total : book_.daily.totals) {
      if (kept_totals_.count(total.last) > 0) continue;
      act_.rows.push_back(RowChange::insert("rain_totals", {{"station_uid", taken_.station_uid},
                                                            {"first_day", from(total.first)},
                                                            {"last_day", from(total.last)},
                                                            {"rain_mm", from(total.total_mm)}}));
    }
  }
};

void choose_main(store::Store& store, ChangeSet& act, const std::string& station) {
  const auto rows =
      store.rows("settings", Filter{}.with("key", Value{std::string("main_station")}));
  if (rows.empty()) {
    act.rows.push_back(
        RowChange::insert("settings", {{"key", std::string("main_station")}, {"value", station}}));
  } else if (text_of(rows.front(), "value") != station) {
    act.rows.push_back(RowChange::update("settings", text_of(rows.front(), "uid"),
                                         *integer_of(rows.front(), "row_version"),
                                         {{"value", station}}));
  }
}

}  // namespace

std::string main_station(const store::Store& store) {
  const auto has_readings = [&store](const std::string& uid) {
    const Filter own = Filter{}.with("station_uid", Value{uid});
    return store.count("weather_days", own) + store.count("rain_totals", own) > 0;
  };
  const auto chosen =
      store.rows("settings", Filter{}.with("key", Value{std::string("main_station")}));
  if (!chosen.empty() && has_readings(text_of(chosen.front(), "value")))
    return text_of(chosen.front(), "value");
  const auto rows = store.rows("stations", Filter{}.only({"uid"}));
  for (const Row& row : rows) {
    if (has_readings(text_of(row, "uid"))) return text_of(row, "uid");
  }
  return {};
}

WeatherTaken take_weather(store::Store& store, const climate::WeatherBook& book,
                          const WeatherTaking& how, const TakenFile& file, const Actor& actor) {
  ChangeSet act = act_of(
      actor, how.days == TakeDays::correct ? "weather log corrected" : "weather log taken in");
  act.source_file = file.name;
  const std::string main_before = main_station(store);
  WeatherTaken taken = Laying(store, book, how, act).lay();
  if (how.main) choose_main(store, act, taken.station_uid);
  taken.main = how.main || main_before.empty() || main_before == taken.station_uid;
  TakenFile whole = file;
  whole.findings.insert(whole.findings.end(), taken.findings.begin(), taken.findings.end());
  attach(act, "weather", whole);
  store.apply(act);
  return taken;
}

void take_weather(store::Store& store, const climate::WeatherBook& book, bool replace,
                  const TakenFile& file, const Actor& actor) {
  WeatherTaking how;
  how.days = replace ? TakeDays::replace : TakeDays::fresh;
  take_weather(store, book, how, file, actor);
}

}  // namespace wildling::plan
