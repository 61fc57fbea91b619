#pragma once
#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "tending/care.hpp"

namespace wildling::tending {

/// What one walk wrote down for one block.
struct WalkLine {
  std::string block;
  Date day = {};
  ground::Cover cover = ground::Cover::running_grass;
  double cover_m = 0;            ///< height of the competing cover, 0 to 10
  std::optional<double> tree_m;  ///< usual height of the trees; empty: by the growth of the groups
  std::optional<double> climbed_share;  ///< trees with climbers on them, 0 to 1
  std::optional<double> cured_share;    ///< of the cover that is dry, 0 to 1
  bool animal_signs = false;
  std::optional<Date> last_round;  ///< of the block, when known
};

/// How soon a block must be worked.
enum class Urgency { overdue, tomorrow, this_week, this_month, later, free, cannot_tell };

std::string_view urgency_name(Urgency urgency);

/// One block of the due list.
struct DueLine {
  std::string block;
  Urgency urgency = Urgency::cannot_tell;
  Job job = Job::ring;
  std::optional<Date>
      due;             ///< first day on which the cover reaches the due share of the trees' height
  double cover_m = 0;  ///< projected to `today`
  double tree_m = 0;
  double trees_at_risk =
      0;           ///< overtopped tending.risk.look_ahead_days from today if nothing is done
  CoverRule rule;  ///< as projected; full height raised where the walk found more
  double walked_cover_m = 0;
  double months_ahead = 0;   ///< wet months from the walk to the end of the look-ahead
  double cover_ahead_m = 0;  ///< height of the cover then
  std::array<double, 3> heights_ahead_m{};  ///< of pioneer, early, late then
  std::array<double, 3> living{};           ///< trees of each group
  double climbed_share = 0;
  double person_days = 0;      ///< of one round
  double at_risk_per_day = 0;  ///< trees at risk per person-day: the rank
  bool press_only = false;     ///< clearing would be too late: press, cut only climbers
  int walked_days_ago = 0;
  std::vector<Message> notes;
};

/// Share of trees lower than a height, heights of a group spread like a normal with
/// tending.risk.height_cv.
double share_below(double height_m, double mean_m, double cv);

/// Sum over groups of living trees x the larger of the share below the cover and the climbed share.
double trees_at_risk(double cover_m, const std::array<double, 3>& heights_m,
                     const std::array<double, 3>& living, double climbed_share, double cv);

/// Person-days of one round of a job (ring, line, whole, pressing, climber cutting) on a block,
/// with its slope.
double round_person_days(const BlockCare& block, Job job, const Parameters& parameters);

/// What is done on a block against a kind of cover: climbers are cut off, fern and shrubs opened in
/// lines, grass in rings, or the whole block where rings would cover tending.whole_from_share of
/// it.
Job round_job(ground::Cover cover, const BlockCare& block, const Parameters& parameters);

/// Ranks blocks by trees at risk per person-day and says when each is due.
/// A block that was never walked, or not within tending.walk.stale_days, is cannot_tell: its line
/// asks for the walk. Trees at risk: per group, the share that stands below the cover projected
/// tending.risk.look_ahead_days ahead, or is climbed, whichever is more.
/// @param alive_share  of the planted that still live, per block in the order of `blocks`, in (0,
/// 1]
/// @throws Error{input} for a height or share outside its range, or a walk after `today`
std::vector<DueLine> due_list(std::span<const BlockCare> blocks,
                              std::span<const double> alive_share, std::span<const WalkLine> walks,
                              Date today, const std::array<climate::MonthNormal, 12>& normals,
                              const Parameters& parameters);

}  // namespace wildling::tending
