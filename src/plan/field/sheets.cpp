#include "plan/field/sheets.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "plan/field/pay.hpp"
#include "plan/field/tomorrow_work.hpp"
#include "plan/fill_parts.hpp"
#include "plan/fill_sheets.hpp"
#include "plan/season.hpp"

namespace wildling::plan {
namespace {

using std::chrono::days;

SheetStamp stamp_for(const FieldBook& book, Date today) {
  SheetStamp stamp;
  stamp.programme = book.programme.name;
  if (book.plan) stamp.plan_number = book.plan->head.number;
  stamp.made_on = today;
  stamp.invented_figures = book.programme.invented_figures;
  return stamp;
}

void add_hazards(std::vector<Hazard>& hazards, const FieldBook& book, const CrewOrder& order,
                 Date day) {
  std::set<Hazard> all(hazards.begin(), hazards.end());
  if (const auto sheet = crew_sheet(*book.plan, book.programme.parameters, order.block))
    all.insert(sheet->hazards.begin(), sheet->hazards.end());
  all.insert(Hazard::lone_work);
  const auto dry = tending::dry_season(normals_of(book.programme), book.programme.parameters);
  if (dry.exists() && tending::dry_start(dry, day) <= day) all.insert(Hazard::smoke_and_fire);
  hazards.assign(all.begin(), all.end());
}

int seedlings_to_load(const TomorrowSheet& sheet) {
  int sum = 0;
  for (const TomorrowTask& task : sheet.tasks) {
    if (!task.gates.open) continue;
    for (const SheetSpecies& species : task.species) sum += species.to_load;
  }
  return sum;
}

void put_bring(TomorrowSheet& sheet, const FieldBook& book, const std::set<std::string>& blocks) {
  const Parameters& parameters = book.programme.parameters;
  for (const ToolCount& tool : book.tools) {
    const bool here = tool.block.empty() || blocks.contains(tool.block);
    if (tool.day != sheet.day || !here || !tool.needed) continue;
    const bool short_of = tool.there && *tool.there < *tool.needed;
    sheet.bring.push_back(
        say(short_of ? "fieldbook.bring.tool_short" : "fieldbook.bring.tool",
            {{"tool", tool.tool}, {"needed", *tool.needed}, {"there", tool.there.value_or(0)}}));
  }
  if (sheet.people) {
    sheet.bring.push_back(say("fieldbook.bring.water",
                              {{"litres", *sheet.people * parameters.value("tending.water_litres")},
                               {"people", std::int64_t{*sheet.people}}}));
  }
  if (const int load = seedlings_to_load(sheet); load > 0) {
    const double crate = parameters.value("tending.crate.seedlings");
    sheet.bring.push_back(say("fieldbook.bring.crates",
                              {{"crates", static_cast<std::int64_t>(std::ceil(load / crate))},
                               {"seedlings", std::int64_t{load}}}));
  }
}

TomorrowSheet sheet_for(const FieldBook& book, const SettledBook& settled,
                        const std::vector<CrewOrder>& orders, Date day, Date today) {
  TomorrowSheet sheet;
  sheet.stamp = stamp_for(book, today);
  sheet.day = day;
  sheet.crew_leader = orders.front().leader;
  std::set<std::string> blocks;
  for (const CrewOrder& order : orders) {
    if (order.people) sheet.people = std::max(sheet.people.value_or(0), *order.people);
    if (!order.meeting_place.empty()) sheet.meeting_place = order.meeting_place;
    if (!order.meeting_hour.empty()) sheet.meeting_hour = order.meeting_hour;
    if (!order.help.empty()) sheet.help = order.help;
    sheet.tasks.push_back(task_for(book, settled, order, day));
    if (!sheet.tasks.back().gates.open) continue;
    add_hazards(sheet.hazards, book, order, day);
    blocks.insert(order.block);
  }
  sheet.cautions = cautions_for(book, orders, day);
  const bool planting = std::any_of(orders.begin(), orders.end(), [](const CrewOrder& order) {
    return order.job == tending::Job::plant || order.job == tending::Job::refill;
  });
  if (planting && !blocks.empty()) sheet.verdict = say("fieldbook.verdict.look_first");
  put_bring(sheet, book, blocks);
  return sheet;
}

/// "B3-1121", and a letter more where the day has several of the block or one was typed already.
void number_slips(const FieldBook& book, std::vector<TomorrowSheet>& sheets) {
  std::set<std::string> used;
  for (const SlipNote& note : book.slips) used.insert(note.slip.number);
  for (TomorrowSheet& sheet : sheets) {
    const std::string day = iso_date(sheet.day);
    for (TomorrowTask& task : sheet.tasks) {
      const std::string stem = task.block_code + "-" + day.substr(5, 2) + day.substr(8, 2);
      std::string number = stem;
      for (char letter = 'b'; letter <= 'z' && used.contains(number); ++letter)
        number = stem + letter;
      used.insert(number);
      task.slip_number = number;
    }
  }
}

Date monday_of(Date day) {
  const std::chrono::weekday weekday{day};
  return day - (weekday - std::chrono::Monday);
}

}  // namespace

std::vector<TomorrowSheet> tomorrow_sheets(const FieldBook& book, const SheetWish& wish,
                                           Date today) {
  const Date day = wish.day.value_or(today + days(1));
  const std::vector<CrewOrder> orders = orders_for(book, wish, day, today);
  const SettledBook settled = settle_book(book_until(book, today));
  std::vector<std::string> leaders;
  for (const CrewOrder& order : orders) {
    if (std::find(leaders.begin(), leaders.end(), order.leader) == leaders.end())
      leaders.push_back(order.leader);
  }
  std::vector<TomorrowSheet> sheets;
  for (const std::string& leader : leaders) {
    std::vector<CrewOrder> own;
    std::copy_if(orders.begin(), orders.end(), std::back_inserter(own),
                 [&](const CrewOrder& order) { return order.leader == leader; });
    sheets.push_back(sheet_for(book, settled, own, day, today));
  }
  number_slips(book, sheets);
  return sheets;
}

std::vector<TomorrowSheet> tomorrow_sheets(const store::Store& store, const SheetWish& wish,
                                           Date today) {
  return tomorrow_sheets(load_field_book(store), wish, today);
}

std::vector<PayList> pay_lists(const store::Store& store, const SheetWish& wish, Date today) {
  const FieldBook book = load_field_book(store);
  const Date first = monday_of(wish.day.value_or(today - days(1)));
  PayList list = pay_sheet(book, first, wish.blocks);
  list.stamp = stamp_for(book, today);
  list.crew_leader = wish.crew;
  return {list};
}

WalkSheet walk_sheet(const store::Store& store, const SheetWish& wish, Date today) {
  const FieldBook book = book_until(load_field_book(store), today);
  WalkSheet sheet;
  sheet.stamp = stamp_for(book, today);
  sheet.week = wish.day ? monday_of(*wish.day) : monday_of(today + days(6));
  sheet.walker = wish.crew;
  const auto planted = planted_blocks(book, today);
  const auto wished = [&](const std::string& code) {
    return wish.blocks.empty() ||
           std::find(wish.blocks.begin(), wish.blocks.end(), code) != wish.blocks.end();
  };
  const auto walk_days = days(
      static_cast<int>(std::lround(book.programme.parameters.value("tending.walk.every_days"))));
  for (const PlantedBlock& block : planted) {
    if (!wished(block.care.block)) continue;
    WalkSheetLine line;
    line.block_code = block.care.block;
    if (const ground::Block* known = block_of(book.programme, line.block_code))
      line.site = known->site;
    line.tree_m = tending::tree_height_m(
        tending::slowest_group(block.care.planted_by_group, book.programme.parameters),
        block.care.planting_first, sheet.week, book.programme.parameters);
    for (const WalkNote& walk : book.walks) {
      if (walk.block != line.block_code) continue;
      line.last_walk = walk.day;
      if (walk.tree_m) line.tree_m = walk.tree_m;
    }
    line.due = !line.last_walk || *line.last_walk + walk_days < sheet.week + days(7);
    sheet.lines.push_back(std::move(line));
  }
  if (planted.empty()) {
    for (const ground::Block& block : book.programme.blocks) {
      if (wished(block.code)) sheet.lines.push_back({block.code, block.site, {}, {}, false});
    }
    sheet.notes.push_back(say("fieldbook.walk.nothing_planted"));
  }
  if (sheet.lines.empty()) throw Error(ErrorKind::input, "", say("plan.no_block"));
  sheet.blank_lines = 2;
  return sheet;
}

}  // namespace wildling::plan
