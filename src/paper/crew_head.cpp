#include <algorithm>
#include <array>

#include "paper/crew_parts.hpp"
#include "paper/sketch.hpp"

namespace wildling::paper {
namespace {

constexpr Type kBold{Face::sans, 10.5, true};

// "Label  value" on one line of a two-column block of facts.
void fact(Page& page, const std::string& label, const std::string& value) {
  const Run runs[] = {{label + "  ", kBold}, {value, {Face::sans, 11}}};
  page.paragraph(std::span<const Run>(runs), 1.5, 14);
}

std::string area(const Talk& talk, const plan::CrewSheet& sheet) {
  const std::string hectares = talk.number(sheet.area_ha, 2);
  if (!sheet.area_low_ha || !sheet.area_high_ha) return talk("area", {{"area", hectares}});
  return talk("area_between", {{"area", hectares},
                               {"low", talk.number(*sheet.area_low_ha, 2)},
                               {"high", talk.number(*sheet.area_high_ha, 2)}});
}

std::string window(const Talk& talk, const plan::SheetWindow& when) {
  std::string said = when.first && when.last
                         ? talk("window", {{"first", *when.first}, {"last", *when.last}})
                         : talk("window_open");
  if (when.good_years && when.of_years)
    said += " " + talk("window_years", {{"good", std::int64_t{*when.good_years}},
                                        {"of", std::int64_t{*when.of_years}}});
  if (when.note) said += " " + talk(*when.note);
  return said;
}

std::string work(const Talk& talk, const plan::CrewSheet& sheet) {
  std::string said;
  if (sheet.crew_people) said = talk("crew_people", {{"people", std::int64_t{*sheet.crew_people}}});
  if (sheet.person_days) {
    if (!said.empty()) said += ", ";
    said += talk("person_days", {{"days", talk.number(*sheet.person_days, 1)}});
  }
  return said;
}

struct Question {
  const char* key;
  const plan::GateLine* line;
};

std::string answer(const Talk& talk, const Question& question) {
  const plan::GateLine& line = *question.line;
  if (line.natural_trees_per_ha)
    return talk("answer_trees", {{"trees", talk.number(*line.natural_trees_per_ha, 0)}});
  const bool counting = std::string_view(question.key) == "gate.natural_trees";
  if (line.answer == plan::SheetAnswer::not_asked)
    return talk(counting ? "answer_not_counted" : "answer_not_asked");
  if (line.answer == plan::SheetAnswer::yes) return talk("answer_yes");
  return talk(counting ? "answer_not_counted" : "answer_no");
}

void write_gate(Page& page, const Question& question) {
  const plan::GateLine& line = *question.line;
  const Talk& talk = page.talk;
  Canvas& canvas = page.canvas;
  constexpr double box = 10, answer_width = 100, who_width = 140;
  const double question_width = page.width() - box - 8 - answer_width - who_width - 12;
  const std::string who = line.who.empty() && !line.day ? std::string()
                          : line.day ? talk("who_when", {{"who", line.who}, {"day", *line.day}})
                                     : line.who;
  const double tall = std::max(
      {canvas.height(question_width, talk(question.key)), canvas.height(who_width, who), 13.0});
  page.need(tall + 3);
  draw_tick_box(canvas, page.left(), page.y + 2, box);
  if (line.answer != plan::SheetAnswer::not_asked)
    canvas.symbol(line.adverse ? "cross" : "tick", {page.left() + box / 2, page.y + 2 + box / 2},
                  box - 1);
  double x = page.left() + box + 8;
  canvas.text(x, page.y, question_width, talk(question.key));
  x += question_width + 6;
  canvas.text(x, page.y, answer_width, answer(talk, question), kBold);
  x += answer_width + 6;
  canvas.text(x, page.y, who_width, who);
  page.y += tall + 3;
}

// All in one paragraph, names bold: for a sheet that must stay one page.
void write_cautions_run_in(Page& page, const plan::CrewSheet& sheet) {
  std::vector<Run> runs;
  for (const plan::Hazard hazard : sheet.hazards) {
    const std::string key = "hazard." + hazard_key(hazard);
    runs.push_back({page.talk(key + ".name") + " ", kBold});
    runs.push_back({page.talk(key) + "  ", {}});
  }
  for (const Message& caution : sheet.cautions) runs.push_back({page.talk(caution) + "  ", kBold});
  runs.push_back({page.talk("cautions_defer"), {Face::sans, 10.5, false, true}});
  page.need(page.canvas.height(page.width() - 16, runs));
  page.canvas.symbol("caution", {page.left() + 6, page.y + 7}, 11);
  page.item("", runs, 2);
}

}  // namespace

std::string group_key(plan::SheetGroup group) {
  constexpr std::array keys{"pioneer", "early", "late", "unknown"};
  return keys[static_cast<std::size_t>(group)];
}

std::string job_key(plan::SheetJob job) {
  return plan::job_word(job);
}

std::string hazard_key(plan::Hazard hazard) {
  return plan::hazard_word(hazard);
}

bool job_brings_seedlings(plan::SheetJob job) {
  return job == plan::SheetJob::plant || job == plan::SheetJob::refill;
}

int seedlings_of(const plan::CrewSheet& sheet) {
  int sum = 0;
  for (const plan::SheetSpecies& species : sheet.species) sum += species.to_plant;
  return sum;
}

void write_crew_head(Page& page, const plan::CrewSheet& sheet) {
  const Talk& talk = page.talk;
  page.paragraph(talk("crew_sheet"), kBold, 0);
  page.paragraph(talk("job." + job_key(sheet.job), {{"block", sheet.block_code}}),
                 {Face::serif, 23, true}, 3);
  fact(page, talk("fact.site"), sheet.site);
  std::string ground = sheet.ground_type;
  if (sheet.slope_deg)
    ground += ", " + talk("slope", {{"slope", talk.number(*sheet.slope_deg, 0)}});
  fact(page, talk("fact.ground"), ground);
  fact(page, talk("fact.area"), area(talk, sheet));
  fact(page, talk("fact.when"), window(talk, sheet.window));
  if (sheet.gates.open && !sheet.rows.empty())
    fact(page, talk("fact.number"),
         sheet.species.empty()
             ? talk("number_rows", {{"rows", static_cast<std::int64_t>(sheet.rows.size())}})
             : talk("number_seedlings",
                    {{"seedlings", std::int64_t{seedlings_of(sheet)}},
                     {"species", static_cast<std::int64_t>(sheet.species.size())},
                     {"rows", static_cast<std::int64_t>(sheet.rows.size())}}));
  if (sheet.gates.open && (sheet.crew_people || sheet.person_days))
    fact(page, talk("fact.work"), work(talk, sheet));
  if (!sheet.crew_leader.empty()) fact(page, talk("fact.leader"), sheet.crew_leader);
}

void write_gates(Page& page, const plan::GateTicks& gates) {
  page.heading(page.talk("gates"));
  page.paragraph(page.talk("gates_note"), {}, 3);
  const std::array<Question, 4> questions{{{"gate.consent", &gates.consent},
                                           {"gate.fire_and_cattle", &gates.fire_and_cattle},
                                           {"gate.natural_trees", &gates.natural_trees_counted},
                                           {"gate.drained_peat", &gates.drained_peat}}};
  for (const Question& question : questions) write_gate(page, question);
  if (gates.open) return;
  page.space(4);
  page.paragraph(page.talk("draft_why"), kBold, 3);
  for (const Message& reason : gates.reasons) {
    const Run run{page.talk(reason), {}};
    page.item("\u2013", std::span<const Run>(&run, 1));
  }
}

void write_cautions(Page& page, const plan::CrewSheet& sheet, bool run_in) {
  if (sheet.hazards.empty() && sheet.cautions.empty()) return;
  page.heading(page.talk("cautions"), 60);
  if (run_in) return write_cautions_run_in(page, sheet);
  for (const plan::Hazard hazard : sheet.hazards) {
    const std::string key = "hazard." + hazard_key(hazard);
    const Run runs[] = {{page.talk(key + ".name") + "  ", kBold}, {page.talk(key), {}}};
    page.need(page.canvas.height(page.width() - 16, std::span<const Run>(runs)));
    page.canvas.symbol("caution", {page.left() + 6, page.y + 7}, 11);
    page.item("", std::span<const Run>(runs), 2);
  }
  for (const Message& caution : sheet.cautions) {
    const Run run{page.talk(caution), kBold};
    page.need(page.canvas.height(page.width() - 16, std::span<const Run>(&run, 1)));
    page.canvas.symbol("caution", {page.left() + 6, page.y + 7}, 11);
    page.item("", std::span<const Run>(&run, 1), 2);
  }
  page.paragraph(page.talk("cautions_defer"), {Face::sans, 10.5, false, true}, 2);
}

void write_steps(Page& page, const plan::CrewSheet& sheet) {
  const Talk& talk = page.talk;
  page.heading(talk("steps"), 40);
  int number = 0;
  const auto step = [&page, &number](const std::string& words) {
    const Run run{words, {}};
    page.item(std::to_string(++number), std::span<const Run>(&run, 1), 2);
  };
  for (int i = 1;; ++i) {
    const std::string key = "step." + job_key(sheet.job) + "." + std::to_string(i);
    if (!talk.words().has("paper." + key)) break;
    step(talk(key));
  }
  for (const Message& more : sheet.steps) step(talk(more));
}

}  // namespace wildling::paper
