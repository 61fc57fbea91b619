#pragma once
#include <optional>
#include <vector>

#include "base/parameters.hpp"
#include "nursery/order.hpp"

namespace wildling::nursery {

/// Is there time from today?
enum class Timing {
  in_time,   ///< today is not after the day by which a slow batch must be begun
  hurry,     ///< after it, but a batch at the quick end of the nursery time can still be ready
  too_late,  ///< not for this planting season
};

/// Months when ripe fruit can be had, as far as known.
enum class Fruit {
  any_month,     ///< ripe in every month
  fits,          ///< a ripe month lies within the days in which collecting makes sense
  misses,        ///< ripe months are known and none fits
  mast_seen,     ///< fruits in mast years only, and fruit was seen this season
  mast,          ///< fruits in mast years only; nobody has seen fruit this season
  month_unknown  ///< not known when it is ripe
};

/// Days worked back from the planting window. Each is the last good day unless its name says
/// otherwise.
struct Dates {
  Date planting = {};             ///< first day of the window
  Date dispatch = {};             ///< out of the nursery
  Date harden_from = {};          ///< shade and water cut from here
  std::optional<Date> prick_out;  ///< seedlings from seed only
  Date start_by = {};             ///< sow (or bed the wildling seedlings) by, for a slow batch
  Date start_latest = {};         ///< for a quick batch; later is too late
  Date collect_from = {};  ///< earlier and the seed is dead or the seedlings outgrow their pots
  Date collect_by = {};
  Date collect_latest = {};
  Timing timing = Timing::in_time;
  Fruit fruit = Fruit::month_unknown;
  std::vector<int> ripe_months;       ///< as known, 1 to 12
  std::optional<Date> go_collecting;  ///< first day of a ripe month, or today, that fits; empty:
                                      ///< none fits or unknown
  int months_slow = 0;                ///< nursery time used, from sowing to fit to plant
  int months_quick = 0;
  bool months_documented = false;
  int days_to_germinate = 0;
  int days_to_sowing = 0;  ///< from collecting to sowing at most
  bool storage_known = false;
};

/// Days for seedlings from seed: sow by = planting - dispatch days - nursery months (slow end);
/// prick out = sown + last germination + wait; collect by = sow by - days to sowing. Seed that does
/// not keep (recalcitrant, or not known) is collected within nursery.days_to_sowing.recalcitrant
/// days of sowing; sowing earlier than nursery.overstay_months before the slow end would outgrow
/// the pots. Rule of practice: ILO (1993) section 1.6 (one planting window of weeks), Perumal et
/// al. 2021 (age matters).
Dates dates_from_seed(const Order& order, const Season& season, const Parameters& parameters);

/// Days for wildling seedlings: bedded the day they are lifted; nursery time
/// nursery.wildling_months_*.
Dates dates_from_wildlings(const Order& order, const Season& season, const Parameters& parameters);

}  // namespace wildling::nursery
