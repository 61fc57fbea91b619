#pragma once
#include <optional>

#include "store/backend.hpp"

namespace wildling::store {

/// Holds a value against its column.
/// @return empty when it fits as it is; else what is stored instead: null for NaN, a real for an
/// integer in a
///         real column, 0 for -0
/// @throws Error{input} with table and column when it does not fit
std::optional<Value> refitted(const Table& table, const Column& column, const Value& value);

/// The row with every own column present and fitting; `partial` leaves out what is not named.
/// @throws Error{input} as refitted(); Error{internal} for a column that is not there or that the
/// store keeps itself
Row fitted(const Table& table, const Row& values, bool partial);

/// @throws Error{internal} when the filter names a column that is not there
void check_filter(const Table& table, const Filter& filter);

/// The value as a message shows it.
std::string shown(const Value& value);

/// "blocks B3" for messages: the column people know a row by, else its uid.
std::string label_of(const Table& table, const Row& row);

}  // namespace wildling::store
