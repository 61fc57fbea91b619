#pragma once
/// store: the programme file. Everything a programme knows lies in one GeoPackage (an open
/// standard: SQLite with spatial layers), behind an interface that an in-memory store implements as
/// well. Tables are declared as data (table.hpp, schema/), rows are maps from column to value (this
/// file), every change is logged and can be undone (changes.hpp), and a crash loses nothing
/// acknowledged.
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/date.hpp"

namespace wildling::store {

using Blob = std::vector<std::uint8_t>;

/// What a cell holds. Null (monostate) is "not known". A boolean is 0 or 1, a date "2026-11-25" and
/// a moment "2026-11-25T04:37:13.123Z"; a geometry is a GeoPackage blob (geometry.hpp).
using Value = std::variant<std::monostate, std::int64_t, double, std::string, Blob>;

/// Column name to value. On insert a column left out is null; on update it keeps what it has.
using Row = std::map<std::string, Value, std::less<>>;

/// The cell, or null when the row has no such column.
const Value& cell(const Row& row, std::string_view column);

bool is_null(const Row& row, std::string_view column);
/// "" when null. @throws Error{internal} when the cell holds another type
std::string text_of(const Row& row, std::string_view column);
/// Empty when null; an integer reads as a real too. @throws Error{internal} when the cell holds
/// another type
std::optional<double> real_of(const Row& row, std::string_view column);
/// Empty when null. @throws Error{internal} when the cell holds another type
std::optional<std::int64_t> integer_of(const Row& row, std::string_view column);
/// Null reads as `when_null`. @throws Error{internal} when the cell holds another type
bool flag_of(const Row& row, std::string_view column, bool when_null = false);
/// Empty when null. @throws Error{internal} when the cell is no date
std::optional<Date> date_of(const Row& row, std::string_view column);
/// Empty when null. @throws Error{internal} when the cell holds another type
Blob blob_of(const Row& row, std::string_view column);

/// Null when empty.
Value from(const std::optional<double>& value);
Value from(const std::optional<std::int64_t>& value);
Value from(const std::optional<int>& value);
Value from(const std::optional<Date>& value);
Value from(Date day);
Value from(double value);
Value from(std::int64_t value);
Value from(int value);
Value from_flag(bool flag);

}  // namespace wildling::store
