#include "tending/care.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "tending/planting_work.hpp"

namespace wildling::tending {
namespace {

using std::chrono::days;

Work priced(Work work, double wage, double materials) {
  work.wages = work.days.used * wage;
  work.materials = materials;
  return work;
}

/// What a round does on this cover.
Job job_of(ground::Cover cover, double share_of_rings, const Parameters& parameters) {
  using ground::Cover;
  switch (cover) {
    case Cover::fern:
    case Cover::shrubs:
      return Job::line;
    case Cover::climbers:
      return Job::climber_cutting;
    default:
      break;
  }
  return share_of_rings >= parameters.value("tending.whole_from_share") ? Job::whole : Job::ring;
}

double treated_m2(const BlockCare& block, Job job, const Parameters& parameters) {
  const double area_m2 = block.area_ha * 10000;
  switch (job) {
    case Job::ring:
      return area_m2 * ring_share(block.planted() / block.area_ha,
                                  parameters.value("tending.ring_diameter_m"));
    case Job::line:
      return area_m2 * line_share(parameters.value("tending.line_width_m"), block.row_spacing_m);
    default:
      return area_m2;
  }
}

Message why_of(const Round& round) {
  switch (round.rule) {
    case RoundRule::after_planting:
      return say("tending.why.after_planting");
    case RoundRule::before_dry_season:
      return say("tending.why.before_dry_season");
    case RoundRule::held_over_dry_season:
      return say("tending.why.held_over");
    case RoundRule::overtopping:
      break;
  }
  return say("tending.why.overtopping", {{"cover", round.cover_m}, {"tree", round.tree_m}});
}

Work round_work(const BlockCare& block, const Round& round, Job job, double wage,
                const Parameters& parameters) {
  Work work;
  work.block = block.block;
  work.job = job;
  work.round = round.number;
  work.due = round.due;
  work.from =
      round.due - days(static_cast<int>(std::lround(parameters.value("tending.days_for_a_round"))));
  work.why = why_of(round);
  const double slope = slope_factor(block.slope_deg, parameters);
  if (job == Job::climber_cutting) {
    work.quantity = block.planted();
    work.unit = "trees";
    work.days = person_days(work.quantity, rate("climber_cutting", parameters)) * slope;
  } else {
    work.quantity = job == Job::pressing
                        ? block.area_ha * 10000 - treated_m2(block, Job::ring, parameters)
                        : treated_m2(block, job, parameters);
    work.unit = "m2";
    work.days =
        person_days(work.quantity, rate(job == Job::pressing ? "pressing" : "slash", parameters)) *
        slope;
  }
  return priced(std::move(work), wage, 0);
}

/// Cutting the cover where the trees will stand, before planting.
void add_clearing(CarePlan& plan, const BlockCare& block, const BlockRounds& result,
                  const Parameters& parameters) {
  if (block.cover == ground::Cover::cleared) return;
  const Job kind = job_of(block.cover, result.ring_share, parameters);
  Work work;
  work.block = block.block;
  work.job = Job::clear;
  work.due = result.cleared;
  work.from = result.cleared -
              days(static_cast<int>(std::lround(parameters.value("tending.days_for_a_round"))));
  work.quantity = treated_m2(block, kind, parameters);
  work.unit = "m2";
  work.days = person_days(work.quantity, rate("slash", parameters)) *
              slope_factor(block.slope_deg, parameters);
  work.why = say("tending.why.clear");
  plan.works.push_back(priced(std::move(work), plan.wage, 0));
}

/// Which rounds also press the grass between the rings: in each year from planting the last one
/// before the dry season, or the middle one where no season is dry or all come after it.
std::vector<bool> pressing_rounds(const BlockCare& block, const BlockRounds& result,
                                  const DrySeason& dry) {
  std::vector<bool> press(result.rounds.size(), false);
  for (std::size_t first = 0; first < result.rounds.size();) {
    const auto year_of_round = [&](std::size_t i) {
      return (result.rounds[i].due - block.planting_first).count() / 365;
    };
    std::size_t end = first;
    while (end < result.rounds.size() && year_of_round(end) == year_of_round(first)) ++end;
    std::size_t chosen = first + (end - first) / 2;
    if (dry.exists()) {
      const Date start = dry_start(dry, result.rounds[first].due);
      for (std::size_t i = first; i < end; ++i) {
        if (result.rounds[i].due < start) chosen = i;
      }
    }
    press[chosen] = true;
    first = end;
  }
  return press;
}

void add_rounds(CarePlan& plan, const BlockCare& block, const BlockRounds& result,
                const Parameters& parameters) {
  const Job job = job_of(block.cover, result.ring_share, parameters);
  const std::vector<bool> press = pressing_rounds(block, result, plan.dry);
  const bool presses = block.cover == ground::Cover::running_grass && job == Job::ring;
  for (std::size_t i = 0; i < result.rounds.size(); ++i) {
    plan.works.push_back(round_work(block, result.rounds[i], job, plan.wage, parameters));
    if (!presses || !press[i]) continue;
    plan.works.push_back(round_work(block, result.rounds[i], Job::pressing, plan.wage, parameters));
    plan.works.back().why = say("tending.why.pressing");
  }
}

void add_firebreaks(CarePlan& plan, const BlockCare& block, const Parameters& parameters) {
  if (!(block.firebreak_m > 0)) return;
  const double width_m = parameters.value("tending.firebreak.width_m");
  const Date end = block.planting_first + days(static_cast<int>(std::lround(plan.years * 365.25)));
  const int lead = static_cast<int>(std::lround(parameters.value("tending.firebreak.lead_days")));
  int year_number = 0;
  for (int year = year_of(block.planting_first); year <= year_of(end); ++year) {
    const auto month =
        static_cast<unsigned>(plan.dry.exists() ? plan.dry.months.front() : plan.dry.driest_month);
    if (month == 0) return;
    const Date due = make_date(year, month, 1) - days(lead);
    if (due < block.planting_first || due >= end) continue;
    Work work;
    work.block = block.block;
    work.job = Job::firebreak;
    work.round = ++year_number;
    work.due = due;
    work.from = due - days(28);
    work.quantity = block.firebreak_m;
    work.unit = "m";
    work.days = person_days(block.firebreak_m * width_m, rate("slash", parameters)) *
                slope_factor(block.slope_deg, parameters);
    work.why = say("tending.why.firebreak", {{"width", width_m}});
    plan.works.push_back(priced(std::move(work), plan.wage, 0));
  }
}

void say_summary(CarePlan& plan) {
  std::size_t rounds = 0;
  for (const BlockRounds& block : plan.blocks) rounds += block.rounds.size();
  plan.first_line =
      say("tending.answer", {{"rounds", static_cast<std::int64_t>(rounds)},
                             {"blocks", static_cast<std::int64_t>(plan.blocks.size())},
                             {"years", plan.years},
                             {"days", std::round(plan.total.days.used)},
                             {"low", std::round(plan.total.days.low)},
                             {"high", std::round(plan.total.days.high)},
                             {"cost", plan.total.cost()}});
  plan.notes.push_back(say("tending.note.wage", {{"wage", plan.wage}}));
  plan.notes.push_back(say("tending.note.norms"));
  if (plan.dry.driest_month == 0) plan.notes.push_back(say("tending.note.no_rain_figures"));
}

}  // namespace

Sum& Sum::operator+=(const Work& work) {
  days += work.days;
  wages += work.wages;
  materials += work.materials;
  return *this;
}

void add_up(CarePlan& plan) {
  plan.by_block.clear();
  plan.by_job.clear();
  plan.by_month.clear();
  plan.total = {};
  for (const Work& work : plan.works) {
    plan.by_block[work.block] += work;
    plan.by_job[std::string(job_name(work.job))] += work;
    plan.by_month[fmt::format("{:04}-{:02}", year_of(work.due), month_of(work.due))] += work;
    plan.total += work;
  }
}

CarePlan care(std::span<const BlockCare> blocks, double years,
              const std::array<climate::MonthNormal, 12>& normals, const Parameters& parameters) {
  CarePlan plan;
  plan.years = years;
  plan.wage = parameters.value("tending.wage_per_day");
  plan.dry = dry_season(normals, parameters);
  plan.rain = rain_by_month(normals, parameters);
  plan.inputs.assign(blocks.begin(), blocks.end());
  for (const BlockCare& block : blocks) {
    plan.blocks.push_back(rounds(block, years, normals, parameters));
    for (Work& work : planting_works(block, parameters)) {
      plan.works.push_back(priced(std::move(work), plan.wage, work.materials));
    }
    add_clearing(plan, block, plan.blocks.back(), parameters);
    add_rounds(plan, block, plan.blocks.back(), parameters);
    add_firebreaks(plan, block, parameters);
  }
  std::stable_sort(plan.works.begin(), plan.works.end(), [](const Work& a, const Work& b) {
    return std::tie(a.due, a.block, a.job) < std::tie(b.due, b.block, b.job);
  });
  plan.weeks = planting_weeks(blocks, normals, parameters);
  add_up(plan);
  say_summary(plan);
  return plan;
}

}  // namespace wildling::tending
