#include "store/value.hpp"

#include "base/error.hpp"

namespace wildling::store {
namespace {

const Value kNull;

[[noreturn]] void wrong_type(std::string_view column) {
  throw Error(ErrorKind::internal, std::string(column),
              say("store.cell_of_another_type", {{"column", std::string(column)}}));
}

template <typename T>
const T* held(const Row& row, std::string_view column) {
  const Value& value = cell(row, column);
  if (std::holds_alternative<std::monostate>(value)) return nullptr;
  const T* found = std::get_if<T>(&value);
  if (found == nullptr) wrong_type(column);
  return found;
}

}  // namespace

const Value& cell(const Row& row, std::string_view column) {
  const auto found = row.find(column);
  return found == row.end() ? kNull : found->second;
}

bool is_null(const Row& row, std::string_view column) {
  return std::holds_alternative<std::monostate>(cell(row, column));
}

std::string text_of(const Row& row, std::string_view column) {
  const auto* text = held<std::string>(row, column);
  return text == nullptr ? std::string() : *text;
}

std::optional<double> real_of(const Row& row, std::string_view column) {
  if (const auto* whole = std::get_if<std::int64_t>(&cell(row, column))) {
    return static_cast<double>(*whole);
  }
  const auto* real = held<double>(row, column);
  return real == nullptr ? std::nullopt : std::optional<double>(*real);
}

std::optional<std::int64_t> integer_of(const Row& row, std::string_view column) {
  const auto* whole = held<std::int64_t>(row, column);
  return whole == nullptr ? std::nullopt : std::optional<std::int64_t>(*whole);
}

bool flag_of(const Row& row, std::string_view column, bool when_null) {
  const auto whole = integer_of(row, column);
  return whole ? *whole != 0 : when_null;
}

std::optional<Date> date_of(const Row& row, std::string_view column) {
  const auto* text = held<std::string>(row, column);
  if (text == nullptr) return std::nullopt;
  const auto day = parse_iso_date(*text);
  if (!day) wrong_type(column);
  return day;
}

Blob blob_of(const Row& row, std::string_view column) {
  const auto* blob = held<Blob>(row, column);
  return blob == nullptr ? Blob() : *blob;
}

Value from(const std::optional<double>& value) {
  return value ? Value(*value) : Value();
}

Value from(const std::optional<std::int64_t>& value) {
  return value ? Value(*value) : Value();
}

Value from(const std::optional<int>& value) {
  return value ? Value(static_cast<std::int64_t>(*value)) : Value();
}

Value from(const std::optional<Date>& value) {
  return value ? from(*value) : Value();
}

Value from(Date day) {
  return Value(iso_date(day));
}

Value from(double value) {
  return Value(value);
}

Value from(std::int64_t value) {
  return Value(value);
}

Value from(int value) {
  return Value(static_cast<std::int64_t>(value));
}

Value from_flag(bool flag) {
  return Value(static_cast<std::int64_t>(flag ? 1 : 0));
}

}  // namespace wildling::store
