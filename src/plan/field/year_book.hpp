#pragma once
/// What people wrote down for the year ahead, as plain structs: the tables of
/// store/schema/year_book.cpp and the work diary.
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "ground/shape.hpp"
#include "store/store.hpp"
#include "tending/diary.hpp"
#include "tending/smother.hpp"

namespace wildling::plan {

enum class MoneyState { received, agreed, hoped };

struct Income {
  bool opening = false;
  MoneyState state = MoneyState::received;
  Date day = {};
  double amount = 0;
  std::string giver = {}, note = {};
};

/// What one thing costs from a day on.
struct PriceStep {
  std::string item = {};
  Date from = {};
  double price = 0;
  std::string note = {};
};

struct Neighbour {
  std::string name = {};
  std::optional<Date> told_on = {};  ///< the newest day; empty: not told yet
  std::string agreed = {};
};

struct Fire {
  Date day = {};
  std::vector<std::string> blocks = {};
  ground::Shape edge = {};  ///< empty: not walked with a track
  std::string edge_words = {}, note = {};
};

struct FirebreakDone {
  std::string block = {};
  Date day = {};
  double length_m = 0;
  std::optional<double> width_m = {};
};

struct RowCount {
  std::string block = {};
  int row = 0;
  Date day = {};
  std::string cohort = {};
  int alive = 0, counted = 0;
  std::optional<std::vector<int>> dead_places = {};  ///< rising, from 1; empty: not written
};

struct YearBook {
  std::vector<Income> incomes = {};        ///< by day
  std::vector<PriceStep> prices = {};      ///< by day; wages of everybody from the wage list too
  std::vector<Neighbour> neighbours = {};  ///< by name, each once
  std::vector<Fire> fires = {};            ///< by day
  std::vector<FirebreakDone> firebreaks = {};  ///< by day
  std::vector<RowCount> counts = {};           ///< by day
  std::vector<tending::DiaryLine> diary = {};  ///< by day; lines of unknown jobs are left out
  std::vector<tending::WalkLine> walks = {};   ///< newest of each block, with a measured height
};

YearBook read_year_book(const store::Store& store);

/// "3, 4, 9-12" as places; empty when it cannot be read or a place is not in 1 to `places`.
std::optional<std::vector<int>> parse_places(const std::string& text, int places);

/// "B1, B2" as codes.
std::vector<std::string> parse_codes(const std::string& text);

}  // namespace wildling::plan
