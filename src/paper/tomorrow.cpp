#include <algorithm>
#include <mutex>

#include "base/error.hpp"
#include "paper/crew_parts.hpp"
#include "paper/fonts.hpp"
#include "paper/paper.hpp"
#include "paper/table.hpp"
#include "plan/chat_text.hpp"

namespace wildling::paper {
namespace {

constexpr Type kBold{Face::sans, 10.5, true};

int places_of(const plan::TomorrowTask& task) {
  int sum = 0;
  for (const plan::SheetRow& row : task.rows) sum += row.count;
  return sum;
}

std::string job_of(const Talk& talk, const plan::TomorrowTask& task) {
  return talk("job." + job_key(task.job), {{"block", task.block_code}});
}

void fact(Page& page, const std::string& label, const std::string& value) {
  if (value.empty()) return;
  const Run runs[] = {{label + "  ", kBold}, {value, {}}};
  page.paragraph(std::span<const Run>(runs), 2, 14);
}

void items(Page& page, const std::string& heading, const std::vector<Message>& messages) {
  if (messages.empty()) return;
  fact(page, heading, page.talk.sentences(messages));
}

std::string gate_ticks(const Talk& talk, const plan::GateTicks& gates) {
  std::string said = talk("ticks_all");
  if (gates.consent.day)
    said += " " + talk("ticks_consent", {{"who", gates.consent.who}, {"day", *gates.consent.day}});
  return said;
}

std::string species_of(const plan::TomorrowTask& task) {
  std::string said;
  for (const plan::SheetSpecies& species : task.species) {
    if (!said.empty()) said += "   ";
    said += species.code + "\u00a0" +
            (species.local_name.empty() ? species.scientific_name : species.local_name) + "\u00a0" +
            std::to_string(species.to_load);
  }
  return said;
}

// "row: places", to be ticked off.
std::string rows_of(const plan::TomorrowTask& task) {
  std::string said;
  for (const plan::SheetRow& row : task.rows) {
    if (!said.empty()) said += "   ";
    said += std::to_string(row.number) + ":\u00a0" + std::to_string(row.count);
  }
  return said;
}

void write_task(Page& page, const plan::TomorrowTask& task) {
  const Talk& talk = page.talk;
  page.heading(talk("tomorrow_task", {{"job", job_of(talk, task)},
                                      {"rows", static_cast<std::int64_t>(task.rows.size())},
                                      {"places", std::int64_t{places_of(task)}}}),
               40);
  std::string said = gate_ticks(talk, task.gates);
  if (task.person_days)
    said += " " + talk("tomorrow_days", {{"days", talk.number(*task.person_days, 1)}});
  const Run ticks{said, {}};
  page.need(30);
  draw_tick_box(page.canvas, page.left(), page.y + 2, 10);
  page.canvas.symbol("tick", {page.left() + 5, page.y + 7}, 9);
  page.item("", std::span<const Run>(&ticks, 1), 2);
  fact(page, talk("tomorrow_rows"), rows_of(task));
  if (job_brings_seedlings(task.job)) fact(page, talk("species_key"), species_of(task));
  for (const Message& note : task.notes) page.paragraph(talk(note));
}

void write_head(Page& page, const plan::TomorrowSheet& sheet) {
  const Talk& talk = page.talk;
  page.paragraph(talk("tomorrow"), kBold, 0);
  page.paragraph(talk("tomorrow_day", {{"day", sheet.day}}), {Face::serif, 21, true}, 2);
  if (sheet.verdict) page.paragraph(talk(*sheet.verdict), {Face::serif, 12.5, true}, 4);
  std::string who = sheet.crew_leader;
  if (sheet.people)
    who +=
        (who.empty() ? "" : ", ") + talk("crew_people", {{"people", std::int64_t{*sheet.people}}});
  std::string where = sheet.meeting_place;
  if (!where.empty() && !sheet.meeting_hour.empty())
    where = talk("tomorrow_at", {{"hour", sheet.meeting_hour}, {"place", sheet.meeting_place}});
  std::vector<Run> runs;
  if (!who.empty())
    runs.insert(runs.end(), {{talk("fact.leader") + "  ", kBold}, {who + "     ", {}}});
  if (!where.empty()) runs.insert(runs.end(), {{talk("tomorrow_meet") + "  ", kBold}, {where, {}}});
  if (!runs.empty()) page.paragraph(runs, 2, 14);
  if (sheet.help.empty()) {
    page.blank(page.left(), page.width(), talk("tomorrow_help"), page.y);
    page.space(17);
  } else {
    fact(page, talk("tomorrow_help"), sheet.help);
  }
}

// The caution about heat tells the usual rest already.
void write_rest(Page& page, const plan::TomorrowSheet& sheet) {
  const Talk& talk = page.talk;
  const bool told = std::find(sheet.hazards.begin(), sheet.hazards.end(), plan::Hazard::heat) !=
                    sheet.hazards.end();
  std::string said = told ? "" : talk("tomorrow_rest_usual");
  if (!sheet.rest_plan.empty()) said += (said.empty() ? "" : " ") + talk.sentences(sheet.rest_plan);
  fact(page, talk("tomorrow_rest"), said);
}

void write_not_tomorrow(Page& page, const plan::TomorrowSheet& sheet) {
  const Talk& talk = page.talk;
  for (const plan::TomorrowTask& task : sheet.tasks) {
    if (task.gates.open) continue;
    fact(page, talk("tomorrow_not"),
         talk("hold",
              {{"block", task.block_code}, {"reasons", talk.sentences(task.gates.reasons)}}) +
             " " + talk("draft") + ".");
  }
}

void write_slip(Page& page, const plan::TomorrowSheet& sheet) {
  plan::CrewSheet slip;  // the slip of the first open block; further blocks bring the slip of their
                         // own crew sheet
  for (const plan::TomorrowTask& task : sheet.tasks) {
    if (!task.gates.open) continue;
    slip.job = task.job;
    slip.block_code = task.block_code;
    slip.species = task.species;
    slip.slip_number = task.slip_number;
    write_return_slip(page, slip, sheet.stamp);
  }
}

int write_sheet(Canvas& canvas, const Talk& talk, const plan::TomorrowSheet& sheet, int pages,
                bool tight) {
  PageFrame frame;
  frame.stamp = sheet.stamp;
  frame.running_title = talk("tomorrow_day", {{"day", sheet.day}});
  frame.pages = pages;
  Page page(canvas, talk, frame);
  write_head(page, sheet);
  plan::CrewSheet cautions;
  cautions.hazards = sheet.hazards;
  cautions.cautions = sheet.cautions;
  write_cautions(page, cautions, tight);
  write_rest(page, sheet);
  items(page, talk("tomorrow_access"), sheet.access);
  items(page, talk("tomorrow_bring"), sheet.bring);
  write_not_tomorrow(page, sheet);
  for (const plan::TomorrowTask& task : sheet.tasks)
    if (task.gates.open) write_task(page, task);
  write_slip(page, sheet);
  return page.number();
}

}  // namespace

std::string write_tomorrow_sheets(const std::vector<plan::TomorrowSheet>& sheets,
                                  const Words& words) {
  if (sheets.empty()) throw Error(ErrorKind::usage, "", say("paper.nothing_to_print"));
  const std::scoped_lock lock(drawing_mutex());
  const Talk talk(words);
  Canvas canvas = Canvas::pdf(kA4Short, kA4Long, sheets.front().stamp.made_on, talk("tomorrow"));
  for (const plan::TomorrowSheet& sheet : sheets) {
    const auto pages_when = [&](bool tight) {
      Canvas scratch = Canvas::blank();
      return write_sheet(scratch, talk, sheet, 0, tight);
    };
    const int airy = pages_when(false), tight = airy > 1 ? pages_when(true) : airy;
    write_sheet(canvas, talk, sheet, std::min(airy, tight), tight < airy);
    canvas.next_page();
  }
  return canvas.finish();
}

std::string tomorrow_text(const plan::TomorrowSheet& sheet, const Words& words) {
  return plan::chat_text(sheet, words);
}

}  // namespace wildling::paper
