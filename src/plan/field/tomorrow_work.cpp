#include "plan/field/tomorrow_work.hpp"

#include <algorithm>
#include <cmath>

#include "ground/gates.hpp"
#include "plan/fill_parts.hpp"
#include "plan/fill_sheets.hpp"
#include "plan/season.hpp"
#include "tending/planting_work.hpp"

namespace wildling::plan {
namespace {

using std::chrono::days;
using tending::Job;

constexpr std::size_t kBlocksOfOneLeader = 3;

bool wished(const SheetWish& wish, const std::string& block) {
  return wish.blocks.empty() ||
         std::find(wish.blocks.begin(), wish.blocks.end(), block) != wish.blocks.end();
}

void check_blocks(const FieldBook& book, const SheetWish& wish) {
  for (const std::string& block : wish.blocks) {
    if (block_of(book.programme, block) == nullptr) {
      throw Error(
          ErrorKind::input, block,
          say("fieldbook.no_block", {{"block", block}, {"blocks", block_list(book.programme)}}));
    }
  }
}

CrewOrder order_of(const SheetWish& wish, Date day, const std::string& block, Job job) {
  CrewOrder order;
  order.leader = wish.crew;
  order.day = day;
  order.block = block;
  order.job = job;
  return order;
}

/// Work of the plan that is running or overdue on the day, and not reported as done by a later
/// stage: before planting marking, pits and planting follow each other.
std::optional<Job> planned_job(const FieldBook& book, const std::string& block, Date day) {
  std::optional<Job> job;
  for (const WorkPart& work : book.plan->works) {
    const auto known = tending::parse_job(work.job);
    if (work.block != block || !known || work.from > day || *known > Job::plant) continue;
    if (*known == Job::carry) continue;
    job = job ? std::max(*job, *known) : *known;
  }
  return job;
}

std::vector<CrewOrder> suggested(const FieldBook& book, const SheetWish& wish, Date day,
                                 Date today) {
  std::vector<CrewOrder> orders;
  const auto full = [&] { return wish.blocks.empty() && orders.size() >= kBlocksOfOneLeader; };
  const auto planted = planted_blocks(book, today);
  for (const tending::DueLine& line : due_lines(book, planted, today)) {
    const bool due = line.urgency == tending::Urgency::overdue ||
                     line.urgency == tending::Urgency::tomorrow ||
                     (!wish.blocks.empty() && line.urgency != tending::Urgency::cannot_tell);
    if (due && wished(wish, line.block) && !full())
      orders.push_back(order_of(wish, day, line.block, line.job));
  }
  // A day of planting is one block for one crew; rounds are shorter.
  if (!book.plan || (wish.blocks.empty() && !orders.empty())) return orders;
  for (const BlockPart& part : book.plan->blocks) {
    const std::string& code = part.block.code;
    const bool is_planted = std::any_of(planted.begin(), planted.end(), [&](const PlantedBlock& p) {
      return p.care.block == code;
    });
    if (is_planted || !wished(wish, code)) continue;
    if (wish.blocks.empty() && !orders.empty()) break;
    const auto job = planned_job(book, code, day);
    if (job || !wish.blocks.empty())
      orders.push_back(order_of(wish, day, code, job.value_or(Job::plant)));
  }
  return orders;
}

/// The block as it stands today: gates are answered after a plan too.
BlockPart part_today(const FieldBook& book, const BlockPart& part) {
  BlockPart now = part;
  if (const ground::Block* block = block_of(book.programme, part.block.code)) {
    now.block.gates = block->gates;
    const ground::GateVerdict verdict = ground::judge(block->gates);
    now.open = verdict.open;
    now.reasons = verdict.reasons;
  }
  return now;
}

bool brings_seedlings(Job job) {
  return job == Job::plant || job == Job::refill || job == Job::carry;
}

/// Rows with what is left to plant in each.
void put_rows_left(TomorrowTask& task, const CrewSheet& sheet, const SettledBook& settled) {
  const auto done = settled.ledger.planted_in_row.find(task.block_code);
  for (SheetRow row : sheet.rows) {
    if (done != settled.ledger.planted_in_row.end()) {
      const auto planted = done->second.find(row.number);
      if (planted != done->second.end())
        row.count = std::max(0, row.count - static_cast<int>(planted->second));
    }
    if (row.count > 0) task.rows.push_back(std::move(row));
  }
}

void put_species_left(TomorrowTask& task, const CrewSheet& sheet, const SettledBook& settled,
                      const Parameters& parameters) {
  const auto accounts = settled.ledger.accounts.find(task.block_code);
  for (SheetSpecies species : sheet.species) {
    if (accounts != settled.ledger.accounts.end()) {
      const auto account = accounts->second.find(species.scientific_name);
      if (account != accounts->second.end())
        species.to_plant =
            std::max(0, species.to_plant - static_cast<int>(account->second.planted));
    }
    if (species.to_plant == 0) continue;
    species.to_load = with_spares(species.to_plant, parameters.value("plan.spares_share"));
    task.species.push_back(std::move(species));
  }
}

int places(const TomorrowTask& task) {
  int sum = 0;
  for (const SheetRow& row : task.rows) sum += row.count;
  return sum;
}

std::optional<double> days_of(const FieldBook& book, const TomorrowTask& task,
                              const BlockPart& part, Job job, Date day) {
  const Parameters used = tending::with_own_rates(book.programme.parameters, rates_of(book));
  tending::BlockCare care = planned_care(book, part);
  const double slope = tending::slope_factor(care.slope_deg, used);
  const double trees = places(task);
  switch (job) {
    case Job::plant:
      return tending::planting_days_per_tree(used).used * trees * slope;
    case Job::refill:
      return tending::planting_days_per_tree(used).used * used.value("tending.refill.times") *
             trees * slope;
    case Job::dig_pits:
    case Job::mark_places:
      return tending::person_days(trees, tending::rate(tending::rate_of(job), used)).used * slope;
    case Job::ring:
    case Job::line:
    case Job::whole:
    case Job::pressing:
    case Job::climber_cutting:
      for (const PlantedBlock& planted : planted_blocks(book, day)) {
        if (planted.care.block == task.block_code) care = planted.care;
      }
      return tending::round_person_days(care, job, used);
    default:
      return {};
  }
}

bool cuts_grass(Job job) {
  return job == Job::clear || job == Job::ring || job == Job::line || job == Job::whole ||
         job == Job::firebreak;
}

}  // namespace

SheetJob sheet_job(Job job) {
  switch (job) {
    case Job::mark_places:
      return SheetJob::mark_places;
    case Job::dig_pits:
      return SheetJob::dig_pits;
    case Job::carry:
    case Job::plant:
      return SheetJob::plant;
    case Job::refill:
      return SheetJob::refill;
    case Job::ring:
      return SheetJob::weed_rings;
    case Job::line:
      return SheetJob::weed_lines;
    case Job::clear:
    case Job::whole:
      return SheetJob::weed_whole;
    case Job::pressing:
      return SheetJob::press_grass;
    case Job::climber_cutting:
      return SheetJob::cut_climbers;
    case Job::firebreak:
      return SheetJob::firebreak;
  }
  return SheetJob::count;
}

std::vector<tending::DueLine> due_lines(const FieldBook& book,
                                        const std::vector<PlantedBlock>& planted, Date today) {
  std::vector<tending::BlockCare> cares;
  std::vector<double> alive;
  for (const PlantedBlock& block : planted) {
    cares.push_back(block.care);
    alive.push_back(block.alive_share);
  }
  const Parameters used = tending::with_own_rates(book.programme.parameters, rates_of(book));
  return tending::due_list(cares, alive, walk_lines(book, planted), today,
                           normals_of(book.programme), used);
}

std::vector<CrewOrder> orders_for(const FieldBook& book, const SheetWish& wish, Date day,
                                  Date today) {
  check_blocks(book, wish);
  std::vector<CrewOrder> orders;
  for (const CrewOrder& order : book.orders) {
    if (order.day == day && wished(wish, order.block) &&
        (wish.crew.empty() || order.leader == wish.crew))
      orders.push_back(order);
  }
  if (orders.empty()) orders = suggested(book_until(book, today), wish, day, today);
  if (orders.empty())
    throw Error(ErrorKind::input, "", say("fieldbook.nothing_to_do", {{"day", day}}));
  return orders;
}

TomorrowTask task_for(const FieldBook& book, const SettledBook& settled, const CrewOrder& order,
                      Date day) {
  const BlockPart* part = part_of(book, order.block);
  if (part == nullptr)
    throw Error(ErrorKind::input, order.block,
                say("fieldbook.no_plan_of_block", {{"block", order.block}}));
  TomorrowTask task;
  task.job = sheet_job(order.job);
  task.block_code = order.block;
  task.gates = gate_ticks(part_today(book, *part));
  if (!task.gates.open) return task;
  const Parameters& parameters = book.programme.parameters;
  const auto sheet = crew_sheet(*book.plan, parameters, order.block);
  if (!sheet) return task;
  if (order.job == Job::plant) {
    put_rows_left(task, *sheet, settled);
    put_species_left(task, *sheet, settled, parameters);
  } else {
    task.rows = sheet->rows;
    if (brings_seedlings(order.job)) task.species = sheet->species;
  }
  task.person_days = days_of(book, task, *part, order.job, day);
  for (const WalkNote& walk : book.walks) {
    if (walk.block == order.block && !walk.animal_signs.empty() && walk.day <= day &&
        walk.day > day - days(14)) {
      task.notes.push_back(
          say("fieldbook.note.animals", {{"day", walk.day}, {"what", walk.animal_signs}}));
    }
  }
  if (!order.note.empty()) task.notes.push_back(say("fieldbook.note.text", {{"text", order.note}}));
  return task;
}

std::vector<Message> cautions_for(const FieldBook& book, const std::vector<CrewOrder>& orders,
                                  Date day) {
  std::vector<Message> cautions;
  const bool cutting = std::any_of(orders.begin(), orders.end(),
                                   [](const CrewOrder& order) { return cuts_grass(order.job); });
  if (cutting) cautions.push_back(say("fieldbook.caution.cut_grass"));
  const Parameters& parameters = book.programme.parameters;
  const auto dry = tending::dry_season(normals_of(book.programme), parameters);
  if (!dry.exists()) return cautions;
  const Date start = tending::dry_start(dry, day);
  const auto before = [&](const char* key) {
    return start - days(static_cast<int>(std::lround(parameters.value(key))));
  };
  if (cutting && day >= before("tending.late_clearing_days"))
    cautions.push_back(say("fieldbook.caution.late_clearing"));
  if (day >= before("tending.fire.mulch_days"))
    cautions.push_back(say("fieldbook.caution.mulch_off"));
  return cautions;
}

}  // namespace wildling::plan
