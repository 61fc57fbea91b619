#include "export/rules.hpp"

#include <algorithm>
#include <cmath>

#include "base/csv.hpp"
#include "base/error.hpp"

namespace wildling::exports {

std::string_view sensitive_name(Sensitive kind) {
  switch (kind) {
    case Sensitive::names:
      return "names";
    case Sensitive::rights:
      return "rights";
    case Sensitive::mother_trees:
      return "mother_trees";
    case Sensitive::nests:
      return "nests";
    case Sensitive::incident_places:
      return "incident_places";
  }
  return "";
}

bool ExportRules::allows(Sensitive kind) const {
  switch (kind) {
    case Sensitive::names:
      return names;
    case Sensitive::rights:
      return rights;
    case Sensitive::mother_trees:
      return mother_trees;
    case Sensitive::nests:
      return nests;
    case Sensitive::incident_places:
      return incident_places;
  }
  return false;
}

void check_rules(const ExportRules& rules) {
  const bool any =
      rules.names || rules.rights || rules.mother_trees || rules.nests || rules.incident_places;
  if (any && trimmed(rules.reason).empty())
    throw Error(ErrorKind::usage, "reason", say("export.reason_missing"));
  if (!(rules.coarsen_deg >= 0.001 && rules.coarsen_deg <= 1)) {
    throw Error(ErrorKind::usage, "coarsen_deg",
                say("export.coarsening_outside", {{"value", rules.coarsen_deg}}));
  }
}

namespace {

double middle_of_cell(double value_deg, double cell_deg, double limit_deg) {
  const double middle = (std::floor(value_deg / cell_deg) + 0.5) * cell_deg;
  return std::clamp(std::round(middle * 1e7) / 1e7, -limit_deg, limit_deg);
}

}  // namespace

ground::LonLat coarsened(ground::LonLat position, double cell_deg) {
  return {.lon_deg = middle_of_cell(position.lon_deg, cell_deg, 180),
          .lat_deg = middle_of_cell(position.lat_deg, cell_deg, 90)};
}

double coarsening_error_m(double cell_deg) {
  constexpr double kMetresPerDegree = 111'319.5;  // of longitude on the equator of WGS 84
  return cell_deg * kMetresPerDegree * std::sqrt(0.5);
}

bool is_open(const GateBook& gates, std::string_view block) {
  const auto it = gates.find(block);
  return it != gates.end() && it->second.open;
}

std::vector<std::string> open_blocks(std::span<const std::string> blocks, const GateBook& gates) {
  std::vector<std::string> out;
  for (const std::string& block : blocks) {
    if (is_open(gates, block)) out.push_back(block);
  }
  return out;
}

namespace {

std::string_view use_name(Use use) {
  switch (use) {
    case Use::office:
      return "office";
    case Use::seed_list:
      return "seed_list";
    case Use::planting_list:
      return "planting_list";
    case Use::crew_list:
      return "crew_list";
  }
  return "";
}

std::string reasons_of(const GateBook& gates, const std::string& block, const Words& words) {
  const auto it = gates.find(block);
  std::string out = block + ":";
  if (it == gates.end() || it->second.reasons.empty())
    return out + " " + words.text("export.gates_not_asked");
  for (const Message& reason : it->second.reasons) out += " " + words.text(reason);
  return out;
}

}  // namespace

void require_open(Use use, std::span<const std::string> blocks, const GateBook& gates,
                  const Words& words) {
  if (use == Use::office) return;
  if (blocks.empty()) throw Error(ErrorKind::usage, "blocks", say("export.list_names_no_block"));
  std::string closed;
  std::string reasons;
  std::int64_t count = 0;
  for (const std::string& block : blocks) {
    if (is_open(gates, block)) continue;
    ++count;
    closed += (closed.empty() ? "" : ", ") + block;
    reasons += (reasons.empty() ? "" : " ") + reasons_of(gates, block, words);
  }
  if (count == 0) return;
  throw Error(ErrorKind::infeasible, closed,
              say("export.gates_closed", {{"list", std::string(use_name(use))},
                                          {"blocks", closed},
                                          {"count", count},
                                          {"reasons", reasons}}));
}

std::string draft_mark(const Words& words) {
  return words.text("export.draft_not_for_crews");
}

}  // namespace wildling::exports
