#include "store/fit.hpp"

#include <cmath>

#include <fmt/format.h>

#include "base/error.hpp"

namespace wildling::store {
namespace {

const char* type_word(ColumnType type) {
  switch (type) {
    case ColumnType::integer:
      return "integer";
    case ColumnType::real:
      return "real";
    case ColumnType::text:
      return "text";
    case ColumnType::blob:
      return "blob";
    case ColumnType::boolean:
      return "boolean";
    case ColumnType::date:
      return "date";
    case ColumnType::utc:
      return "utc";
    case ColumnType::geometry:
      return "geometry";
  }
  return "text";
}

[[noreturn]] void unfit(const Table& table, const Column& column, const Value& value) {
  // Text that is no UTF-8 is not shown: the sentence must stay valid.
  const bool hidden = std::holds_alternative<std::string>(value) && column.type == ColumnType::text;
  throw Error(ErrorKind::input, table.def.name,
              say("store.value_unfit", {{"table", table.def.name},
                                        {"column", column.name},
                                        {"value", hidden ? std::string("?") : shown(value)},
                                        {"wanted", std::string(type_word(column.type))}}));
}

/// Well-formed UTF-8 (RFC 3629: no overlong forms, no surrogates) without NUL.
bool is_clean_text(const std::string& text) {
  std::size_t i = 0;
  const auto at = [&](std::size_t k) {
    return k < text.size() ? static_cast<unsigned char>(text[k]) : 0U;
  };
  while (i < text.size()) {
    const unsigned c = at(i);
    if (c == 0) return false;
    if (c < 0x80) {
      ++i;
      continue;
    }
    const std::size_t more = c >= 0xf0 ? 3 : c >= 0xe0 ? 2 : 1;
    if (c < 0xc2 || c > 0xf4) return false;
    unsigned code = c & (0x3fU >> more);
    for (std::size_t k = 1; k <= more; ++k) {
      if ((at(i + k) & 0xc0U) != 0x80U) return false;
      code = (code << 6U) | (at(i + k) & 0x3fU);
    }
    if ((more == 2 && code < 0x800) || (more == 3 && (code < 0x10000 || code > 0x10ffff)))
      return false;
    if (code >= 0xd800 && code <= 0xdfff) return false;
    i += more + 1;
  }
  return true;
}

bool is_utc(const std::string& text) {
  if (text.size() != 24 || !parse_iso_date(text.substr(0, 10))) return false;
  const std::string_view shape = "T00:00:00.000Z";
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const char c = text[10 + i];
    if (shape[i] == '0' ? (c < '0' || c > '9') : c != shape[i]) return false;
  }
  return text.substr(11, 2) < "24" && text.substr(14, 2) < "60" && text.substr(17, 2) < "60";
}

bool text_fits(ColumnType type, const std::string& text) {
  if (type == ColumnType::text) return is_clean_text(text);
  if (type == ColumnType::date) return text.size() == 10 && parse_iso_date(text).has_value();
  return type == ColumnType::utc && is_utc(text);
}

bool geometry_fits(GeometryType type, const Blob& blob) {
  const Geometry geometry = decode(blob);
  switch (type) {
    case GeometryType::point:
      return std::holds_alternative<Position>(geometry);
    case GeometryType::line_string:
      return std::holds_alternative<LineString>(geometry);
    case GeometryType::multi_polygon:
      return std::holds_alternative<MultiPolygon>(geometry);
    case GeometryType::none:
      return false;
  }
  return false;
}

/// What is stored for a number: itself (empty), another value, or nothing that fits (throws).
std::optional<Value> refit_real(const Table& table, const Column& column, double real) {
  if (column.type != ColumnType::real || std::isinf(real)) unfit(table, column, real);
  if (std::isnan(real)) return Value();
  if (real == 0 && std::signbit(real)) return Value(0.0);
  return std::nullopt;
}

std::optional<Value> refit_integer(const Table& table, const Column& column, std::int64_t whole) {
  if (column.type == ColumnType::integer) return std::nullopt;
  if (column.type == ColumnType::boolean && (whole == 0 || whole == 1)) return std::nullopt;
  if (column.type == ColumnType::real) return Value(static_cast<double>(whole));
  unfit(table, column, whole);
}

void check_null(const Table& table, const Column& column, const Value& value) {
  if (column.nullable || !std::holds_alternative<std::monostate>(value)) return;
  throw Error(ErrorKind::input, table.def.name,
              say("store.value_missing", {{"table", table.def.name}, {"column", column.name}}));
}

bool is_own(const Table& table, std::string_view name) {
  if (name == "geom") return table.def.geometry != GeometryType::none;
  for (const Column& column : table.def.columns) {
    if (column.name == name) return true;
  }
  return false;
}

}  // namespace

std::string shown(const Value& value) {
  if (const auto* whole = std::get_if<std::int64_t>(&value)) return fmt::format("{}", *whole);
  if (const auto* real = std::get_if<double>(&value)) return fmt::format("{}", *real);
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  if (const auto* blob = std::get_if<Blob>(&value)) return fmt::format("{} bytes", blob->size());
  return "nothing";
}

std::optional<Value> refitted(const Table& table, const Column& column, const Value& value) {
  std::optional<Value> other;
  if (const auto* real = std::get_if<double>(&value)) {
    other = refit_real(table, column, *real);
  } else if (const auto* whole = std::get_if<std::int64_t>(&value)) {
    other = refit_integer(table, column, *whole);
  } else if (const auto* text = std::get_if<std::string>(&value)) {
    if (!text_fits(column.type, *text)) unfit(table, column, value);
  } else if (const auto* blob = std::get_if<Blob>(&value)) {
    const bool fits = column.type == ColumnType::geometry ? geometry_fits(table.def.geometry, *blob)
                                                          : column.type == ColumnType::blob;
    if (!fits) unfit(table, column, value);
  }
  check_null(table, column, other ? *other : value);
  return other;
}

Row fitted(const Table& table, const Row& values, bool partial) {
  Row row = values;
  for (const auto& [name, value] : values) {
    static_cast<void>(table.at(name));
    if (!is_own(table, name)) {
      throw Error(ErrorKind::internal, table.def.name,
                  say("store.unknown_column", {{"table", table.def.name}, {"column", name}}));
    }
  }
  for (const Column& column : table.columns) {
    if (!is_own(table, column.name)) continue;
    const auto found = row.find(column.name);
    if (found == row.end()) {
      if (partial) continue;
      check_null(table, column, Value());
      row.emplace(column.name, Value());
    } else if (auto other = refitted(table, column, found->second)) {
      found->second = std::move(*other);
    }
  }
  return row;
}

void check_filter(const Table& table, const Filter& filter) {
  for (const Condition& condition : filter.where) static_cast<void>(table.at(condition.column));
  for (const Order& order : filter.order) static_cast<void>(table.at(order.column));
  for (const std::string& column : filter.columns) static_cast<void>(table.at(column));
}

std::string label_of(const Table& table, const Row& row) {
  for (const char* name : {"code", "name", "key", "number", "scientific_name", "name_as_written",
                           "file_name", "day"}) {
    const Value& value = cell(row, name);
    if (const auto* text = std::get_if<std::string>(&value)) {
      if (!text->empty()) return table.def.name + " " + *text;
    }
    if (const auto* whole = std::get_if<std::int64_t>(&value))
      return fmt::format("{} {}", table.def.name, *whole);
  }
  return table.def.name + " " + text_of(row, "uid");
}

}  // namespace wildling::store
