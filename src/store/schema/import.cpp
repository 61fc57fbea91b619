#include "store/schema/rooms.hpp"

namespace wildling::store::schema {

using enum ColumnType;

std::vector<TableDef> import_tables() {
  return {{"imports",
           "Files taken in",
           "the store, with every file taken in",
           TableKind::attributes,
           GeometryType::none,
           {{"kind", text, "", "boundary, weather, species", false},
            {"file_name", text, "", "name without folder", false},
            {"sha256", text, "", "fingerprint of the file's bytes, 64 hexadecimal digits", false},
            {"file_bytes", integer, "bytes", "size of the file", false},
            {"records_read", integer, "", "records found in it", false},
            {"records_kept", integer, "", "records taken over", false},
            {"records_set_aside", integer, "", "records not used; the findings say why", false},
            {"findings", text, "",
             "JSON list of findings: severity, where, message key and arguments"}},
           {{{"sha256"}}}}};
}

}  // namespace wildling::store::schema
