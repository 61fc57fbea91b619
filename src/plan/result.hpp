#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "base/workings.hpp"
#include "ground/block.hpp"

namespace wildling::plan {

/// What a plan says about itself.
struct PlanHead {
  int number = 0;
  std::string programme = {};
  bool invented_figures = false;
  std::string fingerprint = {};  ///< of all inputs
  std::string seed = {};         ///< unsigned decimal
  std::string program_version = {};
  Date today = {};

  bool operator==(const PlanHead&) const = default;
};

struct PeriodPart {
  int period = 0;  ///< ten-day period, 0 = 1-10 January
  int good = 0;    ///< years without a killing dry spell
  int judged = 0;
};

/// When planting is safe by the station's own log.
struct WindowPart {
  bool has_log = false;
  bool found = false;
  int first_period = -1, last_period = -1;    ///< ten-day periods of the year
  std::optional<Date> first = {}, last = {};  ///< the season of the whole order
  std::optional<Date> open_until =
      {};  ///< a window is running, but not all seedlings are ready for it
  int good_years = 0, of_years = 0;
  double share_low = 0, share_high = 0;  ///< Wilson 95 % limits of good/of
  std::string station = {};
  int days_in_log = 0, days_missing = 0;
  std::optional<Date> log_first = {}, log_last = {};
  double et0_low_mm_d = 0, et0_high_mm_d = 0;
  bool et0_assumed = false;
  Message first_line = {};
  std::vector<Message> refused = {}, caveats = {}, details = {};
  std::vector<PeriodPart> periods = {};
};

struct SpeciesPart {
  std::string name = {};  ///< scientific
  std::string local_name = {};
  std::string group = {};  ///< pioneer, early, late; empty = unknown
  std::optional<int> ready = {}, can_raise = {};
  int planted = 0;  ///< on blocks that are open
  int draft = 0;    ///< on blocks on hold
};

/// The mix of one ground type, open blocks and blocks on hold apart.
struct GroundPart {
  std::string ground_type = {};
  bool open = false;
  double area_ha = 0;
  double target_per_ha = 0;  ///< living stems at the age of the target
  double natural_per_ha = 0;
  double needed_living = 0, expected_living = 0, living_low = 0, living_high = 0;
  std::int64_t planted = 0, places = 0, pioneers = 0;
  int species = 0;
};

struct BlockPart {
  ground::Block block = {};
  double area_ha = 0, area_sd_ha = 0, perimeter_m = 0;
  bool open = false;
  std::vector<Message> reasons = {};  ///< why it is on hold
  std::string method = {};            ///< protect, assist, plant, not_yet
  std::vector<Message> method_reasons = {};
  std::int64_t places = 0, planted = 0, empty = 0, like_pairs = 0;
  int rows = 0;
  std::vector<int> counts = {};  ///< per species of PlanResult::species
  std::string layout_code = {};  ///< bytes of layout/code.hpp; kept beside the JSON
};

struct SitePart {
  std::string code = {};
  ground::LonLat origin = {};  ///< of the site's metric frame
  double area_ha = 0, area_sd_ha = 0;
  int blocks = 0, open_blocks = 0;
};

struct CollectPart {
  std::string species = {}, local_name = {};
  std::string way = {};  ///< none, seed, wildlings, cannot_tell
  std::int64_t to_field = 0, ready = 0, count = 0, by_means = 0;
  double confidence = 0, chance = 0, mean_yield = 0;
  std::optional<double> seed_kg = {}, fruit_kg = {};
  int trees_to_visit = 0;
  std::optional<Date> collect_from = {}, collect_by = {}, sow_by = {}, prick_out = {},
                      harden_from = {}, dispatch = {};
  std::string timing = {};  ///< in_time, hurry, too_late
  bool short_likely = false;
  std::string stand_in = {};
  Message first_line = {};
  std::vector<Message> notes = {};
};

struct WorkPart {
  std::string block = {}, job = {};
  Date from = {}, due = {};
  int round = 0;
  double quantity = 0;
  std::string unit = {};
  double person_days = 0, person_days_low = 0, person_days_high = 0;
  double wages = 0, materials = 0;
  Message why = {};
};

struct WeekPart {
  Date first = {};
  int days = 0;
  double work_days = 0, person_days = 0;
  int people = 0;
};

struct SumPart {
  std::string name = {};  ///< job, block or month
  double person_days = 0, wages = 0, materials = 0;
};

struct MoneyPart {
  double seedlings = 0;  ///< price of the seedlings of the open blocks
  bool seedlings_known = false;
  double wages = 0, materials = 0, total = 0;
  double person_days = 0;
  double years = 0;
  std::vector<SumPart> by_job = {}, by_month = {}, by_block = {};
};

struct PlanResult {
  PlanHead head = {};
  std::vector<SitePart> sites = {};
  std::vector<BlockPart> blocks = {};
  WindowPart window = {};
  std::vector<SpeciesPart> species = {};
  std::vector<GroundPart> grounds = {};
  std::optional<double> mix_gap = {};
  bool mix_repeatable = true;
  std::vector<Message> mix_notes = {};
  double target_age_months = 0;
  std::vector<CollectPart> collections = {};
  double order_confidence = 0;
  std::vector<Message> nursery_notes = {};
  std::vector<WorkPart> works = {};
  std::vector<WeekPart> weeks = {};
  std::vector<Message> tending_notes = {};
  MoneyPart money = {};
  std::vector<Message> draft_problem = {};  ///< why no mix was found for blocks on hold
  Workings workings = {};                   ///< kept in a table of its own
};

}  // namespace wildling::plan
