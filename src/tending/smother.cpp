#include "tending/smother.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"

namespace wildling::tending {
namespace {

using std::chrono::days;

void check(const WalkLine& walk, Date today) {
  const auto share = [](const std::optional<double>& s) { return !s || (*s >= 0 && *s <= 1); };
  const bool possible = walk.cover_m >= 0 && walk.cover_m <= 10 &&
                        (!walk.tree_m || (*walk.tree_m > 0 && *walk.tree_m <= 60)) &&
                        share(walk.climbed_share) && share(walk.cured_share);
  if (!possible)
    throw Error(ErrorKind::input, walk.block,
                say("tending.walk_impossible", {{"cover", walk.cover_m}}));
  if (walk.day > today)
    throw Error(ErrorKind::input, walk.block, say("tending.walk_in_future", {{"day", walk.day}}));
}

const WalkLine* last_walk(std::span<const WalkLine> walks, const std::string& block) {
  const WalkLine* last = nullptr;
  for (const WalkLine& walk : walks) {
    if (walk.block == block && (last == nullptr || walk.day >= last->day)) last = &walk;
  }
  return last;
}

Urgency urgency_of(std::optional<Date> due, Date today) {
  if (!due) return Urgency::free;
  if (*due < today) return Urgency::overdue;
  if (*due <= today + days(1)) return Urgency::tomorrow;
  if (*due <= today + days(7)) return Urgency::this_week;
  return *due <= today + days(30) ? Urgency::this_month : Urgency::later;
}

/// The walk's cover grown on: the rule started at the walked height.
struct Projection {
  CoverRule rule;
  std::array<double, 12> wet;
  Date from;
  double start_months = 0;  ///< wet months at which the rule has the walked height

  [[nodiscard]] double cover_m(Date day) const {
    return height_after(rule, start_months + wet_months(from, day, wet));
  }
};

Projection projection(const BlockCare& block, const WalkLine& walk,
                      const std::array<climate::MonthNormal, 12>& normals,
                      const Parameters& parameters) {
  Projection p{cover_rule(walk.cover, parameters), wetness(normals, parameters), walk.day, 0};
  if (block.own_growth_per_month) p.rule.growth_per_month = *block.own_growth_per_month;
  p.rule.full_height_m = std::max(p.rule.full_height_m, walk.cover_m * 1.02);
  p.rule.cut_height_m = std::min(p.rule.cut_height_m, std::max(0.01, walk.cover_m));
  p.start_months = months_to(p.rule, walk.cover_m).value_or(0);
  return p;
}

/// Height of a group on a day: the walked height moved by growth since, in proportion for groups
/// other than the slowest.
double group_height(const BlockCare& block, const WalkLine& walk, species::Group group,
                    species::Group slowest, Date day, const Parameters& parameters) {
  const double by_book = tree_height_m(group, block.planting_first, day, parameters);
  if (!walk.tree_m) return by_book;
  return by_book * *walk.tree_m /
         tree_height_m(slowest, block.planting_first, walk.day, parameters);
}

void set_risk(DueLine& line, const BlockCare& block, double alive, const WalkLine& walk,
              const Projection& p, species::Group slowest, Date today,
              const Parameters& parameters) {
  const Date ahead =
      today + days(static_cast<int>(std::lround(parameters.value("tending.risk.look_ahead_days"))));
  line.rule = p.rule;
  line.walked_cover_m = walk.cover_m;
  line.months_ahead = wet_months(p.from, ahead, p.wet);
  line.cover_ahead_m = p.cover_m(ahead);
  line.climbed_share = walk.climbed_share.value_or(0);
  for (std::size_t g = 0; g < 3; ++g) {
    line.heights_ahead_m[g] =
        group_height(block, walk, static_cast<species::Group>(g), slowest, ahead, parameters);
    line.living[g] = alive * block.planted_by_group[g];
  }
  line.trees_at_risk =
      trees_at_risk(line.cover_ahead_m, line.heights_ahead_m, line.living, line.climbed_share,
                    parameters.value("tending.risk.height_cv"));
}

void judge_season(DueLine& line, const WalkLine& walk, Date today, const DrySeason& dry,
                  const Parameters& parameters) {
  if (dry.exists()) {
    const days late(static_cast<int>(std::lround(parameters.value("tending.late_clearing_days"))));
    line.press_only = today >= dry_start(dry, today) - late;
  }
  if (line.press_only && line.job != Job::climber_cutting) {
    line.job = Job::pressing;
    line.notes.push_back(say("tending.note.press_only"));
  }
  if (walk.cured_share.value_or(0) >= parameters.value("tending.risk.cured_share")) {
    line.notes.push_back(say("tending.note.cured", {{"percent", 100 * *walk.cured_share}}));
  }
  if (walk.animal_signs) line.notes.push_back(say("tending.note.animals"));
}

DueLine unknown_line(const BlockCare& block, const WalkLine* walk, Date today) {
  DueLine line;
  line.block = block.block;
  line.walked_days_ago = walk == nullptr ? -1 : static_cast<int>((today - walk->day).count());
  line.notes.push_back(walk == nullptr
                           ? say("tending.note.never_walked")
                           : say("tending.note.walk_stale",
                                 {{"days", static_cast<std::int64_t>(line.walked_days_ago)}}));
  return line;
}

/// First day from the walk on, within 400 days of today, on which the cover reaches the due share.
std::optional<Date> due_day(const BlockCare& block, const WalkLine& walk, const Projection& p,
                            species::Group slowest, Date today, const Parameters& parameters) {
  if (walk.climbed_share.value_or(0) >= parameters.value("tending.risk.climbed_share"))
    return walk.day;
  const double share = parameters.value("tending.due_share");
  for (Date day = walk.day; day < today + days(400); day += days(1)) {
    if (p.cover_m(day) >= share * group_height(block, walk, slowest, slowest, day, parameters))
      return day;
  }
  return {};
}

DueLine known_line(const BlockCare& block, double alive_share, const WalkLine& walk, Date today,
                   const std::array<climate::MonthNormal, 12>& normals,
                   const Parameters& parameters) {
  const species::Group slowest = slowest_group(block.planted_by_group, parameters);
  const Projection p = projection(block, walk, normals, parameters);
  DueLine line;
  line.block = block.block;
  line.walked_days_ago = static_cast<int>((today - walk.day).count());
  line.cover_m = p.cover_m(today);
  line.tree_m = group_height(block, walk, slowest, slowest, today, parameters);
  line.due = due_day(block, walk, p, slowest, today, parameters);
  line.urgency = urgency_of(line.due, today);
  line.job = round_job(walk.cover, block, parameters);
  set_risk(line, block, alive_share, walk, p, slowest, today, parameters);
  judge_season(line, walk, today, dry_season(normals, parameters), parameters);
  line.person_days = round_person_days(block, line.job, parameters);
  line.at_risk_per_day = line.person_days > 0 ? line.trees_at_risk / line.person_days : 0;
  return line;
}

}  // namespace

std::string_view urgency_name(Urgency urgency) {
  constexpr std::array<std::string_view, 7> kNames = {
      "overdue", "tomorrow", "this_week", "this_month", "later", "free", "cannot_tell"};
  return kNames[static_cast<std::size_t>(urgency)];
}

Job round_job(ground::Cover cover, const BlockCare& block, const Parameters& parameters) {
  if (cover == ground::Cover::climbers) return Job::climber_cutting;
  if (cover == ground::Cover::fern || cover == ground::Cover::shrubs) return Job::line;
  const double share =
      ring_share(block.planted() / block.area_ha, parameters.value("tending.ring_diameter_m"));
  return share >= parameters.value("tending.whole_from_share") ? Job::whole : Job::ring;
}

double round_person_days(const BlockCare& block, Job job, const Parameters& parameters) {
  const double slope = slope_factor(block.slope_deg, parameters);
  const double area_m2 = block.area_ha * 10000;
  switch (job) {
    case Job::climber_cutting:
      return person_days(block.planted(), rate("climber_cutting", parameters)).used * slope;
    case Job::pressing:
      return person_days(area_m2, rate("pressing", parameters)).used * slope;
    case Job::line:
      return person_days(area_m2 * line_share(parameters.value("tending.line_width_m"),
                                              block.row_spacing_m),
                         rate("slash", parameters))
                 .used *
             slope;
    case Job::ring:
      return person_days(area_m2 * ring_share(block.planted() / block.area_ha,
                                              parameters.value("tending.ring_diameter_m")),
                         rate("slash", parameters))
                 .used *
             slope;
    default:
      return person_days(area_m2, rate("slash", parameters)).used * slope;
  }
}

double share_below(double height_m, double mean_m, double cv) {
  return 0.5 * std::erfc(-(height_m - mean_m) / (cv * mean_m) / std::sqrt(2.0));
}

double trees_at_risk(double cover_m, const std::array<double, 3>& heights_m,
                     const std::array<double, 3>& living, double climbed_share, double cv) {
  double sum = 0;
  for (std::size_t g = 0; g < 3; ++g) {
    sum += living[g] * std::max(share_below(cover_m, heights_m[g], cv), climbed_share);
  }
  return sum;
}

std::vector<DueLine> due_list(std::span<const BlockCare> blocks,
                              std::span<const double> alive_share, std::span<const WalkLine> walks,
                              Date today, const std::array<climate::MonthNormal, 12>& normals,
                              const Parameters& parameters) {
  for (const WalkLine& walk : walks) check(walk, today);
  const int stale_days = static_cast<int>(std::lround(parameters.value("tending.walk.stale_days")));
  std::vector<DueLine> lines;
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const WalkLine* walk = last_walk(walks, blocks[i].block);
    const bool stale = walk == nullptr || today - walk->day > days(stale_days);
    lines.push_back(stale
                        ? unknown_line(blocks[i], walk, today)
                        : known_line(blocks[i], alive_share[i], *walk, today, normals, parameters));
  }
  std::stable_sort(lines.begin(), lines.end(), [](const DueLine& a, const DueLine& b) {
    return a.at_risk_per_day > b.at_risk_per_day;
  });
  return lines;
}

}  // namespace wildling::tending
