#include "nursery/calendar.hpp"

#include <algorithm>
#include <cmath>

namespace wildling::nursery {
namespace {

using std::chrono::days;

int whole(double value) {
  return static_cast<int>(std::lround(value));
}

std::string group_word(const Order& order) {
  if (order.facts == nullptr || !order.facts->group) return "unknown";
  return std::string(species::group_name(*order.facts->group));
}

void set_nursery_months(Dates& dates, const Order& order, const Parameters& parameters) {
  const std::string group = group_word(order);
  dates.months_quick = whole(parameters.value("nursery.months." + group + ".quick"));
  dates.months_slow = whole(parameters.value("nursery.months." + group + ".slow"));
  if (order.facts == nullptr) return;
  const auto& low = order.facts->nursery_months_min;
  const auto& high = order.facts->nursery_months_max;
  if (!low && !high) return;
  dates.months_documented = true;
  dates.months_quick = whole(std::floor(low.value_or(high.value_or(0))));
  dates.months_slow = whole(std::ceil(high.value_or(low.value_or(0))));
}

void set_common(Dates& dates, const Season& season, const Parameters& parameters) {
  dates.planting = season.planting_first;
  dates.dispatch = dates.planting - days(whole(parameters.value("nursery.dispatch_days")));
  dates.harden_from = dates.dispatch - days(whole(7 * parameters.value("nursery.harden_weeks")));
  dates.start_by = add_months(dates.dispatch, -dates.months_slow);
  dates.start_latest = add_months(dates.dispatch, -dates.months_quick);
}

void set_timing(Dates& dates, Date today) {
  dates.timing = today <= dates.collect_by       ? Timing::in_time
                 : today <= dates.collect_latest ? Timing::hurry
                                                 : Timing::too_late;
}

/// First day from `from` to `to` that lies in one of the months.
std::optional<Date> first_day_in(const std::vector<int>& months, Date from, Date to) {
  for (Date day = from; day <= to; day += days(1)) {
    if (std::find(months.begin(), months.end(), static_cast<int>(month_of(day))) != months.end())
      return day;
  }
  return {};
}

void set_fruit(Dates& dates, const Order& order, Date today) {
  using species::Fruiting;
  const Fruiting fruiting = order.facts == nullptr ? Fruiting::unknown : order.facts->fruiting;
  const Date from = std::max(today, dates.collect_from);
  if (fruiting == Fruiting::mast) {
    dates.ripe_months = order.facts->ripe_months_in_mast_years;
    dates.fruit = order.fruit_seen.value_or(false) ? Fruit::mast_seen : Fruit::mast;
    if (dates.fruit == Fruit::mast_seen) dates.go_collecting = from;
    return;
  }
  if (fruiting == Fruiting::all_year) {
    dates.fruit = Fruit::any_month;
    dates.ripe_months = order.facts->fruiting_months;
    dates.go_collecting = from;
    return;
  }
  if (fruiting != Fruiting::months) {
    dates.fruit = Fruit::month_unknown;
    return;
  }
  dates.ripe_months = order.facts->fruiting_months;
  dates.go_collecting = first_day_in(dates.ripe_months, from, dates.collect_latest);
  dates.fruit = dates.go_collecting ? Fruit::fits : Fruit::misses;
}

}  // namespace

Dates dates_from_seed(const Order& order, const Season& season, const Parameters& parameters) {
  Dates dates;
  set_nursery_months(dates, order, parameters);
  set_common(dates, season, parameters);
  const species::Species* facts = order.facts;
  dates.days_to_germinate = whole(parameters.value("nursery.days_to_germinate"));
  if (facts != nullptr && facts->days_to_germinate_last)
    dates.days_to_germinate = whole(*facts->days_to_germinate_last);
  dates.prick_out = dates.start_by + days(dates.days_to_germinate +
                                          whole(parameters.value("nursery.days_to_prick_out")));
  dates.storage_known = facts != nullptr && facts->seed_storage.has_value();
  const bool keeps = dates.storage_known && *facts->seed_storage == species::Storage::orthodox;
  dates.days_to_sowing = whole(parameters.value("nursery.days_to_sowing.recalcitrant"));
  const int ready_days = whole(parameters.value("nursery.days_cleaning"));
  dates.collect_by = dates.start_by - days(ready_days);
  dates.collect_latest = dates.start_latest - days(ready_days);
  const Date earliest_sowing =
      add_months(dates.start_by, -whole(parameters.value("nursery.overstay_months")));
  dates.collect_from = earliest_sowing - days(dates.days_to_sowing);
  if (keeps) {
    dates.days_to_sowing = whole(30.44 * parameters.value("nursery.keeps_months.orthodox"));
    dates.collect_from = earliest_sowing - days(dates.days_to_sowing);
  }
  set_timing(dates, season.today);
  set_fruit(dates, order, season.today);
  return dates;
}

Dates dates_from_wildlings(const Order& order, const Season& season, const Parameters& parameters) {
  Dates dates;
  dates.months_quick = whole(parameters.value("nursery.wildling_months.quick"));
  dates.months_slow = whole(parameters.value("nursery.wildling_months.slow"));
  set_common(dates, season, parameters);
  dates.collect_by = dates.start_by;
  dates.collect_latest = dates.start_latest;
  dates.collect_from =
      add_months(dates.start_by, -whole(parameters.value("nursery.overstay_months")));
  dates.fruit = Fruit::any_month;
  set_timing(dates, season.today);
  if (dates.timing != Timing::too_late)
    dates.go_collecting = std::max(season.today, dates.collect_from);
  static_cast<void>(order);
  return dates;
}

}  // namespace wildling::nursery
