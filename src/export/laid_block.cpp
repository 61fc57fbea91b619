#include "export/laid_block.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "layout/assign.hpp"

namespace wildling::exports {
namespace {

Column plain(const char* name) {
  return {.name = name, .holds = Holds::plain, .sensitive = {}};
}

std::vector<std::string> codes(std::span<const LaidBlock> blocks) {
  std::vector<std::string> out;
  for (const LaidBlock& block : blocks) out.push_back(block.code);
  return out;
}

Table table_of(const char* name, Use use, std::span<const LaidBlock> blocks,
               std::vector<Column> columns) {
  Table table{.name = name, .use = use, .blocks = codes(blocks), .columns = {}, .rows = {}};
  table.columns.push_back({.name = "block", .holds = Holds::block, .sensitive = {}});
  for (Column& column : columns) table.columns.push_back(std::move(column));
  return table;
}

std::int64_t places_on(const LaidBlock& block) {
  return block.places == nullptr ? 0 : static_cast<std::int64_t>(block.places->size());
}

bool has_species(const LaidBlock& block) {
  return block.places != nullptr && block.species.size() == block.places->size();
}

// "1-9: 0.00; 10-14: 36.00": where the tape starts again behind a gap.
std::string parts_text(const layout::Baseline& baseline, const layout::RowOnTape& row) {
  std::string text;
  for (std::uint32_t i = row.first_part; i < row.first_part + row.parts; ++i) {
    const layout::RowPart& part = baseline.parts[i];
    text += fmt::format("{}{}-{}: {:.2f}", text.empty() ? "" : "; ", part.first_number,
                        part.first_number + part.count - 1, layout::rounded_cm(part.along_m));
  }
  return text;
}

}  // namespace

GateBook gates_of(std::span<const LaidBlock> blocks) {
  GateBook gates;
  for (const LaidBlock& block : blocks) gates[block.code] = block.gate;
  return gates;
}

std::int64_t planted_on(const LaidBlock& block) {
  if (!has_species(block)) return 0;
  return std::count_if(block.species.begin(), block.species.end(),
                       [](std::uint8_t s) { return s != layout::kEmptyPlace; });
}

Table blocks_table(std::span<const LaidBlock> blocks) {
  Table table = table_of("blocks", Use::office, blocks,
                         {plain("site"), plain("ground_type"), plain("area_ha"), plain("places"),
                          plain("planted"), plain("empty")});
  for (const LaidBlock& block : blocks) {
    const std::int64_t places = places_on(block);
    const std::int64_t planted = planted_on(block);
    TableRow row;
    row.cells = {
        block.code,   block.site, block.ground_type,     ground::area_m2(block.shape) / 10'000,
        Cell(places), planted,    Cell(places - planted)};
    table.rows.push_back(std::move(row));
  }
  return table;
}

Table planting_table(std::span<const LaidBlock> blocks, std::span<const std::string> species) {
  Table table = table_of("planting", Use::planting_list, blocks,
                         {plain("row"), plain("species"), plain("seedlings")});
  for (const LaidBlock& block : blocks) {
    if (!has_species(block)) continue;
    for (std::size_t r = 0; r < block.places->rows.size(); ++r) {
      const std::vector<int> counts =
          layout::counts_in_row(*block.places, block.species, r, species.size());
      for (std::size_t s = 0; s < counts.size(); ++s) {
        if (counts[s] == 0) continue;
        TableRow row;
        row.cells = {block.code, static_cast<std::int64_t>(r + 1), species[s],
                     std::int64_t{counts[s]}};
        table.rows.push_back(std::move(row));
      }
    }
  }
  return table;
}

Table rows_table(std::span<const LaidBlock> blocks) {
  Table table = table_of("rows", Use::crew_list, blocks,
                         {plain("row"), plain("tape_m"), plain("first_m"), plain("last_m"),
                          plain("places"), plain("planted"), plain("parts_m")});
  for (const LaidBlock& block : blocks) {
    if (!has_species(block) || block.baseline == nullptr) continue;
    for (std::size_t r = 0; r < block.baseline->rows.size(); ++r) {
      const layout::RowOnTape& line = block.baseline->rows[r];
      const auto begin = block.species.begin() + block.places->rows[r].first;
      const std::int64_t planted = std::count_if(
          begin, begin + line.count, [](std::uint8_t s) { return s != layout::kEmptyPlace; });
      TableRow row;
      row.cells = {block.code,
                   static_cast<std::int64_t>(r + 1),
                   layout::rounded_cm(line.tape_m),
                   layout::rounded_cm(line.first_m),
                   layout::rounded_cm(line.last_m),
                   std::int64_t{line.count},
                   planted,
                   parts_text(*block.baseline, line)};
      table.rows.push_back(std::move(row));
    }
  }
  return table;
}

std::vector<LaidBlock> open_only(std::span<const LaidBlock> blocks) {
  std::vector<LaidBlock> out;
  for (const LaidBlock& block : blocks) {
    if (block.gate.open) out.push_back(block);
  }
  return out;
}

}  // namespace wildling::exports
