#include "store/schema/rooms.hpp"

namespace wildling::store::schema {
namespace {

using enum ColumnType;

TableDef walks() {
  return {"walks",
          "Smother walks",
          "the user, once a week and block",
          TableKind::attributes,
          GeometryType::none,
          {{"block_uid", text, "", "block", false},
           {"day", date, "", "day of the walk", false},
           {"cover", text, "",
            "running_grass, tussock_grass, fern, climbers, shrubs: what competes", false},
           {"picture", integer, "",
            "1 to 4: to the knee of the trees, half, as high, above; by the pictures"},
           {"cover_m", real, "m", "height of the cover, where it was measured"},
           {"climbed_share", real, "", "share of trees with climbers in the crown, 0 to 1"},
           {"cured_share", real, "", "share of dead grass, 0 to 1"},
           {"animal_signs", text, "", "what was seen"},
           {"note", text, "", "in the walker's words"}},
          {{{"block_uid", "day"}}}};
}

}  // namespace

std::vector<TableDef> field_book_tables() {
  return {walks()};
}

}  // namespace wildling::store::schema
