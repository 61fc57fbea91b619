#include "store/backend.hpp"

#include <algorithm>

#include "base/error.hpp"

namespace wildling::store {

Table::Table(TableDef definition) : def(std::move(definition)), columns(all_columns(def)) {}

const Column* Table::find(std::string_view column) const {
  const auto found = std::find_if(columns.begin(), columns.end(),
                                  [&](const Column& c) { return c.name == column; });
  return found == columns.end() ? nullptr : &*found;
}

const Column& Table::at(std::string_view column) const {
  if (const Column* found = find(column)) return *found;
  throw Error(ErrorKind::internal, def.name,
              say("store.unknown_column", {{"table", def.name}, {"column", std::string(column)}}));
}

Tables::Tables(std::vector<TableDef> definitions) : definitions_(std::move(definitions)) {
  for (const TableDef& table : definitions_) tables_.emplace(table.name, Table(table));
}

const Table& Tables::at(std::string_view name) const {
  const auto found = tables_.find(name);
  if (found == tables_.end()) {
    throw Error(ErrorKind::internal, std::string(name),
                say("store.unknown_table", {{"table", std::string(name)}}));
  }
  return found->second;
}

void Touched::add(const Envelope& box) {
  if (!added) {
    added = box;
    return;
  }
  added->min_lon_deg = std::min(added->min_lon_deg, box.min_lon_deg);
  added->max_lon_deg = std::max(added->max_lon_deg, box.max_lon_deg);
  added->min_lat_deg = std::min(added->min_lat_deg, box.min_lat_deg);
  added->max_lat_deg = std::max(added->max_lat_deg, box.max_lat_deg);
}

}  // namespace wildling::store
