#pragma once
/// The fire calendar without words: when the season begins, what must be cut by when and how wide,
/// and how much of it is done.
#include "plan/field/year_context.hpp"
#include "tending/fire.hpp"

namespace wildling::plan {

struct BreakLine {
  std::string block = {};
  bool open = false;  ///< the gate: closed blocks have no work
  double metres = 0;
  double fuel_m = 0;
  bool fuel_walked = false;  ///< measured on a smother walk, else the full height of the cover
  double width_m = 0;
  double slope_factor = 1;
  double person_days = 0;  ///< of the whole length at that width
  double done_m = 0;       ///< since the last season
  std::optional<Date> done_on = {};

  [[nodiscard]] double left_m() const { return metres > done_m ? metres - done_m : 0; }
};

struct FireYear {
  bool known = false;  ///< there are rain figures of months
  bool dry = false;    ///< some month is dry on average; else the driest month stands in
  int driest_month = 0;
  std::vector<int> dry_months = {};
  tending::FireSeason season = {};  ///< meaningless unless known
  Date due = {};                    ///< of the firebreaks
  std::vector<BreakLine> breaks = {};
  double metres = 0, done_m = 0, left_m = 0, person_days = 0;  ///< of open blocks
};

FireYear fire_year(const Year& year);

/// Nodes under "year/fire/...".
void add_fire_nodes(Workings& workings, const Year& year, const FireYear& fire);

/// Day of a step of the season.
Date step_day(const FireYear& fire, tending::FireStep step);

}  // namespace wildling::plan
