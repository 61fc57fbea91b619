#include "tending/money.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "base/error.hpp"
#include "base/exact_math.hpp"
#include "tending/smother.hpp"

namespace wildling::tending {
namespace {

bool is_round(Job job) {
  return job >= Job::ring && job <= Job::climber_cutting;
}

/// Trees of a block that stand below the uncut cover in the worst month.
double overtopped(const BlockCare& block, const BlockRounds& rounds, const Parameters& parameters) {
  const double cv = parameters.value("tending.risk.height_cv");
  double worst = 0;
  for (Date day = block.planting_first; day < rounds.end; day = add_months(day, 1)) {
    const double cover =
        height_after(rounds.numbers.cover, wet_months(rounds.numbers, rounds.cleared, day));
    double sum = 0;
    for (std::size_t g = 0; g < 3; ++g) {
      const double height =
          tree_height_m(static_cast<species::Group>(g), block.planting_first, day, parameters);
      sum += block.planted_by_group[g] * share_below(cover, height, cv);
    }
    worst = std::max(worst, sum);
  }
  return worst;
}

}  // namespace

int month_index(Date day) {
  return 12 * year_of(day) + static_cast<int>(month_of(day)) - 1;
}

std::string month_text(int month_index_) {
  return fmt::format("{:04}-{:02}", month_index_ / 12, month_index_ % 12 + 1);
}

CashTable cash_table(double opening, std::span<const CashLine> lines) {
  CashTable table;
  table.opening = opening;
  if (lines.empty()) return table;
  int first = month_index(lines.front().day);
  int last = first;
  for (const CashLine& line : lines) {
    if (!(line.amount >= 0) || !std::isfinite(line.amount)) {
      throw Error(ErrorKind::input, line.what,
                  say("tending.money.amount_impossible", {{"amount", line.amount}}));
    }
    first = std::min(first, month_index(line.day));
    last = std::max(last, month_index(line.day));
  }
  table.months.resize(static_cast<std::size_t>(last - first) + 1);
  for (std::size_t i = 0; i < table.months.size(); ++i)
    table.months[i].month = first + static_cast<int>(i);
  for (const CashLine& line : lines) {
    CashMonth& month = table.months[static_cast<std::size_t>(month_index(line.day) - first)];
    (line.in ? month.in : month.out) += line.amount;
    (line.in ? table.in : table.out) += line.amount;
    if (line.in) continue;
    table.out_by_block[line.block] += line.amount;
    table.out_by_what[line.what] += line.amount;
  }
  double balance = opening;
  for (CashMonth& month : table.months) {
    balance += month.in - month.out;
    month.balance = balance;
    if (balance < 0 && !table.runs_out) table.runs_out = month.month;
    table.most_missing = std::max(table.most_missing, -balance);
  }
  return table;
}

std::vector<CashLine> cash_of(const CarePlan& plan) {
  std::vector<CashLine> lines;
  for (const Work& work : plan.works) {
    lines.push_back({work.due, work.block, std::string(job_name(work.job)), work.cost(), false});
  }
  return lines;
}

std::vector<BadYear> bad_years(const Parameters& parameters) {
  const auto value = [&](const char* key) {
    return parameters.value(std::string("tending.bad.") + key);
  };
  return {{"drought", 1, 1, value("drought_refill"), value("drought_watch_days")},
          {"fire", 1, 1, value("fire_refill"), value("fire_watch_days")},
          {"wage_rise", value("wage"), 1, 1, 0},
          {"rain_days", 1, value("rain_days"), 1, 0}};
}

CarePlan with_bad_year(CarePlan plan, const BadYear& bad, Date from) {
  const Date to = add_months(from, 12);
  std::vector<Work> watch;
  for (Work& work : plan.works) {
    if (work.due < from || work.due >= to) continue;
    const double refill = work.job == Job::refill ? bad.refill_factor : 1;
    work.quantity *= refill;
    work.days = work.days * (bad.days_factor * refill);
    work.wages *= bad.wage_factor * bad.days_factor * refill;
    work.materials *= refill;
  }
  if (bad.watch_person_days > 0 && !plan.works.empty()) {
    Work work;
    work.block = "";
    work.job = Job::firebreak;
    work.due = plan.dry.exists() ? dry_start(plan.dry, from) : from;
    work.from = work.due;
    work.unit = "person-days";
    work.quantity = bad.watch_person_days;
    work.days = {bad.watch_person_days, bad.watch_person_days, bad.watch_person_days};
    work.wages = bad.watch_person_days * plan.wage * bad.wage_factor;
    work.why = say("tending.why.watch");
    plan.works.push_back(std::move(work));
    std::stable_sort(plan.works.begin(), plan.works.end(),
                     [](const Work& a, const Work& b) { return a.due < b.due; });
  }
  add_up(plan);
  return plan;
}

CostPerTree cost_per_tree(const CarePlan& plan, double years, std::span<const double> survival_at,
                          double other_costs) {
  CostPerTree result;
  result.years = years;
  result.spent = other_costs;
  double planted = 0;
  std::map<std::string, Date> until;
  for (std::size_t i = 0; i < plan.inputs.size(); ++i) {
    const BlockCare& block = plan.inputs[i];
    planted += block.planted();
    result.alive += block.planted() * survival_at[i];
    until[block.block] =
        block.planting_first + std::chrono::days(static_cast<int>(std::lround(years * 365.25)));
  }
  for (const Work& work : plan.works) {
    const auto end = until.find(work.block);
    if (end == until.end() || work.due <= end->second) result.spent += work.cost();
  }
  result.per_alive =
      result.alive > 0 ? result.spent / result.alive : std::numeric_limits<double>::infinity();
  result.per_planted =
      planted > 0 ? result.spent / planted : std::numeric_limits<double>::infinity();
  return result;
}

std::vector<Dropped> dropping(const CarePlan& plan, const Parameters& parameters) {
  double without_rounds = 0;
  for (std::size_t i = 0; i < plan.inputs.size(); ++i) {
    without_rounds += overtopped(plan.inputs[i], plan.blocks[i], parameters);
  }
  std::map<Job, Dropped> by_job;
  for (const Work& work : plan.works) {
    Dropped& d = by_job[work.job];
    d.job = work.job;
    d.saves += work.cost();
    d.person_days += work.days.used;
    ++d.works;
    if (work.job == Job::refill) d.trees_not_refilled += work.quantity;
  }
  std::vector<Dropped> result;
  for (auto& [job, d] : by_job) {
    if (is_round(job) && job != Job::pressing) d.trees_overtopped = without_rounds;
    d.first_line =
        say("tending.money.dropping", {{"job", std::string(job_name(job))},
                                       {"saves", d.saves},
                                       {"works", static_cast<std::int64_t>(d.works)},
                                       {"overtopped", std::round(d.trees_overtopped)},
                                       {"not_refilled", std::round(d.trees_not_refilled)}});
    result.push_back(std::move(d));
  }
  return result;
}

double annuity(double payment, double rate, int periods) {
  if (rate == 0) return payment * periods;
  return payment * (1 - exact_pow(1 + rate, -periods)) / rate;
}

double present_value(std::span<const CashLine> lines, double yearly_rate) {
  if (lines.empty()) return 0;
  int first = month_index(lines.front().day);
  for (const CashLine& line : lines) first = std::min(first, month_index(line.day));
  double sum = 0;
  for (const CashLine& line : lines) {
    const double discount = exact_pow(1 + yearly_rate, -(month_index(line.day) - first) / 12.0);
    sum += (line.in ? line.amount : -line.amount) * discount;
  }
  return sum;
}

}  // namespace wildling::tending
