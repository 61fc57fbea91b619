#pragma once
#include <array>
#include <optional>
#include <utility>

#include "base/date.hpp"
#include "tending/cover_growth.hpp"

namespace wildling::tending {

/// Why a round falls where it does.
enum class RoundRule { after_planting, overtopping, before_dry_season, held_over_dry_season };

/// The dry months of the station and the days on which clearing is too late.
struct DrySeason {
  std::vector<int> months;  ///< 1 to 12, in order from the first; empty: no month is dry on average
  int driest_month = 0;     ///< 1 to 12; 0: no rain figures at all

  [[nodiscard]] bool exists() const { return !months.empty() && months.size() < 12; }
};

/// Rain of the months as the rule uses it: the mean where it is known, else enough to count as wet
/// and not dry.
struct RainByMonth {
  std::array<double, 12> mm{};
  std::array<bool, 12> known{};
};

RainByMonth rain_by_month(const std::array<climate::MonthNormal, 12>& normals,
                          const Parameters& parameters);

/// Months with a mean rain below dry_mm; the longest run when there are several.
DrySeason dry_season(const RainByMonth& rain, double dry_mm);

/// First day of the dry season that `day` lies in, or of the next one.
Date dry_start(const DrySeason& season, Date day);
/// First day after the dry season that begins on `start`.
Date dry_end(const DrySeason& season, Date start);

/// All numbers the rule looks at.
struct RoundNumbers {
  CoverRule cover;
  double tree_at_planting_m = 0.4;
  double tree_growth_m_year = 0.5;
  double due_share = 0.9;
  int least_gap_days = 28;
  int late_clearing_days = 30;
  double wet_month_mm = 100;
  double dry_month_mm = 100;
  std::array<double, 12> rain_mm{};
};

/// Months of full growth from `from` to `to`.
double wet_months(const RoundNumbers& numbers, Date from, Date to);

double tree_height_m(const RoundNumbers& numbers, Date planted, Date day);

/// First day from `cut` on, before `end`, on which the cover reaches the due share of the trees'
/// height; empty when it does not, or when the trees have outgrown it.
std::optional<Date> overtopping_day(const RoundNumbers& numbers, Date planted, Date cut, Date end);

/// The round after one on `last`: overtopping_day, at least least_gap_days later, and clear of the
/// dry season.
std::optional<std::pair<Date, RoundRule>> next_round(const RoundNumbers& numbers, Date planted,
                                                     Date last, Date end);

/// The first round: `after_planting`, or earlier where what was planted first would be overtopped.
std::pair<Date, RoundRule> first_round(const RoundNumbers& numbers, Date planted, Date cleared,
                                       Date after_planting, Date end);

}  // namespace wildling::tending
