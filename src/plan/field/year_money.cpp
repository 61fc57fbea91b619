#include "plan/field/year_money.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "tending/crew.hpp"

namespace wildling::plan {
namespace {

using tending::CashLine;
using tending::Job;
using tending::Work;

/// The newest opening balance that is not after today.
void put_opening(MoneyQuestion& question, const Year& year) {
  question.start = year.today;
  for (const Income& income : year.book.incomes) {
    if (!income.opening || income.day > year.today) continue;
    question.opening = income.amount;
    question.start = income.day;
  }
}

void put_incomes(MoneyQuestion& question, const Year& year) {
  for (const Income& income : year.book.incomes) {
    if (income.opening || income.day < question.start) continue;
    // What came on the day of the count is in the cash box already.
    if (question.opening && income.day == question.start && income.state == MoneyState::received)
      continue;
    if (income.state == MoneyState::hoped) {
      question.hoped += income.amount;
    } else {
      question.incomes.push_back({income.day, "", "income", income.amount, true});
    }
  }
}

const BlockPart& block_part(const Year& year, const std::string& code) {
  return *std::find_if(year.plan.blocks.begin(), year.plan.blocks.end(),
                       [&](const BlockPart& part) { return part.block.code == code; });
}

double seedling_price(const Year& year, const std::string& species, bool& known) {
  for (const species::Candidate& candidate : year.programme.candidates) {
    if (candidate.name() != species || !candidate.stock.price_per_seedling) continue;
    known = true;
    return *candidate.stock.price_per_seedling;
  }
  known = false;
  return 0;
}

/// Seedlings are paid when they are delivered: the first planting day of their block.
void put_seedlings(MoneyQuestion& question, const Year& year) {
  for (const tending::BlockCare& care : question.care.inputs) {
    const BlockPart& part = block_part(year, care.block);
    double sum = 0;
    for (std::size_t i = 0; i < part.counts.size(); ++i) {
      bool known = false;
      sum += seedling_price(year, year.plan.species[i].name, known) * part.counts[i];
    }
    if (sum > 0) question.other.push_back({care.planting_first, care.block, "seedlings", sum});
  }
  for (const SpeciesPart& species : year.plan.species) {
    bool known = false;
    seedling_price(year, species.name, known);
    if (species.planted > 0 && !known) ++question.unpriced_species;
  }
}

void put_trips(MoneyQuestion& question, const Year& year) {
  double trees = 0;
  Date first = question.care.inputs.front().planting_first;
  for (const tending::BlockCare& care : question.care.inputs) {
    trees += care.planted();
    first = std::min(first, care.planting_first);
  }
  const PriceStep* step = step_on(year.book.prices, "trip", first);
  if (step == nullptr) return;
  const double crates = std::ceil(trees / year.rates.value("tending.crate.seedlings") - 1e-9);
  const double trips = std::ceil(crates / year.rates.value("tending.trip.crates") - 1e-9);
  question.other.push_back({first, "", "trips", trips * step->price});
}

void put_running(MoneyQuestion& question, const Year& year, Date end) {
  for (Date month = month_start(question.start); month < end; month = add_months(month, 1)) {
    const Date day = std::max(month, question.start);
    const PriceStep* step = step_on(year.book.prices, "month", day);
    if (step != nullptr && step->price > 0)
      question.other.push_back({day, "", "running", step->price});
  }
}

void put_bad_years(MoneyQuestion& question) {
  Date last = question.start;
  for (const tending::BlockCare& block : question.care.inputs)
    last = std::max(last, block.planting_last);
  question.hard_from = last + std::chrono::days(1);
  question.dear_from = question.start;
  for (const Work& work : question.paid.works) {  // by due day
    if (work.due < question.start) continue;
    question.dear_from = work.due;
    break;
  }
}

bool brings_seedlings(const OtherCost& cost) {
  return cost.what == "seedlings";
}

MonthOfBlock& month_of_block(std::map<std::pair<int, std::string>, MonthOfBlock>& all, Date day,
                             const std::string& block) {
  const int month = tending::month_index(day);
  MonthOfBlock& one = all[{month, block}];
  one.month = month;
  one.block = block;
  return one;
}

std::vector<MonthOfBlock> by_block(const MoneyQuestion& question) {
  std::map<std::pair<int, std::string>, MonthOfBlock> all;
  for (const Work& work : question.paid.works) {
    if (work.due < question.start) continue;
    MonthOfBlock& one = month_of_block(all, work.due, work.block);
    one.days += work.days.used;
    one.wages += work.wages;
    one.materials += work.materials;
  }
  for (const OtherCost& cost : question.other) {
    if (cost.day < question.start || !brings_seedlings(cost)) continue;
    month_of_block(all, cost.day, cost.block).seedlings += cost.amount;
  }
  std::vector<MonthOfBlock> list;
  for (auto& [key, one] : all) list.push_back(std::move(one));
  return list;
}

}  // namespace

const PriceStep* step_on(const std::vector<PriceStep>& prices, const std::string& item, Date day) {
  const PriceStep* found = nullptr;
  for (const PriceStep& step : prices) {
    if (step.item == item && step.from <= day) found = &step;
  }
  return found;
}

double price_on(const std::vector<PriceStep>& prices, const std::string& item, Date day,
                double shipped) {
  const PriceStep* step = step_on(prices, item, day);
  return step == nullptr ? shipped : step->price;
}

tending::CarePlan at_prices(tending::CarePlan care, const std::vector<PriceStep>& prices,
                            const Parameters& parameters) {
  const double wage = parameters.value("tending.wage_per_day");
  for (Work& work : care.works) {
    work.wages = work.days.used * price_on(prices, "wage", work.due, wage);
    if (!(work.materials > 0)) continue;
    const bool refill = work.job == Job::refill;
    work.materials =
        work.quantity *
        price_on(prices, refill ? "refill_seedling" : "stake", work.due,
                 parameters.value(refill ? "tending.price.seedling" : "tending.price.stake"));
  }
  tending::add_up(care);
  return care;
}

MoneyQuestion money_question(const Year& year, double years) {
  const std::vector<tending::BlockCare> blocks = planted_blocks(year);
  if (blocks.empty()) throw Error(ErrorKind::input, "", say("year.nothing_planted"));
  MoneyQuestion question;
  question.years = years;
  question.care = tending::care(blocks, years, year.normals, year.rates);
  question.paid = at_prices(question.care, year.book.prices, year.rates);
  put_opening(question, year);
  put_incomes(question, year);
  put_seedlings(question, year);
  put_trips(question, year);
  Date first = blocks.front().planting_first;
  for (const tending::BlockCare& block : blocks) first = std::min(first, block.planting_first);
  put_running(question, year,
              first + std::chrono::days(static_cast<int>(std::lround(years * 365.25))));
  put_bad_years(question);
  question.paid.wage = price_on(year.book.prices, "wage", watch_day(question),
                                year.rates.value("tending.wage_per_day"));
  return question;
}

Date bad_from(const MoneyQuestion& question, const std::string& run) {
  return run == "drought" || run == "fire" ? question.hard_from : question.dear_from;
}

Date watch_day(const MoneyQuestion& question) {
  return question.care.dry.exists() ? tending::dry_start(question.care.dry, question.hard_from)
                                    : question.hard_from;
}

std::vector<CashLine> cash_lines(const MoneyQuestion& question, const tending::CarePlan& paid) {
  std::vector<CashLine> lines;
  // The month of the start stands in the table even when nothing is due in it.
  lines.push_back({question.start, "", "start", 0, true});
  for (const CashLine& line : tending::cash_of(paid)) {
    if (line.day >= question.start) lines.push_back(line);
  }
  for (const OtherCost& cost : question.other) {
    if (cost.day >= question.start)
      lines.push_back({cost.day, cost.block, cost.what, cost.amount, false});
  }
  lines.insert(lines.end(), question.incomes.begin(), question.incomes.end());
  return lines;
}

MoneyAnswer money_answer(const MoneyQuestion& question, const Parameters& parameters) {
  MoneyAnswer answer;
  answer.by_block = by_block(question);
  for (const Work& work : question.paid.works)
    answer.works_before += work.due < question.start ? 1 : 0;
  const double opening = question.opening.value_or(0);
  answer.runs.push_back({"plain", cash_table(opening, cash_lines(question, question.paid))});
  for (const tending::BadYear& bad : tending::bad_years(parameters)) {
    const tending::CarePlan worse =
        tending::with_bad_year(question.paid, bad, bad_from(question, bad.name));
    answer.runs.push_back({bad.name, cash_table(opening, cash_lines(question, worse))});
  }
  return answer;
}

std::string work_key(const Work& work) {
  return "year/piece/" + work.block + "/" + std::string(tending::job_name(work.job)) + "/" +
         std::to_string(work.round) + "/";
}

}  // namespace wildling::plan
