#include "tending/planting_work.hpp"

#include <algorithm>
#include <cmath>

namespace wildling::tending {
namespace {

using std::chrono::days;

Work work_of(const BlockCare& block, Job job, Date from, Date due, double quantity,
             PersonDays person_days_, const Parameters& parameters) {
  Work work;
  work.block = block.block;
  work.job = job;
  work.from = from;
  work.due = due;
  work.quantity = quantity;
  work.unit = "trees";
  work.days = person_days_ * slope_factor(block.slope_deg, parameters);
  work.why = say("tending.why." + std::string(job_name(job)));
  return work;
}

PersonDays carrying(double trees, const Parameters& parameters) {
  return person_days(trees / seedlings_per_carry(parameters), rate("carries", parameters));
}

}  // namespace

PersonDays planting_days_per_tree(const Parameters& parameters) {
  const double with_distributors = 1 + 1 / parameters.value("tending.planters_per_distributor");
  PersonDays each = person_days(1, rate("plant", parameters)) * with_distributors;
  each += carrying(1, parameters);
  return each;
}

std::vector<Work> planting_works(const BlockCare& block, const Parameters& parameters) {
  const double trees = block.planted();
  const Date first = block.planting_first;
  const Date before = first - days(1);
  const days lead(static_cast<int>(std::lround(parameters.value("tending.pits_lead_days"))));
  std::vector<Work> works;
  works.push_back(work_of(block, Job::mark_places, first - lead, before, trees,
                          person_days(trees, rate("mark_places", parameters)), parameters));
  works.back().materials = trees * parameters.value("tending.price.stake");
  works.push_back(work_of(block, Job::dig_pits, first - lead, before, trees,
                          person_days(trees, rate("pits", parameters)), parameters));
  works.push_back(work_of(block, Job::carry, first, block.planting_last, trees,
                          carrying(trees, parameters), parameters));
  const double with_distributors = 1 + 1 / parameters.value("tending.planters_per_distributor");
  works.push_back(work_of(block, Job::plant, first, block.planting_last, trees,
                          person_days(trees, rate("plant", parameters)) * with_distributors,
                          parameters));
  const double refill = trees * parameters.value("tending.refill.share");
  if (refill > 0) {
    PersonDays each = planting_days_per_tree(parameters);
    each += person_days(1, rate("pits", parameters));
    works.push_back(
        work_of(block, Job::refill, add_months(first, 12), add_months(block.planting_last, 12),
                refill, each * (refill * parameters.value("tending.refill.times")), parameters));
    works.back().materials = refill * parameters.value("tending.price.seedling");
  }
  return works;
}

double working_days(Date first, Date last, const std::array<climate::MonthNormal, 12>& normals,
                    const Parameters& parameters) {
  const double rest = parameters.value("tending.work_days_per_week") / 7;
  const double lost = parameters.value("tending.rain_day_lost_share");
  double sum = 0;
  for (Date day = first; day <= last; day += days(1)) {
    const climate::MonthNormal& month = normals[month_of(day) - 1];
    const bool known = month.years > 0 && std::isfinite(month.rain_days_mean);
    const double rain_days =
        known ? month.rain_days_mean : parameters.value("tending.rain_days_unknown");
    const double wet = std::min(1.0, rain_days / days_in_month(year_of(day), month_of(day)));
    sum += rest * (1 - wet * lost);
  }
  return sum;
}

std::vector<PlantingWeek> planting_weeks(std::span<const BlockCare> blocks,
                                         const std::array<climate::MonthNormal, 12>& normals,
                                         const Parameters& parameters) {
  std::vector<PlantingWeek> weeks;
  if (blocks.empty()) return weeks;
  Date first = blocks.front().planting_first;
  Date last = blocks.front().planting_last;
  for (const BlockCare& block : blocks) {
    first = std::min(first, block.planting_first);
    last = std::max(last, block.planting_last);
  }
  const double per_tree = planting_days_per_tree(parameters).used;
  for (Date start = first; start <= last; start += days(7)) {
    const Date end = std::min(last, start + days(6));
    PlantingWeek week;
    week.first = start;
    week.days = static_cast<int>((end - start).count()) + 1;
    week.work_days = working_days(start, end, normals, parameters);
    for (const BlockCare& block : blocks) {
      const Date a = std::max(start, block.planting_first);
      const Date b = std::min(end, block.planting_last);
      if (b < a) continue;
      const double share =
          static_cast<double>((b - a).count() + 1) /
          static_cast<double>((block.planting_last - block.planting_first).count() + 1);
      week.person_days +=
          share * block.planted() * per_tree * slope_factor(block.slope_deg, parameters);
    }
    week.people = week.work_days > 0
                      ? static_cast<int>(std::ceil(week.person_days / week.work_days - 1e-9))
                      : 0;
    weeks.push_back(week);
  }
  return weeks;
}

}  // namespace wildling::tending
