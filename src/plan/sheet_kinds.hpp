#pragma once
/// Sheets that are printed by name, as a list: the command line makes `wildling sheet KIND` of it,
/// the page a button each. Here they are filled; src/paper sets them in type.
#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/date.hpp"
#include "plan/sheets.hpp"
#include "store/store.hpp"

namespace wildling::plan {

/// What was asked for; empty = all, or the usual day of that kind.
struct SheetWish {
  std::optional<Date> day = {};
  std::vector<std::string> blocks = {};  ///< codes
  std::string crew = {};                 ///< crew leader
};

using SheetContent = std::variant<std::vector<TomorrowSheet>, std::vector<PayList>, WalkSheet,
                                  FireCalendar, WaitingPage>;

struct SheetKind {
  std::string name = {};  ///< "tomorrow"
  std::string help = {};  ///< English, one line
  /// @throws Error{input} with a sentence when there is nothing to print, an unknown block ...
  std::function<SheetContent(const store::Store&, const SheetWish&, Date today)> fill = {};
};

const std::vector<SheetKind>& sheet_kinds();

/// @throws Error{usage} that lists the kinds
const SheetKind& sheet_kind(const std::string& name);

}  // namespace wildling::plan
