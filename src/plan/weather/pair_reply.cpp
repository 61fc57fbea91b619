#include <algorithm>

#include "climate/paired.hpp"
#include "climate/paired_workings.hpp"
#include "plan/weather/log_lines.hpp"
#include "plan/weather/replies.hpp"

namespace wildling::plan::weather {
namespace {

Message opened(const Message& line, const char* name, const climate::PairedResult& result) {
  if (result.refused) return line;
  const std::string key = std::string("climate/paired/") + name + "/";
  return opening(line, {{"mean", key + "mean"},
                        {"low", key + "low"},
                        {"high", key + "high"},
                        {"days", key + "days"}});
}

std::vector<Cell> row_of(const Workings& w, const char* name) {
  const std::string key = std::string("climate/paired/") + name + "/";
  return {cell(say(std::string("weather.paired.") + name)),
          cell_of(w, key + "mean"),
          cell_of(w, key + "low"),
          cell_of(w, key + "high"),
          cell_of(w, key + "days", true),
          cell_of(w, key + "blocks", true)};
}

Table pair_table(const Workings& w, const climate::PairedResult& result) {
  Table table{"difference",
              say("weather.paired.caption"),
              {{"what", say("weather.column.what"), 0},
               {"mean", say("weather.column.open_less_forest"), 2},
               {"low", say("weather.column.low"), 2},
               {"high", say("weather.column.high"), 2},
               {"days", say("weather.column.days"), 0},
               {"stretches", say("weather.column.stretches"), 0}},
              {}};
  if (result.tmax_c) table.rows.push_back(row_of(w, "tmax"));
  if (result.vpd_kpa) table.rows.push_back(row_of(w, "vpd"));
  return table;
}

}  // namespace

Reply pair_reply(const store::Store& store, const Entries& entries, Date, const Progress&) {
  const Programme programme = load_programme(store);
  const auto books = load_weather_books(store);
  const climate::WeatherBook& open =
      book_named(books, text_of(entries, "open-station").value_or(""));
  const climate::WeatherBook& forest =
      book_named(books, text_of(entries, "forest-station").value_or(""));
  if (&open == &forest)
    throw Error(ErrorKind::usage, "--forest-station", say("weather.paired.same"));
  const climate::PairedResult result = climate::paired_stations(open, forest, programme.parameters);
  Reply reply;
  reply.name = "pair";
  climate::add_paired_workings(reply.workings, result);
  reply.answer = opened(result.first_line, "tmax", result);
  reply.parts = {part_of(
      "weather.heading.how",
      {say("weather.paired.how", {{"open", open.station.name}, {"forest", forest.station.name}})})};
  if (!result.refused) reply.tables.push_back(pair_table(reply.workings, result));
  return reply;
}

}  // namespace wildling::plan::weather
