#include "store/schema/rooms.hpp"

namespace wildling::store::schema {
namespace {

using enum ColumnType;

TableDef jobs() {
  return {"jobs",
          "Long work",
          "the program",
          TableKind::derived,
          GeometryType::none,
          {{"uid", text, "", "name of the job", false},
           {"kind", text, "", "plan or reply", false},
           {"asked", text, "", "JSON of what was asked for", false},
           {"state", text, "", "waiting, running, done, failed, cancelled, interrupted", false},
           {"who", text, "", "who asked", false},
           {"started_utc", utc, "", "when it began"},
           {"ended_utc", utc, "", "when it ended; empty = it did not, or was interrupted"},
           {"outcome", text, "", "JSON: number of the plan, or what went wrong"}},
          {{{"uid"}, true}}};
}

TableDef pictures() {
  return {"pictures",
          "Pictures of the land",
          "taking in an elevation model",
          TableKind::derived,
          GeometryType::none,
          {{"name", text, "", "hillshade", false},
           {"west_deg", real, "deg", "longitude of the left edge", false},
           {"south_deg", real, "deg", "latitude of the lower edge", false},
           {"east_deg", real, "deg", "longitude of the right edge", false},
           {"north_deg", real, "deg", "latitude of the upper edge", false},
           {"source", text, "", "file it was made from, its cell size and height reference"},
           {"picture", blob, "", "PNG in Web Mercator rows", false}},
          {{{"name"}, true}}};
}

}  // namespace

std::vector<TableDef> page_tables() {
  return {jobs(), pictures()};
}

}  // namespace wildling::store::schema
