#include "store/st_functions.hpp"

#include <array>

#include <sqlite3.h>

#include "store/geometry.hpp"

namespace wildling::store {
namespace {

std::optional<Envelope> box_of(sqlite3_value* value) {
  const auto* bytes = static_cast<const std::uint8_t*>(sqlite3_value_blob(value));
  if (bytes == nullptr) return std::nullopt;
  return envelope_of({bytes, static_cast<std::size_t>(sqlite3_value_bytes(value))});
}

template <double Envelope::*Side>
void side(sqlite3_context* context, int /*count*/, sqlite3_value** values) {
  const auto box = box_of(values[0]);
  if (box) {
    sqlite3_result_double(context, (*box).*Side);
  } else {
    sqlite3_result_null(context);
  }
}

void is_empty(sqlite3_context* context, int /*count*/, sqlite3_value** values) {
  if (sqlite3_value_type(values[0]) == SQLITE_NULL) {
    sqlite3_result_null(context);
  } else {
    sqlite3_result_int(context, box_of(values[0]) ? 0 : 1);
  }
}

}  // namespace

void register_st_functions(sqlite3* database) {
  struct Function {
    const char* name;
    void (*call)(sqlite3_context*, int, sqlite3_value**);
  };

  constexpr std::array<Function, 5> kFunctions = {{{"ST_MinX", side<&Envelope::min_lon_deg>},
                                                   {"ST_MaxX", side<&Envelope::max_lon_deg>},
                                                   {"ST_MinY", side<&Envelope::min_lat_deg>},
                                                   {"ST_MaxY", side<&Envelope::max_lat_deg>},
                                                   {"ST_IsEmpty", is_empty}}};
  for (const Function& function : kFunctions) {
    sqlite3_create_function_v2(database, function.name, 1,
                               SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_INNOCUOUS, nullptr,
                               function.call, nullptr, nullptr, nullptr);
  }
}

}  // namespace wildling::store
