#include <algorithm>
#include <array>
#include <string_view>

#include "paper/crew_parts.hpp"

namespace wildling::paper {
namespace {

constexpr Type kBold{Face::sans, 10.5, true};
constexpr double kLine = 19;  // height of a line to write on
constexpr double kSpeciesLine = 17.5;
constexpr double kCode = 40;       // width of the code column
constexpr std::size_t kSides = 3;  // species tables beside each other
constexpr std::array<std::string_view, 6> kPlantFaults{"bag", "shallow", "bent",
                                                       "air", "walls",   "dry"};
constexpr std::array<std::string_view, 3> kTendFaults{"cut", "missed", "late"};

double species_height(const plan::CrewSheet& sheet) {
  if (!job_brings_seedlings(sheet.job) || sheet.species.empty()) return 0;
  const std::size_t lines = (sheet.species.size() + 1 + kSides - 1) / kSides;  // + total
  return 31 + static_cast<double>(lines) * kSpeciesLine + 8;
}

std::size_t fault_count(const plan::CrewSheet& sheet) {
  return job_brings_seedlings(sheet.job) ? kPlantFaults.size() : kTendFaults.size();
}

// Faults beside each other; those of tending have longer names.
std::size_t fault_columns(const plan::CrewSheet& sheet) {
  return job_brings_seedlings(sheet.job) ? 3 : 2;
}

std::vector<Run> slip_title(const Talk& talk, const plan::CrewSheet& sheet,
                            const plan::SheetStamp& stamp) {
  const std::string job = talk("job." + job_key(sheet.job), {{"block", sheet.block_code}});
  const std::string number = sheet.slip_number.empty() ? "" : " " + sheet.slip_number;
  return {{talk("slip") + number + ": " +
               talk("slip_of", {{"plan", std::int64_t{stamp.plan_number}}, {"job", job}}),
           {Face::sans, 12.5, true}},
          {"   " + talk("slip_how"), {}}};
}

double slip_height(const plan::CrewSheet& sheet, double title) {
  const std::size_t columns = fault_columns(sheet);
  const double faults =
      18 + kLine * static_cast<double>((fault_count(sheet) + columns - 1) / columns);
  return 16 + title + 4 + 2 * kLine + species_height(sheet) + faults + 3 * kLine + 3;
}

void scissor_line(Page& page) {
  page.canvas.symbol("scissors", {page.left() + 7, page.y + 6}, 14);
  page.canvas.line({page.left() + 18, page.y + 6}, {page.left() + page.width(), page.y + 6},
                   {1.2, kInk, {7, 4}});
  page.y += 16;
}

void blanks(Page& page, const std::vector<std::string>& labels) {
  const double gap = 10;
  const double wide = (page.width() - gap * static_cast<double>(labels.size() - 1)) /
                      static_cast<double>(labels.size());
  double x = page.left();
  for (const std::string& label : labels) {
    page.blank(x, wide, label, page.y + 3);
    x += wide + gap;
  }
  page.y += kLine;
}

struct SlipColumns {
  double code = kCode, cell = 0;
};

void slip_line(Page& page, double x, double y, double wide, const std::string& code, bool strong) {
  const SlipColumns columns{kCode, (wide - kCode) / 3};
  page.canvas.text(x + 3, y + 2, columns.code, code, kBold);
  page.canvas.frame({x, y, wide, kSpeciesLine}, {0.6, kInk, {}});
  for (int i = 0; i < 3; ++i)
    page.canvas.line({x + columns.code + i * columns.cell, y},
                     {x + columns.code + i * columns.cell, y + kSpeciesLine},
                     {strong ? 1.2 : 0.6, kInk, {}});
}

void slip_head(Page& page, double x, double y, double wide) {
  const Talk& talk = page.talk;
  const double cell = (wide - kCode) / 3;
  constexpr Type type{Face::sans, 9.5, true};
  page.canvas.text(x, y, kCode + 2, talk("code"), type);
  int i = 0;
  for (const char* key : {"slip_planted", "slip_returned", "slip_dead"})
    page.canvas.text(x + kCode + cell * i++ + 1, y, cell, talk(key), type);
}

void species_table(Page& page, const plan::CrewSheet& sheet) {
  if (!job_brings_seedlings(sheet.job) || sheet.species.empty()) return;
  std::vector<std::string> codes;
  for (const plan::SheetSpecies& species : sheet.species) codes.push_back(species.code);
  codes.push_back(page.talk("total_short"));
  const std::size_t lines = (codes.size() + kSides - 1) / kSides;
  const double gap = 10, wide = (page.width() - gap * (kSides - 1)) / kSides;
  page.y += 3;
  for (std::size_t side = 0; side < kSides && side * lines < codes.size(); ++side) {
    const double x = page.left() + static_cast<double>(side) * (wide + gap);
    slip_head(page, x, page.y, wide);
    for (std::size_t i = 0; i < lines && side * lines + i < codes.size(); ++i) {
      const std::size_t index = side * lines + i;
      slip_line(page, x, page.y + 28 + static_cast<double>(i) * kSpeciesLine, wide, codes[index],
                index + 1 == codes.size());
    }
  }
  page.y += 28 + static_cast<double>(lines) * kSpeciesLine + 8;
}

template <std::size_t N>
void faults(Page& page, const std::array<std::string_view, N>& keys, const std::string& head,
            std::size_t columns) {
  page.y += page.canvas.text(page.left(), page.y, page.width(), head) + 3;
  const double wide = page.width() / static_cast<double>(columns);
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const double x = page.left() + static_cast<double>(i % columns) * wide;
    draw_tick_box(page.canvas, x, page.y + 3, 10);
    page.blank(x + 16, wide - 24, page.talk("fault." + std::string(keys[i])), page.y + 1);
    if (i % columns + 1 == columns || i + 1 == keys.size()) page.y += kLine;
  }
}

}  // namespace

void write_return_slip(Page& page, const plan::CrewSheet& sheet, const plan::SheetStamp& stamp) {
  const Talk& talk = page.talk;
  const std::vector<Run> title = slip_title(talk, sheet, stamp);
  const double tall = slip_height(sheet, page.canvas.height(page.width(), title));
  page.need(tall + 2);
  page.y = page.bottom() - tall;
  scissor_line(page);
  page.y += page.canvas.text(page.left(), page.y, page.width(), title) + 4;
  blanks(page, {talk("slip_date"), talk("slip_from"), talk("slip_to"), talk("slip_people")});
  if (job_brings_seedlings(sheet.job)) {
    blanks(page, {talk("slip_rain"), talk("slip_moist"), talk("slip_checked")});
    species_table(page, sheet);
    faults(page, kPlantFaults, talk("slip_faults"), fault_columns(sheet));
  } else {
    blanks(page, {talk("slip_rows_done"), talk("slip_rows_left")});
    faults(page, kTendFaults, talk("slip_faults_tending"), fault_columns(sheet));
  }
  // What is planted as printed needs no count; other rows are told with the remarks.
  if (job_brings_seedlings(sheet.job)) {
    blanks(page, {talk("slip_rows_done"), talk("slip_remarks")});
  } else {
    blanks(page, {talk("slip_remarks")});
  }
  blanks(page, {talk("slip_incident")});
  blanks(page, {talk("slip_leader"), talk("slip_signature")});
}

}  // namespace wildling::paper
