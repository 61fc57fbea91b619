#pragma once
/// Attendance and pay from the work diary.
#include <map>
#include <string>
#include <vector>

#include "plan/field/book.hpp"
#include "plan/reply.hpp"
#include "plan/sheets.hpp"

namespace wildling::plan {

/// A diary line that is paid, with the wage of its day.
struct PaidLine {
  tending::DiaryLine line = {};
  double wage = 0;  ///< of a full day
};

struct PaidPeriod {
  Date from = {}, to = {};
  std::vector<PaidLine> lines = {};            ///< in order of days
  std::vector<tending::DiaryLine> aside = {};  ///< not paid yet
  Findings findings = {};                      ///< one per line set aside
};

/// A wage holds from its day on; where nobody has entered one, the parameter tending.wage_per_day
/// pays only if somebody has set it, never as shipped: a shipped wage is an invented figure.
PaidPeriod paid_period(const FieldBook& book, Date from, Date to);

/// A week from `first`; of some blocks only, when any are named.
PayList pay_sheet(const FieldBook& book, Date first, const std::vector<std::string>& blocks);

Reply pay_reply(const FieldBook& book, Date from, Date to);

}  // namespace wildling::plan
