#pragma once
// A small invented programme for the tests of this room: one square site of 4 ha, a second of 1 ha,
// five species of the shipped library, two years of invented rain.
#include <cmath>
#include <memory>

#include "base/outside.hpp"
#include "plan/take.hpp"
#include "species/library.hpp"

namespace wildling::plan {

inline ground::Shape square(double lon, double lat, double side_m) {
  const double dlat = side_m / 110574.0;
  const double dlon = side_m / (111320.0 * std::cos(lat * 3.14159265358979 / 180));
  return {{{{{lon, lat}, {lon + dlon, lat}, {lon + dlon, lat + dlat}, {lon, lat + dlat}}, {}}}};
}

inline climate::WeatherBook invented_rain(int days) {
  climate::WeatherBook book;
  book.station.name = "Invented station";
  book.daily.first = make_date(2023, 1, 1);
  // 12 mm every third day from October to May, every tenth day else.
  for (int i = 0; i < days; ++i) {
    const unsigned month = month_of(book.daily.first + std::chrono::days(i));
    const int every = month >= 6 && month <= 9 ? 10 : 3;
    book.daily.rain_mm.push_back(i % every == 0 ? 12.0 : 0.0);
  }
  return book;
}

inline std::vector<species::Candidate> invented_stock() {
  const species::Library library = species::Library::shipped();
  std::vector<species::Candidate> list;
  int pioneers = 0, early = 0;
  for (const species::Species& species : library.all()) {
    if (!species.group || *species.group == species::Group::late) continue;
    if ((*species.group == species::Group::pioneer ? pioneers : early)++ >= 12) continue;
    species::Candidate candidate;
    candidate.species = species;
    candidate.stock.species = candidate.stock.name_as_written = species.scientific_name;
    candidate.stock.seedlings_ready = 200;
    candidate.stock.can_raise = 3000;
    candidate.stock.price_per_seedling = 2500;
    list.push_back(candidate);
  }
  return list;
}

inline GateUpdate all_open() {
  GateUpdate update;
  update.consent = update.fire_and_cattle = ground::Answer::yes;
  update.drained_peat = ground::Answer::no;
  update.natural_trees_said = true;
  update.natural_trees_per_ha = 50;
  update.who = "village committee (invented)";
  update.day = make_date(2025, 1, 10);
  return update;
}

const Actor kTester = {"tester", "test"};

inline std::unique_ptr<store::Store> invented_programme(Outside& outside, int rain_days = 730) {
  auto store = store::in_memory(outside);
  start_programme(*store, "Test land (invented)", 2.7, kTester);
  const TakenFile file = {"invented", std::string(64, '0'), 10, 2, 2, 0, {}};
  NewSite big{"Big field", square(113.28, -0.83, 200), "slope", ground::Cover::fern, 9.0, false, 5};
  NewSite small{"Small field",
                square(113.30, -0.83, 100),
                "slope",
                ground::Cover::running_grass,
                {},
                false,
                5};
  take_sites(*store, {big, small}, file, kTester);
  if (rain_days > 0) take_weather(*store, invented_rain(rain_days), false, file, kTester);
  take_candidates(*store, invented_stock(), file, kTester);
  return store;
}

}  // namespace wildling::plan
