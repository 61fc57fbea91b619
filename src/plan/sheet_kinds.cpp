#include "plan/sheet_kinds.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "plan/field/sheets.hpp"
#include "plan/field/year_replies.hpp"
#include "plan/weather/waiting.hpp"

namespace wildling::plan {

const std::vector<SheetKind>& sheet_kinds() {
  static const std::vector<SheetKind> kinds = {
      {"tomorrow", "One page per crew leader for the next day's work, with return slips.",
       [](const store::Store& store, const SheetWish& wish, Date today) -> SheetContent {
         return tomorrow_sheets(store, wish, today);
       }},
      {"pay", "Attendance and pay of the week that --day lies in.",
       [](const store::Store& store, const SheetWish& wish, Date today) -> SheetContent {
         return pay_lists(store, wish, today);
       }},
      {"walk", "The weekly smother walk, one line per planted block, with four pictures.",
       [](const store::Store& store, const SheetWish& wish, Date today) -> SheetContent {
         return walk_sheet(store, wish, today);
       }},
      {"fire", "The fire calendar: months, firebreaks, who walks when, neighbours, after a fire.",
       [](const store::Store& store, const SheetWish&, Date today) -> SheetContent {
         return fire_sheet(load_year(store, today));
       }},
      {"waiting", "Why nobody planted on --day (without it today), to be signed.",
       [](const store::Store& store, const SheetWish& wish, Date today) -> SheetContent {
         return waiting_page(store, wish.day.value_or(today), wish.blocks);
       }},
  };
  return kinds;
}

const SheetKind& sheet_kind(const std::string& name) {
  const std::vector<SheetKind>& kinds = sheet_kinds();
  const auto found = std::find_if(kinds.begin(), kinds.end(),
                                  [&](const SheetKind& kind) { return kind.name == name; });
  if (found != kinds.end()) return *found;
  std::string names;
  for (const SheetKind& kind : kinds) names += (names.empty() ? "" : ", ") + kind.name;
  throw Error(ErrorKind::usage, name, say("fieldbook.no_sheet_kind", {{"names", names}}));
}

}  // namespace wildling::plan
