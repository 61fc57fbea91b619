#pragma once
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tending/care.hpp"

namespace wildling::tending {

/// Months as a number that can be counted: 12 x year + month - 1.
int month_index(Date day);
std::string month_text(int month_index);  ///< "2027-01"

/// Money in or out. Positive amounts; `in` says which way.
struct CashLine {
  Date day = {};
  std::string block;  ///< empty: no block
  std::string what;   ///< job name, "seedlings", "nursery", "income" ...
  double amount = 0;  ///< >= 0
  bool in = false;
};

/// One month of the money table.
struct CashMonth {
  int month = 0;
  double in = 0, out = 0;
  double balance = 0;  ///< at the end of the month
};

struct CashTable {
  std::vector<CashMonth> months;  ///< without holes from the first line's month to the last's
  double opening = 0, in = 0, out = 0;
  std::optional<int> runs_out;  ///< first month whose balance is below 0
  double most_missing = 0;      ///< the largest shortage, as a positive number
  std::map<std::string, double> out_by_block, out_by_what;
};

/// Money by month. Identity: opening + in - out = last balance.
/// @throws Error{input} for a negative or infinite amount
CashTable cash_table(double opening, std::span<const CashLine> lines);

/// Wages and materials of the works, on the day each is due.
std::vector<CashLine> cash_of(const CarePlan& plan);

/// What a bad year does to the works of its twelve months, as factors. 1 = nothing.
struct BadYear {
  std::string name;              ///< "drought", "fire", "wage_rise", "rain_days"
  double wage_factor = 1;        ///< on wages
  double days_factor = 1;        ///< on person-days (work lost and done again, longer ways)
  double refill_factor = 1;      ///< on refill: quantity, days, materials
  double watch_person_days = 0;  ///< extra, spread over the dry months, at the wage
};

/// The four shipped variants, from tending.bad.*.
std::vector<BadYear> bad_years(const Parameters& parameters);

/// The plan with a bad year from `from` for twelve months; sums are added up again. Workings are
/// kept of the plain plan only: do not give this one to add_workings.
CarePlan with_bad_year(CarePlan plan, const BadYear& bad, Date from);

/// Money spent until a day per tree that lives on it.
struct CostPerTree {
  double years = 0;
  double spent = 0;
  double alive = 0;
  double per_alive = 0;    ///< infinity when none lives
  double per_planted = 0;  ///< shown beside it, because it flatters
};

/// @param survival_at  share of the planted alive at that age, by block in the order of plan.inputs
/// @param other_costs  seedlings, nursery, management ... until then
CostPerTree cost_per_tree(const CarePlan& plan, double years, std::span<const double> survival_at,
                          double other_costs);

/// What dropping a job saves, and what is then not done.
struct Dropped {
  Job job = Job::ring;
  double saves = 0;
  double person_days = 0;
  int works = 0;                ///< rounds, firebreaks ... not done
  double trees_overtopped = 0;  ///< trees below the uncut cover in the worst month if no round is
                                ///< done: the price of dropping rounds; 0 for other jobs. Deaths
                                ///< need the forecast
  double trees_not_refilled = 0;
  Message first_line;
};

std::vector<Dropped> dropping(const CarePlan& plan, const Parameters& parameters);

/// Present value of equal payments at the end of each of n periods at rate i: the annuity a (1 - (1
/// + i)^-n) / i.
double annuity(double payment, double rate, int periods);
/// Present value of cash lines at the first one's month, monthly rate (1 + yearly)^(1/12) - 1.
double present_value(std::span<const CashLine> lines, double yearly_rate);

}  // namespace wildling::tending
