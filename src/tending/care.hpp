#pragma once
#include <array>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "tending/cover_growth.hpp"
#include "tending/norms.hpp"
#include "tending/round_rule.hpp"

namespace wildling::tending {

/// One block as tending sees it.
struct BlockCare {
  std::string block;  ///< code
  double area_ha = 0;
  ground::Cover cover = ground::Cover::running_grass;
  std::optional<double> slope_deg;           ///< empty: not known
  std::array<double, 3> planted_by_group{};  ///< pioneer, early, late; trees planted
  double row_spacing_m = 3;
  Date planting_first = {};
  Date planting_last = {};  ///< inclusive
  double firebreak_m = 0;   ///< length of boundary to be kept bare; 0 = none (water, road)
  std::optional<double> own_growth_per_month;  ///< from smother walks

  [[nodiscard]] double planted() const {
    return planted_by_group[0] + planted_by_group[1] + planted_by_group[2];
  }
};

/// One piece of work. A round is one Work per job.
struct Work {
  std::string block;
  Job job = Job::ring;
  Date from = {};  ///< may begin
  Date due = {};   ///< to be finished by
  int round = 0;   ///< 1, 2 ... for tending rounds; year for firebreaks; 0 otherwise
  double quantity = 0;
  std::string unit;  ///< "m2", "trees", "m"
  PersonDays days;
  double wages = 0;  ///< person-days x wage
  double materials = 0;
  Message why;  ///< by which rule it falls on this day

  [[nodiscard]] double cost() const { return wages + materials; }
};

struct Round {
  int number = 1;
  Date due = {};
  RoundRule rule = RoundRule::overtopping;
  double cover_m = 0;  ///< height of the cover on that day
  double tree_m = 0;   ///< height of the slowest group on that day
};

struct BlockRounds {
  std::string block;
  species::Group slowest = species::Group::late;
  RoundNumbers numbers;  ///< all the rule looked at
  Date cleared = {}, end = {};
  std::vector<Round> rounds;
  std::optional<Date> trees_free;  ///< first day on which the slowest group stands above the full
                                   ///< cover; empty: not within the programme
  double ring_share = 0;           ///< share of the ground that a ring round treats
  std::vector<Message> notes;
};

/// The station's dry season: months with a mean rain below climate.month.dry_mm.
DrySeason dry_season(const std::array<climate::MonthNormal, 12>& normals,
                     const Parameters& parameters);

/// Rounds of one block from planting to `years` later.
/// Rule: the first tending.first_round_days after planting ends (ILO 1993 section 6.1: as soon as
/// planting ends); each next one when the regrowing cover has reached tending.due_share of the
/// height of the slowest group; none within tending.late_clearing_days before the dry season or in
/// it (ILO 1993 section 6.1: late clearing, sudden sun kills): it is brought forward when at least
/// tending.least_gap_days lie since the last, else held over to the rains; none once the slowest
/// group stands above the full cover (Tiansawat et al. 2018: weeding then changes nothing).
/// @throws Error{input} when nothing is planted, the area is not above 0, or planting_last <
/// planting_first
BlockRounds rounds(const BlockCare& block, double years,
                   const std::array<climate::MonthNormal, 12>& normals,
                   const Parameters& parameters);

/// Sums over works.
struct Sum {
  PersonDays days;
  double wages = 0, materials = 0;

  [[nodiscard]] double cost() const { return wages + materials; }

  Sum& operator+=(const Work& work);
};

/// A week of the planting window of all blocks together.
struct PlantingWeek {
  Date first = {};  ///< seven days from here, the last one shorter
  int days = 0;
  double work_days = 0;  ///< rest days and days lost to rain taken out
  double person_days = 0;
  int people = 0;  ///< person-days over work days, rounded up
};

struct CarePlan {
  double years = 3;
  double wage = 0;  ///< money per person-day
  std::vector<BlockRounds> blocks;
  std::vector<Work> works;  ///< by due day, block, job
  std::vector<PlantingWeek> weeks;
  DrySeason dry;
  RainByMonth rain;
  std::vector<BlockCare> inputs;  ///< as given
  std::map<std::string, Sum> by_block;
  std::map<std::string, Sum> by_job;    ///< by job name
  std::map<std::string, Sum> by_month;  ///< "2027-01", month of the due day
  Sum total;
  Message first_line;
  std::vector<Message> notes;
};

/// Rounds, planting work, firebreaks and the allowance for refill of all blocks.
CarePlan care(std::span<const BlockCare> blocks, double years,
              const std::array<climate::MonthNormal, 12>& normals, const Parameters& parameters);

/// The sums again from the works alone (by_block, by_job, by_month, total), in the order of the
/// works.
void add_up(CarePlan& plan);

}  // namespace wildling::tending
