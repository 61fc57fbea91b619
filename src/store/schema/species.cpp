#include "store/schema/rooms.hpp"

namespace wildling::store::schema {

using enum ColumnType;

std::vector<TableDef> species_tables() {
  return {{"candidates",
           "Species to choose from",
           "taking in a species table; the user",
           TableKind::attributes,
           GeometryType::none,
           {{"scientific_name", text, "", "as matched in the species library"},
            {"name_as_written", text, "", "as the file or the user wrote it", false},
            {"use_it", boolean, "", "0 = leave out of plans"},
            {"successional_group", text, "",
             "pioneer, early, late; empty = as the species library says"},
            {"seedlings_ready", integer, "", "seedlings in the nursery fit for planting"},
            {"can_raise", integer, "", "seedlings that can be raised by the planting season"},
            {"mother_trees", integer, "", "trees known to give seed"},
            {"price_per_seedling", real, "currency of the programme", "price of one seedling"},
            {"nursery", text, "", "who has them"},
            {"survival_open_pct", real, "%", "alive one year after planting in the open"},
            {"survival_shade_pct", real, "%", "alive one year after planting in half shade"},
            {"fields", text, "", "JSON of all other cells of the file's line, by column name"}},
           {{{"scientific_name"}}}}};
}

}  // namespace wildling::store::schema
