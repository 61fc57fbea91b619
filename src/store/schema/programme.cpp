#include "store/schema/rooms.hpp"

namespace wildling::store::schema {

using enum ColumnType;

std::vector<TableDef> programme_tables() {
  return {{"settings",
           "Settings",
           "the user, when the programme is made and later",
           TableKind::attributes,
           GeometryType::none,
           {{"key", text, "",
             "name of the setting: programme name, utc_offset_min, language, invented", false},
            {"value", text, "", "its value as text; numbers with a dot"},
            {"note", text, "", "why"}},
           {{{"key"}, true}}}};
}

}  // namespace wildling::store::schema
