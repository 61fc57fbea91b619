#include "plan/fill_parts.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "layout/code.hpp"
#include "plan/land.hpp"

namespace wildling::plan {
namespace {

SheetAnswer sheet_answer(ground::Answer answer) {
  if (answer == ground::Answer::not_asked) return SheetAnswer::not_asked;
  return answer == ground::Answer::yes ? SheetAnswer::yes : SheetAnswer::no;
}

GateLine gate_line(const ground::GateAnswer& answer, ground::Answer against) {
  GateLine line;
  line.answer = sheet_answer(answer.answer);
  line.adverse = answer.answer == against;
  line.who = answer.who;
  line.day = answer.day;
  return line;
}

// "Not counted" is a question still open, not an answer against the work.
GateLine trees_line(const ground::Gates& gates) {
  GateLine line = gate_line(gates.natural_trees_counted, ground::Answer::not_asked);
  const bool counted = line.answer == SheetAnswer::yes && gates.natural_trees_per_ha;
  line.adverse = false;
  if (counted) {
    line.natural_trees_per_ha = gates.natural_trees_per_ha;
  } else {
    line.answer = SheetAnswer::not_asked;
  }
  return line;
}

}  // namespace

ground::Frame frame_of(const PlanResult& plan, const BlockPart& part) {
  const auto site =
      std::find_if(plan.sites.begin(), plan.sites.end(),
                   [&](const SitePart& candidate) { return candidate.code == part.block.site; });
  if (site == plan.sites.end())
    throw Error(ErrorKind::internal, part.block.code,
                say("plan.sheet.no_site", {{"site", part.block.site}}));
  return ground::Frame(site->origin);
}

std::optional<BlockLayout> layout_of(const BlockPart& part, const ground::Frame& frame) {
  if (part.layout_code.empty()) return {};
  layout::StoredLayout stored = layout::decode(part.layout_code);
  BlockLayout laid;
  laid.shape = ground::to_xy(part.block.shape, frame);
  laid.water = water_near(part.block, laid.shape, frame, stored.grid.setback_water_m + 1);
  laid.places = layout::recompute(stored, laid.shape, laid.water);
  laid.species = std::move(stored.species);
  return laid;
}

std::optional<double> declination_of(const Parameters& parameters) {
  const Parameter& told = parameters.at("plan.declination_deg");
  if (told.origin == Origin::assumed) return {};
  return told.value;
}

bool to_be_planted(const BlockPart& part) {
  return part.open && part.planted > 0 && !part.layout_code.empty();
}

SheetStamp stamp_of(const PlanResult& plan) {
  return {plan.head.programme, plan.head.number, plan.head.today, plan.head.invented_figures};
}

SheetGroup sheet_group(const std::string& group) {
  if (group == "pioneer") return SheetGroup::pioneer;
  if (group == "early") return SheetGroup::early;
  return group == "late" ? SheetGroup::late : SheetGroup::unknown;
}

GateTicks gate_ticks(const BlockPart& part) {
  const ground::Gates& gates = part.block.gates;
  GateTicks ticks;
  ticks.consent = gate_line(gates.consent, ground::Answer::no);
  ticks.fire_and_cattle = gate_line(gates.fire_and_cattle, ground::Answer::no);
  ticks.natural_trees_counted = trees_line(gates);
  ticks.drained_peat = gate_line(gates.drained_peat, ground::Answer::yes);
  ticks.open = part.open;
  ticks.reasons = part.reasons;
  return ticks;
}

SheetXy sheet_xy(ground::Xy at) {
  return {at.x_m, at.y_m};
}

SheetLine sheet_line(const std::vector<ground::Xy>& line) {
  SheetLine out;
  out.reserve(line.size());
  for (const ground::Xy at : line) out.push_back(sheet_xy(at));
  return out;
}

SheetShape sheet_shape(const ground::XyShape& shape) {
  SheetShape out;
  for (const ground::XyPolygon& polygon : shape) {
    SheetPart part;
    part.outer = sheet_line(polygon.outer);
    for (const auto& hole : polygon.holes) part.holes.push_back(sheet_line(hole));
    out.push_back(std::move(part));
  }
  return out;
}

SheetPeg sheet_peg(const std::string& name, ground::Xy at, const ground::Frame& frame) {
  const ground::LonLat position = frame.to_lonlat(at);
  return {name, sheet_xy(at), {position.lon_deg, position.lat_deg}};
}

}  // namespace wildling::plan
