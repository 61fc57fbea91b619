#pragma once
/// Money of the year ahead, without words: what each work costs on its day, what is paid in which
/// month and block, and when it runs out.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "plan/field/year_context.hpp"
#include "tending/money.hpp"

namespace wildling::plan {

/// Price of an item on a day: the newest step from that day or before, else `shipped`.
double price_on(const std::vector<PriceStep>& prices, const std::string& item, Date day,
                double shipped);
/// The step itself; null when none holds yet.
const PriceStep* step_on(const std::vector<PriceStep>& prices, const std::string& item, Date day);

/// The works at the wage and prices of the day each is due, added up again.
tending::CarePlan at_prices(tending::CarePlan care, const std::vector<PriceStep>& prices,
                            const Parameters& parameters);

/// What must be paid beside works.
struct OtherCost {
  Date day = {};
  std::string block = {};  ///< empty: no block
  std::string what = {};   ///< "seedlings", "trips", "running"
  double amount = 0;
};

struct MoneyQuestion {
  tending::CarePlan care = {};  ///< at the wage of the book
  tending::CarePlan paid = {};  ///< at the wage and prices of each day
  std::vector<OtherCost> other = {};
  std::vector<tending::CashLine> incomes = {};  ///< received and agreed, from `start` on
  double hoped = 0;                             ///< not counted
  std::optional<double> opening = {};
  Date start = {};  ///< day of the opening balance, else today
  /// First day of the twelve months of a drought or a fire: the day after the last planting day, so
  /// that the refill they cause falls into them.
  Date hard_from = {};
  /// First day of the twelve months of a wage rise or many rain days: the first work to be paid.
  Date dear_from = {};
  double years = 0;
  int unpriced_species = 0;  ///< planted, without a price
};

/// First day of the twelve months of that bad year.
Date bad_from(const MoneyQuestion& question, const std::string& run);

/// Day on which the extra watch of a drought or a fire is paid.
Date watch_day(const MoneyQuestion& question);

/// @param years  how far to look from the first planting day
/// @throws Error{input} when nothing is planted on an open block
MoneyQuestion money_question(const Year& year, double years);

struct MonthOfBlock {
  int month = 0;
  std::string block = {};
  double days = 0, wages = 0, materials = 0, seedlings = 0;

  [[nodiscard]] double total() const { return wages + materials + seedlings; }
};

/// One run of the twelve months of a bad year, or of none.
struct MoneyRun {
  std::string name = {};  ///< "plain", "drought" ...
  tending::CashTable table = {};
};

struct MoneyAnswer {
  std::vector<MonthOfBlock> by_block = {};  ///< by month, then block; from `start` on
  std::vector<MoneyRun> runs = {};          ///< plain first
  std::int64_t works_before = 0;            ///< due before `start`: taken as done and paid
};

/// Cash lines of the works and other costs from `start` on, and incomes.
std::vector<tending::CashLine> cash_lines(const MoneyQuestion& question,
                                          const tending::CarePlan& paid);

MoneyAnswer money_answer(const MoneyQuestion& question, const Parameters& parameters);

/// Adds the nodes of an answer: "year/money/RUN/YYYY-MM/...", "year/month/YYYY-MM/BLOCK/...".
void add_money_nodes(Workings& workings, const Year& year, const MoneyQuestion& question,
                     const MoneyAnswer& answer);

/// Keys of the nodes of one work: "year/piece/B1/ring/2/".
std::string work_key(const tending::Work& work);

/// Survival of the trees of a block at an age, by the survival table of the mix.
struct AliveAt {
  double years = 0;
  std::vector<double> share = {};  ///< per block of MoneyQuestion::care.inputs
  tending::CostPerTree cost = {};
  double alive_low = 0, alive_high = 0;
  std::int64_t assumed_species = 0, species = 0;  ///< planted; how many by an assumed level
  std::string key = {};                           ///< of the nodes: "year/tree/3/"
};

/// Cost per living tree with its nodes.
AliveAt alive_at(Workings& workings, const Year& year, const MoneyQuestion& question, double years);

/// What dropping each job saves and costs, with nodes "year/job/JOB/...".
std::vector<tending::Dropped> jobs_dropped(Workings& workings, const Year& year,
                                           const MoneyQuestion& question);

}  // namespace wildling::plan
