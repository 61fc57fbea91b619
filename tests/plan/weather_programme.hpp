#pragma once
// A programme for the weather room's tests: the invented land with eleven invented years, whose
// newest day is the "today" of the tests. Every gate can be opened by one call.
#include <algorithm>

#include "base/words.hpp"
#include "invented_programme.hpp"
#include "plan/ask.hpp"
#include "plan/chain.hpp"

namespace wildling::plan {

const Date kToday = make_date(2025, 3, 10);

// Rain by chance, more from October to May, temperatures with it; the last day is kToday.
inline climate::WeatherBook eleven_years() {
  climate::WeatherBook book;
  book.station.name = "Invented station";
  book.station.lat_deg = -0.83;
  book.station.lon_deg = 113.28;
  book.daily.first = make_date(2014, 3, 11);
  const int days = static_cast<int>((kToday - book.daily.first).count()) + 1;
  Stream chance(Seed{5}, Purpose{"test rain"}, 0);
  for (int i = 0; i < days; ++i) {
    const unsigned month = month_of(book.daily.first + std::chrono::days(i));
    const bool dry = month >= 6 && month <= 9;
    const bool wet = chance.uniform() < (dry ? 0.12 : 0.55);
    book.daily.rain_mm.push_back(wet ? 2 + 22 * chance.uniform() : 0.0);
    book.daily.tmax_c.push_back((wet ? 30.5 : 33) + chance.normal());
    book.daily.tmin_c.push_back(23 + 0.5 * chance.normal());
    book.daily.rh_max_pct.push_back(96);
    book.daily.rh_min_pct.push_back(wet ? 68 : 55);
  }
  book.daily.rain_mm.back() = 12;
  return book;
}

inline void take(store::Store& store, const climate::WeatherBook& book) {
  take_weather(store, book, false, {"invented", std::string(64, '0'), 10, 2, 2, 0, {}}, kTester);
}

inline std::unique_ptr<store::Store> weather_programme(Outside& outside) {
  auto store = invented_programme(outside, 0);
  take(*store, eleven_years());
  return store;
}

/// Everything looked at and good, on `day`, at every block.
inline Entries good_look(Date day) {
  Entries look = {{"day", {iso_date(day)}}, {"soil", {"moist"}}};
  for (const char* gate : {"strip-cleared", "pits-dug", "stock-ready", "pit-drains",
                           "river-not-rising", "crew-and-way-in"})
    look[gate] = {"yes"};
  return look;
}

inline void open_everything(store::Store& store, Date day = kToday) {
  take_answers(store, "", all_open(), kTester);
  Entries look = good_look(day);
  for (const store::Row& row : store.rows("blocks"))
    look["block"].push_back(store::text_of(row, "code"));
  note("look").keep(store, look, std::max(day, kToday), kTester);
}

inline Reply asked(const store::Store& store, const std::string& name, Entries entries = {},
                   Date today = kToday) {
  check_entries(question(name).fields, entries);
  return question(name).reply(store, entries, today, {});
}

/// All sentences of a reply in one language, a line each.
inline std::string all_words(const Reply& reply, Language language) {
  const Words words(language);
  std::string text = words.text(reply.answer) + '\n';
  for (const LetterPart& part : reply.parts) {
    text += words.text(part.heading) + '\n';
    for (const Message& sentence : part.sentences) text += words.text(sentence) + '\n';
  }
  for (const Table& table : reply.tables) {
    text += words.text(table.caption) + '\n';
    for (const Column& column : table.columns) text += words.text(column.heading) + '\n';
    for (const auto& row : table.rows) {
      for (const Cell& cell : row) {
        if (const auto* message = std::get_if<Message>(&cell.value))
          text += words.text(*message) + '\n';
      }
    }
  }
  for (const Chart& chart : reply.charts) {
    text += words.text(chart.caption) + '\n' + words.text(chart.x_label) + '\n';
    for (const Curve& curve : chart.curves) text += words.text(curve.label) + '\n';
  }
  for (const WorkingsNode& node : reply.workings.nodes()) text += words.text(node.label) + '\n';
  return text;
}

}  // namespace wildling::plan
