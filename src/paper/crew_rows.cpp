#include <algorithm>
#include <array>

#include "paper/crew_parts.hpp"
#include "paper/table.hpp"

namespace wildling::paper {
namespace {

constexpr std::size_t kGroupOf = 5;  // codes are written in fives, to be counted at a glance

// No-break space joins the codes of one five; a group is never cut at the end of a line.
std::string order_of(const plan::CrewSheet& sheet, const plan::SheetRow& row,
                     const std::string& empty_mark) {
  bool long_codes = false;
  for (const plan::SheetSpecies& species : sheet.species)
    long_codes = long_codes || species.code.size() > 1;
  std::string said;
  for (std::size_t i = 0; i < row.species_order.size(); ++i) {
    if (i > 0) said += i % kGroupOf == 0 ? "  " : (long_codes ? "\u00a0" : "");
    const std::size_t index = row.species_order[i];
    said += index < sheet.species.size() ? sheet.species[index].code : empty_mark;
  }
  return said;
}

std::string counts_of(const plan::CrewSheet& sheet, const plan::SheetRow& row) {
  std::string said;
  for (std::size_t i = 0; i < row.species_counts.size() && i < sheet.species.size(); ++i) {
    if (row.species_counts[i] == 0) continue;
    if (!said.empty()) said += "   ";
    said += sheet.species[i].code + "\u00a0" + std::to_string(row.species_counts[i]);
  }
  return said;
}

bool is_interrupted(const plan::CrewSheet& sheet) {
  return std::any_of(sheet.rows.begin(), sheet.rows.end(),
                     [](const plan::SheetRow& row) { return row.parts.size() > 1; });
}

std::vector<Column> columns(const Talk& talk, bool interrupted) {
  return {{talk("row"), 36, Align::right, true, false},
          {talk("row_tape"), 52, Align::right, false, false},
          {talk("row_first"), interrupted ? 82.0 : 54.0, Align::right, false, false},
          {talk("row_places"), 46, Align::right, true, false}};
}

// "3.2", or where the row is interrupted a line for each part: "1-9: 3.2", "10-14: 36.0".
std::string first_of(const Talk& talk, const plan::SheetRow& row) {
  if (row.parts.size() < 2) return talk.number(row.first_plant_m, 1);
  std::string said;
  for (const plan::SheetRowPart& part : row.parts) {
    if (!said.empty()) said += "\n";
    said += std::to_string(part.first_number);
    if (part.last_number > part.first_number) said += "\u2013" + std::to_string(part.last_number);
    said += ": " + talk.number(part.along_m, 1);
  }
  return said;
}

std::vector<std::string> cells(const Talk& talk, const plan::SheetRow& row) {
  return {std::to_string(row.number), talk.number(row.tape_m, 1), first_of(talk, row),
          std::to_string(row.count)};
}

void write_wide(Page& page, const plan::CrewSheet& sheet, bool order) {
  const Talk& talk = page.talk;
  std::vector<Column> heads = columns(talk, is_interrupted(sheet));
  constexpr double done = 46;
  double used = done;
  for (const Column& column : heads) used += column.width_pt;
  heads.push_back(
      {talk(order ? "row_order" : "row_counts"), page.width() - used, Align::left, false, false});
  heads.push_back({talk("row_done"), done, Align::left, false, false});
  Table table(page, heads, page.left());
  table.head();
  for (const plan::SheetRow& row : sheet.rows) {
    std::vector<std::string> line = cells(talk, row);
    line.push_back(order ? order_of(sheet, row, talk("place_empty")) : counts_of(sheet, row));
    line.emplace_back();
    table.row(line, 17);
  }
}

// Rows without species: two tables beside each other, filled downward page by page.
void write_narrow(Page& page, const plan::CrewSheet& sheet) {
  const Talk& talk = page.talk;
  std::vector<Column> heads = columns(talk, false);
  heads.push_back({talk("row_done"), 38, Align::left, false, false});
  constexpr double line_height = 17;
  std::size_t next = 0;
  while (next < sheet.rows.size()) {
    const double head = Table(page, heads, page.left()).head_height();
    if (page.room() < head + 3 * line_height) page.turn();
    const std::size_t left = sheet.rows.size() - next;
    const auto fit = static_cast<std::size_t>((page.room() - head - 1) / line_height);
    const std::size_t per_side = std::min(fit, (left + 1) / 2);
    const double top = page.y;
    double lowest = top;
    for (const double x :
         {page.left(), page.left() + page.width() - Table(page, heads, 0).width()}) {
      page.y = top;
      Table table(page, heads, x);
      if (next >= sheet.rows.size()) break;
      table.head();
      for (std::size_t i = 0; i < per_side && next < sheet.rows.size(); ++i, ++next) {
        std::vector<std::string> line = cells(talk, sheet.rows[next]);
        line.emplace_back();
        table.row(line, line_height);
      }
      lowest = std::max(lowest, page.y);
    }
    page.y = lowest;
    if (next < sheet.rows.size()) page.turn();
  }
}

}  // namespace

void write_species_key(Page& page, const plan::CrewSheet& sheet) {
  if (sheet.species.empty()) return;
  const Talk& talk = page.talk;
  page.heading(talk("species_key"), 60);
  page.paragraph(talk("species_key_note"), {}, 4);
  Table table(
      page,
      {{talk("code"), 42, Align::left, true, false},
       {talk("local_name"), 118, Align::left, false, false},
       {talk("scientific_name"), page.width() - 42 - 118 - 92 - 58 - 58, Align::left, false, true},
       {talk("group"), 92, Align::left, false, false},
       {talk("to_plant"), 58, Align::right, false, false},
       {talk("to_load"), 58, Align::right, true, false}},
      page.left());
  table.head();
  int plant = 0, load = 0;
  for (const plan::SheetSpecies& species : sheet.species) {
    plant += species.to_plant;
    load += species.to_load;
    table.row({species.code, species.local_name, species.scientific_name,
               talk("group." + group_key(species.group)), talk.number(species.to_plant, 0),
               talk.number(species.to_load, 0)});
  }
  table.row({"", talk("total"), "", "", talk.number(plant, 0), talk.number(load, 0)});
}

void write_rows(Page& page, const plan::CrewSheet& sheet) {
  const Talk& talk = page.talk;
  page.heading(talk("rows"), 60);
  if (sheet.rows.empty()) {
    page.paragraph(talk("rows_none"));
    return;
  }
  bool order = false, counts = false;
  for (const plan::SheetRow& row : sheet.rows) {
    order = order || !row.species_order.empty();
    counts = counts || !row.species_counts.empty();
  }
  page.paragraph(talk(order ? "rows_note_order" : (counts ? "rows_note_counts" : "rows_note"),
                      {{"peg", sheet.baseline.a.name}}),
                 {}, 4);
  const bool interrupted = is_interrupted(sheet);
  if (interrupted) page.paragraph(talk("rows_note_parts"), {Face::sans, 10.5, true}, 4);
  if (order || counts || interrupted) {
    write_wide(page, sheet, order);
  } else {
    write_narrow(page, sheet);
  }
}

}  // namespace wildling::paper
