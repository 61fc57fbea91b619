#pragma once
/// Cells of a reply's tables: one set for every question, so that a cell means the same in all.
#include <cmath>
#include <concepts>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>

#include "plan/reply.hpp"

namespace wildling::plan {

inline Cell cell(Message message) {
  return {std::move(message), {}};
}

inline Cell cell(std::string text) {
  return {std::move(text), {}};
}

/// Empty where there is no number; what is not there does not open.
inline Cell cell(double value, std::string opens = {}) {
  if (std::isnan(value)) return {};
  return {value, std::move(opens)};
}

template <std::integral Count>
Cell cell(Count value, std::string opens = {}) {
  return {static_cast<std::int64_t>(value), std::move(opens)};
}

inline Cell cell(Date day) {
  return {day, {}};
}

/// Empty where no day is known.
inline Cell cell(std::optional<Date> day) {
  return day ? Cell{*day, {}} : Cell{};
}

}  // namespace wildling::plan
