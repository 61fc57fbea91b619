#include "plan/field/facts.hpp"

#include <algorithm>
#include <set>

#include "layout/assign.hpp"
#include "plan/fill_parts.hpp"
#include "plan/season.hpp"
#include "species/library.hpp"
#include "species/survival.hpp"

namespace wildling::plan {
namespace {

using tending::Job;

template <typename T, typename DayOf>
void drop_later(std::vector<T>& list, DayOf day_of, Date day) {
  std::erase_if(list, [&](const T& item) { return day_of(item) > day; });
}

/// Trees that a crew sheet prints for each row.
std::map<int, int> places_in_row(const FieldBook& book, const BlockPart& part) {
  std::map<int, int> rows;
  const auto laid = layout_of(part, frame_of(*book.plan, part));
  if (!laid) return rows;
  for (std::size_t r = 0; r < laid->places.rows.size(); ++r) {
    const layout::Row& row = laid->places.rows[r];
    const auto begin = laid->species.begin() + row.first;
    rows[static_cast<int>(r) + 1] = static_cast<int>(std::count_if(
        begin, begin + row.count, [](std::uint8_t s) { return s != layout::kEmptyPlace; }));
  }
  return rows;
}

std::map<std::string, tending::SlipBlock> slip_blocks(const FieldBook& book) {
  std::set<std::string> written;
  for (const SlipNote& note : book.slips) written.insert(note.slip.block);
  std::map<std::string, tending::SlipBlock> blocks;
  for (const ground::Block& block : book.programme.blocks) {
    tending::SlipBlock& facts = blocks[block.code];
    facts.facts.consent = block.gates.consent.answer == ground::Answer::yes;
    const BlockPart* part = part_of(book, block.code);
    if (part != nullptr && written.contains(block.code))
      facts.places_in_row = places_in_row(book, *part);
  }
  return blocks;
}

std::optional<Message> unknown_species(const tending::Slip& slip,
                                       const std::set<std::string>& known) {
  std::set<std::string> named;
  for (const tending::SlipLine& line : slip.lines) named.insert(line.species);
  for (const auto& [species, count] : slip.dead) named.insert(species);
  for (const auto& [species, count] : slip.returned) named.insert(species);
  for (const std::string& species : named) {
    if (!known.contains(species))
      return say("fieldbook.slip.species_unknown", {{"species", species}});
  }
  return {};
}

void first_day(std::optional<Date>& first, Date day) {
  first = first ? std::min(*first, day) : day;
}

std::int64_t planted_on(const tending::Slip& slip) {
  std::int64_t sum = 0;
  for (const tending::SlipLine& line : slip.lines) sum += line.planted;
  return sum;
}

/// First planting day by the diary and by those slips that stand whatever the rounds say.
void put_planting_days(const FieldBook& book, const std::vector<tending::Slip>& slips,
                       std::map<std::string, tending::SlipBlock>& blocks) {
  std::vector<tending::Slip> planting;
  for (const tending::Slip& slip : slips) {
    if (!slip.tending_round) planting.push_back(slip);
  }
  const tending::Ledger first = tending::settle(book.dispatches, planting, blocks);
  for (const std::size_t i : first.accepted) {
    const auto block = blocks.find(planting[i].block);
    if (block != blocks.end() && planted_on(planting[i]) > 0)
      first_day(block->second.facts.planted_on, planting[i].day);
  }
  for (const tending::DiaryLine& line : book.diary) {
    const auto block = blocks.find(line.block);
    if (block != blocks.end() && line.job == Job::plant)
      first_day(block->second.facts.planted_on, line.day);
  }
}

std::size_t group_of(const Programme& programme, const std::string& species) {
  for (const species::Candidate& candidate : programme.candidates) {
    if (candidate.name() == species)
      return static_cast<std::size_t>(candidate.species.group.value_or(species::Group::late));
  }
  return static_cast<std::size_t>(species::Group::late);
}

std::vector<double> planned_counts(const BlockPart& part) {
  return {part.counts.begin(), part.counts.end()};
}

/// Planted by accepted slips, per candidate; empty when no slip stands.
std::vector<double> counted(const FieldBook& book, const tending::Ledger& ledger,
                            const std::string& block) {
  const auto found = ledger.accounts.find(block);
  if (found == ledger.accounts.end()) return {};
  std::vector<double> counts(book.programme.candidates.size(), 0.0);
  double sum = 0;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    const auto account = found->second.find(book.programme.candidates[i].name());
    if (account != found->second.end()) counts[i] = static_cast<double>(account->second.planted);
    sum += counts[i];
  }
  return sum > 0 ? counts : std::vector<double>{};
}

std::array<double, 3> by_group(const FieldBook& book, const std::vector<double>& counts) {
  std::array<double, 3> sums{};
  for (std::size_t i = 0; i < counts.size() && i < book.programme.candidates.size(); ++i)
    sums[group_of(book.programme, book.programme.candidates[i].name())] += counts[i];
  return sums;
}

Date last_planting(const FieldBook& book, const SettledBook& settled, const std::string& block,
                   Date first) {
  Date last = first;
  for (const std::size_t i : settled.ledger.accepted) {
    const tending::Slip& slip = settled.slips[i];
    if (slip.block == block && !slip.tending_round && planted_on(slip) > 0)
      last = std::max(last, slip.day);
  }
  for (const tending::DiaryLine& line : book.diary) {
    if (line.block == block && line.job == Job::plant) last = std::max(last, line.day);
  }
  return last;
}

bool cuts(Job job) {
  return job == Job::clear || job == Job::ring || job == Job::line || job == Job::whole;
}

double months_between(Date from, Date to) {
  constexpr double kDaysPerMonth = 365.25 / 12;
  return static_cast<double>((to - from).count()) / kDaysPerMonth;
}

double tree_height(const FieldBook& book, const tending::BlockCare& care, Date day) {
  const species::Group slowest =
      tending::slowest_group(care.planted_by_group, book.programme.parameters);
  return tending::tree_height_m(slowest, care.planting_first, day, book.programme.parameters);
}

std::optional<double> walked_height(const FieldBook& book, const WalkNote& walk,
                                    const tending::BlockCare& care) {
  if (walk.cover_m) return walk.cover_m;
  if (!walk.picture) return {};
  const double tree = walk.tree_m ? *walk.tree_m : tree_height(book, care, walk.day);
  return tree * picture_share(*walk.picture, book.programme.parameters);
}

/// Heights measured with a stick, per kind of cover, over all blocks: the site's own growth.
std::map<ground::Cover, std::vector<tending::WalkHeight>> measured_heights(
    const FieldBook& book, const std::vector<PlantedBlock>& planted) {
  const Parameters& parameters = book.programme.parameters;
  const auto wet = tending::wetness(normals_of(book.programme), parameters);
  const auto before =
      std::chrono::days(static_cast<int>(parameters.value("tending.cleared_days_before")));
  std::map<ground::Cover, std::vector<tending::WalkHeight>> heights;
  for (const WalkNote& walk : book.walks) {
    const auto block = std::find_if(planted.begin(), planted.end(), [&](const PlantedBlock& p) {
      return p.care.block == walk.block;
    });
    if (block == planted.end() || !walk.cover_m || !(*walk.cover_m > 0)) continue;
    const Date cut =
        last_cut(book, walk.block, walk.day).value_or(block->care.planting_first - before);
    const double months = tending::wet_months(cut, walk.day, wet);
    if (months > 0) heights[walk.cover].push_back({months, *walk.cover_m});
  }
  return heights;
}

void put_own_growth(const FieldBook& book, std::vector<PlantedBlock>& planted) {
  const auto heights = measured_heights(book, planted);
  const Parameters& parameters = book.programme.parameters;
  for (PlantedBlock& block : planted) {
    ground::Cover cover = block.care.cover;
    for (const WalkNote& walk : book.walks) {
      if (walk.block == block.care.block) cover = walk.cover;
    }
    const auto found = heights.find(cover);
    if (found == heights.end()) continue;
    block.care.own_growth_per_month = tending::own_growth_per_month(
        tending::cover_rule(cover, parameters), found->second, parameters);
  }
}

}  // namespace

FieldBook book_until(FieldBook book, Date day) {
  drop_later(
      book.walks, [](const WalkNote& n) { return n.day; }, day);
  drop_later(
      book.diary, [](const tending::DiaryLine& n) { return n.day; }, day);
  drop_later(
      book.dispatches, [](const tending::Dispatch& n) { return n.day; }, day);
  drop_later(
      book.slips, [](const SlipNote& n) { return n.slip.day; }, day);
  return book;
}

SettledBook settle_book(const FieldBook& book) {
  std::set<std::string> known;
  for (const species::Candidate& candidate : book.programme.candidates)
    known.insert(candidate.name());
  SettledBook settled;
  for (const SlipNote& note : book.slips) {
    settled.slips.push_back(note.slip);
    settled.slips.back().fault = unknown_species(note.slip, known);
  }
  settled.blocks = slip_blocks(book);
  put_planting_days(book, settled.slips, settled.blocks);
  settled.ledger = tending::settle(book.dispatches, settled.slips, settled.blocks);
  return settled;
}

std::map<std::string, tending::BlockFacts> block_facts(const FieldBook& book) {
  std::map<std::string, tending::BlockFacts> facts;
  for (const auto& [code, block] : settle_book(book).blocks) facts[code] = block.facts;
  return facts;
}

tending::BlockCare planned_care(const FieldBook& book, const BlockPart& part) {
  tending::BlockCare care;
  care.block = part.block.code;
  care.area_ha = part.area_ha;
  care.cover = part.block.cover;
  if (part.block.slope_known) care.slope_deg = part.block.slope_deg;
  care.planted_by_group = by_group(book, planned_counts(part));
  care.row_spacing_m = book.programme.parameters.value("layout.spacing");
  return care;
}

double expected_alive(const Programme& programme, const std::vector<double>& counts,
                      bool under_cover, double months) {
  constexpr double kLeastMonths = 0.1;
  if (months < kLeastMonths) return 1;
  static const species::Library library = species::Library::shipped();
  double planted = 0, alive = 0;
  for (std::size_t i = 0; i < counts.size() && i < programme.candidates.size(); ++i) {
    if (!(counts[i] > 0)) continue;
    planted += counts[i];
    alive += counts[i] * species::expected_survival(programme.candidates[i], under_cover, months,
                                                    library.survival(), programme.parameters)
                             .share;
  }
  return planted > 0 ? alive / planted : 1;
}

std::vector<PlantedBlock> planted_blocks(const FieldBook& book, Date today) {
  std::vector<PlantedBlock> planted;
  if (!book.plan) return planted;
  const SettledBook settled = settle_book(book);
  for (const BlockPart& part : book.plan->blocks) {
    const auto facts = settled.blocks.find(part.block.code);
    if (facts == settled.blocks.end() || !facts->second.facts.planted_on) continue;
    PlantedBlock block;
    block.care = planned_care(book, part);
    std::vector<double> counts = counted(book, settled.ledger, part.block.code);
    block.counted = !counts.empty();
    if (!block.counted) counts = planned_counts(part);
    block.care.planted_by_group = by_group(book, counts);
    if (!(block.care.planted() > 0)) continue;
    block.care.planting_first = *facts->second.facts.planted_on;
    block.care.planting_last =
        last_planting(book, settled, part.block.code, block.care.planting_first);
    block.alive_share = std::max(
        0.01, expected_alive(book.programme, counts, part.block.cover == ground::Cover::under_trees,
                             months_between(block.care.planting_last, today)));
    planted.push_back(std::move(block));
  }
  put_own_growth(book, planted);
  return planted;
}

std::optional<Date> last_cut(const FieldBook& book, const std::string& block, Date day) {
  std::optional<Date> last;
  const auto take = [&](Date when) {
    if (when <= day) last = last ? std::max(*last, when) : when;
  };
  for (const tending::DiaryLine& line : book.diary) {
    if (line.block == block && cuts(line.job)) take(line.day);
  }
  for (const SlipNote& note : book.slips) {
    if (note.slip.block == block && note.slip.tending_round && cuts(*note.slip.tending_round))
      take(note.slip.day);
  }
  return last;
}

std::vector<tending::WalkLine> walk_lines(const FieldBook& book,
                                          const std::vector<PlantedBlock>& planted) {
  std::vector<tending::WalkLine> lines;
  for (const PlantedBlock& block : planted) {
    std::optional<tending::WalkLine> newest;
    for (const WalkNote& walk : book.walks) {
      if (walk.block != block.care.block || walk.day < block.care.planting_first) continue;
      const auto height = walked_height(book, walk, block.care);
      if (!height) continue;
      tending::WalkLine line;
      line.block = walk.block;
      line.day = walk.day;
      line.cover = walk.cover;
      line.cover_m = *height;
      line.tree_m = walk.tree_m;
      line.climbed_share = walk.climbed_share;
      line.cured_share = walk.cured_share;
      line.animal_signs = !walk.animal_signs.empty();
      lines.push_back(line);
      newest = line;
    }
    if (!newest) continue;
    const auto cut = last_cut(book, block.care.block, Date::max());
    if (!cut || *cut < newest->day) continue;
    tending::WalkLine line = *newest;
    line.day = line.last_round.emplace(*cut);
    line.cover_m = tending::cover_rule(line.cover, book.programme.parameters).cut_height_m;
    line.climbed_share = line.cured_share = {};
    line.tree_m = {};
    lines.push_back(line);
  }
  return lines;
}

double picture_share(int picture, const Parameters& parameters) {
  return parameters.value("tending.walk.picture_" + std::to_string(picture));
}

std::vector<tending::OwnRate> rates_of(const FieldBook& book) {
  return tending::own_rates(book.diary, book.programme.parameters);
}

}  // namespace wildling::plan
