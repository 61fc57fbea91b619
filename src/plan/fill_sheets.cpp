#include "plan/fill_sheets.hpp"

#include <algorithm>
#include <cmath>

#include "base/parallel.hpp"
#include "layout/assign.hpp"
#include "plan/fill_parts.hpp"
#include "plan/land.hpp"
#include "tending/norms.hpp"

namespace wildling::plan {
namespace {

constexpr double kNormal95 = 1.96;  // half width of a 95 % interval in standard deviations

SheetWindow window_of(const PlanResult& plan) {
  SheetWindow window;
  window.first = plan.window.first;
  window.last = plan.window.last;
  if (plan.window.found && plan.window.of_years > 0) {
    window.good_years = plan.window.good_years;
    window.of_years = plan.window.of_years;
  }
  if (!window.first && !plan.window.first_line.key.empty()) window.note = plan.window.first_line;
  return window;
}

// Always in the order of the list of hazards. Large animals may be met in any forest.
std::vector<Hazard> hazards_of(const BlockPart& part, bool near_water,
                               const Parameters& parameters) {
  std::vector<Hazard> hazards{Hazard::heat, Hazard::lightning, Hazard::tools, Hazard::snakes,
                              Hazard::large_animals};
  if (near_water) hazards.push_back(Hazard::water);
  if (part.block.slope_known && part.block.slope_deg > parameters.value("plan.slope_caution_deg"))
    hazards.push_back(Hazard::slope);
  return hazards;
}

std::optional<double> planting_days_of(const PlanResult& plan, const std::string& block) {
  const std::string_view pits = tending::job_name(tending::Job::dig_pits);
  const std::string_view plant = tending::job_name(tending::Job::plant);
  std::optional<double> days;
  for (const WorkPart& work : plan.works) {
    if (work.block == block && (work.job == pits || work.job == plant))
      days = days.value_or(0) + work.person_days;
  }
  return days;
}

struct Context {
  const PlanResult& plan;
  const Parameters& parameters;
  std::vector<std::string> codes;  ///< per species of the plan
};

/// @return per species of the plan its place on the sheet; 255 = not on it
std::vector<std::uint8_t> put_species(CrewSheet& sheet, const std::vector<int>& counts,
                                      const Context& context) {
  const double share = context.parameters.value("plan.spares_share");
  std::vector<std::uint8_t> place(counts.size(), layout::kEmptyPlace);
  for (std::size_t i = 0; i < counts.size(); ++i) {
    if (counts[i] == 0) continue;
    const SpeciesPart& species = context.plan.species[i];
    place[i] = static_cast<std::uint8_t>(sheet.species.size());
    sheet.species.push_back({context.codes[i], species.name, species.local_name,
                             sheet_group(species.group), counts[i], with_spares(counts[i], share)});
  }
  return place;
}

void put_row_species(SheetRow& row, const BlockLayout& laid, const layout::Row& places,
                     const std::vector<std::uint8_t>& on_sheet, std::size_t species,
                     bool with_order) {
  row.species_counts.assign(species, 0);
  for (std::uint32_t i = places.first; i < places.first + places.count; ++i) {
    const std::uint8_t byte = laid.species[i];
    const std::uint8_t shown = byte == layout::kEmptyPlace ? byte : on_sheet[byte];
    if (shown != layout::kEmptyPlace) {
      ++row.species_counts[shown];
      ++row.count;
    }
    if (with_order) row.species_order.push_back(shown);
  }
}

void put_parts(SheetRow& row, const layout::Baseline& line, const layout::RowOnTape& on_tape) {
  if (on_tape.parts < 2) return;
  for (std::uint32_t i = on_tape.first_part; i < on_tape.first_part + on_tape.parts; ++i) {
    const layout::RowPart& part = line.parts[i];
    const auto first = static_cast<int>(part.first_number);
    row.parts.push_back(
        {first, first + static_cast<int>(part.count) - 1, layout::rounded_cm(part.along_m)});
  }
}

void put_rows(CrewSheet& sheet, const BlockLayout& laid, const layout::Baseline& line,
              const std::vector<std::uint8_t>& on_sheet) {
  const bool with_order = sheet.area_ha <= kOrderMostHa;
  sheet.rows.reserve(line.rows.size());
  for (std::size_t r = 0; r < line.rows.size(); ++r) {
    const layout::Row& places = laid.places.rows[r];
    SheetRow row;
    row.number = static_cast<int>(r) + 1;
    row.tape_m = layout::rounded_cm(line.rows[r].tape_m);
    row.first_plant_m = layout::rounded_cm(line.rows[r].first_m);
    row.start = sheet_xy(laid.places.at(places.first));
    row.end = sheet_xy(laid.places.at(places.first + places.count - 1));
    put_parts(row, line, line.rows[r]);
    put_row_species(row, laid, places, on_sheet, sheet.species.size(), with_order);
    sheet.rows.push_back(std::move(row));
  }
}

void put_baseline(CrewSheet& sheet, const layout::Baseline& line, const layout::Grid& grid,
                  const BlockPart& part, const ground::Frame& frame) {
  SheetBaseline& out = sheet.baseline;
  out.a = sheet_peg("A", line.peg_a, frame);
  out.b = sheet_peg("B", line.peg_b, frame);
  out.bearing_deg = line.bearing_deg;
  out.magnetic_bearing_deg = line.bearing_magnetic_deg;
  out.length_m = line.length_m;
  out.row_bearing_deg = line.row_bearing_deg;
  out.row_magnetic_bearing_deg = line.row_bearing_magnetic_deg;
  out.spacing_m = grid.spacing_m;
  out.row_spacing_m = grid.row_spacing_m;
  out.triangular = grid.pattern == layout::Pattern::triangular;
  out.setback_edge_m = grid.setback_edge_m;
  out.setback_water_m = grid.setback_water_m;
  if (part.block.vertex_error_m > 0) out.position_error_m = part.block.vertex_error_m;
  sheet.cautions.insert(sheet.cautions.end(), line.cautions.begin(), line.cautions.end());
}

void put_place(CrewSheet& sheet, const BlockPart& part, const ground::Frame& frame,
               const Parameters& parameters) {
  sheet.block_code = part.block.code;
  sheet.site = part.block.site;
  sheet.ground_type = part.block.ground_type;
  sheet.area_ha = part.area_ha;
  if (part.area_sd_ha > 0) {
    sheet.area_low_ha = std::max(0.0, part.area_ha - kNormal95 * part.area_sd_ha);
    sheet.area_high_ha = part.area_ha + kNormal95 * part.area_sd_ha;
  }
  if (part.block.slope_known) sheet.slope_deg = part.block.slope_deg;
  const ground::XyShape shape = ground::to_xy(part.block.shape, frame);
  sheet.shape = sheet_shape(shape);
  const double near = parameters.value("plan.water_caution_m");
  for (const auto& line : water_near(part.block, shape, frame, near))
    sheet.water_lines.push_back(sheet_line(line));
}

CrewSheet sheet_of(const BlockPart& part, const Context& context) {
  const ground::Frame frame = frame_of(context.plan, part);
  CrewSheet sheet;
  sheet.job = SheetJob::plant;
  put_place(sheet, part, frame, context.parameters);
  sheet.gates = gate_ticks(part);
  sheet.window = window_of(context.plan);
  sheet.hazards = hazards_of(part, !sheet.water_lines.empty(), context.parameters);
  if (!to_be_planted(part)) return sheet;
  const auto laid = layout_of(part, frame);
  const auto line = layout::baseline(laid->shape, laid->water, laid->places,
                                     context.parameters.value("layout.corner_tolerance"),
                                     declination_of(context.parameters));
  sheet.person_days = planting_days_of(context.plan, part.block.code);
  const auto on_sheet = put_species(sheet, part.counts, context);
  if (!line) return sheet;
  put_baseline(sheet, *line, laid->places.grid, part, frame);
  put_rows(sheet, *laid, *line, on_sheet);
  return sheet;
}

}  // namespace

std::vector<std::string> planted_species_codes(const PlanResult& plan) {
  const auto planted = [](const SpeciesPart& species) { return species.planted > 0; };
  const auto count = std::count_if(plan.species.begin(), plan.species.end(), planted);
  const std::vector<std::string> codes = species_codes(static_cast<std::size_t>(count));
  std::vector<std::string> out;
  std::size_t next = 0;
  for (const SpeciesPart& species : plan.species)
    out.push_back(planted(species) ? codes[next++] : std::string());
  return out;
}

// As much as a whole share, whatever the last bit of the product says.
int with_spares(int count, double share) {
  constexpr double kRounding = 1e-9;
  return count + static_cast<int>(std::ceil(count * share - kRounding));
}

std::optional<CrewSheet> crew_sheet(const PlanResult& plan, const Parameters& parameters,
                                    const std::string& block) {
  const Context context{plan, parameters, planted_species_codes(plan)};
  for (const BlockPart& part : plan.blocks) {
    if (part.block.code == block) return sheet_of(part, context);
  }
  return {};
}

CrewSheets crew_sheets(const PlanResult& plan, const Parameters& parameters) {
  const Context context{plan, parameters, planted_species_codes(plan)};
  std::vector<const BlockPart*> shown;
  for (const BlockPart& part : plan.blocks) {
    if (!part.open || to_be_planted(part)) shown.push_back(&part);
  }
  CrewSheets sheets;
  sheets.stamp = stamp_of(plan);
  sheets.blocks.resize(shown.size());
  parallel_for(shown.size(), 1, 0, [&](std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i) sheets.blocks[i] = sheet_of(*shown[i], context);
  });
  return sheets;
}

RainSheet rain_sheet(const PlanResult& plan) {
  const Date first = make_date(year_of(plan.head.today), month_of(plan.head.today), 1);
  const Date next = add_months(first, 1);
  RainSheet sheet;
  sheet.stamp = stamp_of(plan);
  sheet.station = plan.window.station;
  sheet.year = year_of(next);
  sheet.month = month_of(next);
  return sheet;
}

}  // namespace wildling::plan
