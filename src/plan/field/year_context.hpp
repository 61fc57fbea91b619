#pragma once
/// What every question about the year ahead stands on: the newest plan, the programme, what was
/// written down since, and the norms with the diary's own rates laid over the book's.
#include <array>
#include <string>
#include <vector>

#include "base/parameters.hpp"
#include "plan/cells.hpp"
#include "plan/field/year_book.hpp"
#include "plan/programme.hpp"
#include "plan/result.hpp"
#include "tending/care.hpp"

namespace wildling::plan {

struct Year {
  Programme programme = {};
  PlanResult plan = {};
  bool stale = false;  ///< the programme has changed since the plan was made
  std::array<climate::MonthNormal, 12> normals = {};
  YearBook book = {};
  std::vector<tending::OwnRate> own = {};  ///< by name of the rate; empty without a diary
  Parameters rates = {};                   ///< the programme's, with own rates laid over
  Date today = {};
};

/// @throws Error{input} when there is no plan yet
Year load_year(const store::Store& store, Date today);

/// Open blocks of the plan with trees, in its order. Planting days: of the diary where somebody
/// planted, else those of the plan.
std::vector<tending::BlockCare> planted_blocks(const Year& year);

/// Trees of a block by group; a species of unknown group counts as late.
std::array<double, 3> planted_by_group(const BlockPart& part,
                                       const std::vector<SpeciesPart>& species);

/// A reply with its name, and a finding when the plan is older than the programme.
Reply new_reply(const std::string& name, const Year& year);

/// Table of the own rates beside the book's, with their nodes under "year/rate/RATE/...". Empty
/// optional without a diary.
std::optional<Table> rates_table(const Year& year, Workings& workings);

/// The sentence on whose rates were used.
Message rates_sentence(const Year& year);

/// First day of the month a day lies in; faces write the month alone.
Date month_start(Date day);

/// Whole numbers for sentences.
double rounded(double value);

Column column(const std::string& name, int decimals = 0);
Cell job_cell(std::string_view job);

/// Formulas of the year's own nodes.
const Formulas& year_formulas();

}  // namespace wildling::plan
