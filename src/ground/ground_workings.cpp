#include "ground/ground_workings.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace wildling::ground {
namespace {

using In = std::span<const double>;

constexpr double kM2PerHa = 10000;

class Nodes {
 public:
  Nodes(Workings& workings, std::string at) : workings_(workings), at_(std::move(at)) {}

  std::string leaf(const std::string& name, double value, const std::string& unit, Origin origin,
                   const std::string& source = {}, const std::string& note = {}) {
    return workings_.add(
        WorkingsNode{at_ + name, label(name), value, unit, origin, {}, source, note, {}});
  }

  std::string computed(const std::string& name, double value, const std::string& unit,
                       std::vector<std::string> inputs) {
    return workings_.add(WorkingsNode{at_ + name,
                                      label(name),
                                      value,
                                      unit,
                                      Origin::computed,
                                      "ground." + name,
                                      {},
                                      {},
                                      std::move(inputs)});
  }

 private:
  static Message label(const std::string& name) { return say("ground.work." + name); }

  Workings& workings_;
  std::string at_;
};

std::string vertex_error(const Block& block, const Parameters& parameters, Workings& workings,
                         Nodes& nodes) {
  const Parameter& usual = parameters.at("ground.vertex_error_m");
  if (usual.value == block.vertex_error_m) return add_parameter(workings, usual);
  return nodes.leaf("vertex_error", block.vertex_error_m, "m", Origin::told);
}

}  // namespace

const Formulas& formulas() {
  static const Formulas all = {
      {"ground.area_sd", "area error = point error / 2 * root of the sum",
       "from A = 1/2 sum x_i (y_i+1 - y_i-1), errors of points independent of direction",
       [](In in) { return in[0] / 2 * std::sqrt(std::max(0.0, in[1])); }},
      {"ground.relative", "share = area error / area", "", [](In in) { return in[0] / in[1]; }},
      {"ground.natural_stems", "trees = trees per ha * area / 10000", "",
       [](In in) { return in[0] * in[1] / kM2PerHa; }},
      {"ground.missing", "missing per ha = enough - natural, not below 0", "",
       [](In in) { return std::max(0.0, in[0] - in[1]); }},
      {"ground.missing_stems", "missing = missing per ha * area / 10000", "",
       [](In in) { return in[0] * in[1] / kM2PerHa; }},
  };
  return all;
}

double area_sd_m2(const Block& block, const Parameters& parameters) {
  return area_sd_walked_m2(block.shape, block.vertex_error_m,
                           parameters.value("ground.vertex_error_over_m"));
}

Workings block_workings(const Block& block, const Parameters& parameters) {
  Workings workings;
  Nodes nodes(workings, "ground/" + block.code + "/");
  const double area = area_m2(block.shape);
  const std::string area_key =
      nodes.leaf("area", area, "m2", Origin::measured, "boundary of " + block.code);
  const double over = parameters.value("ground.vertex_error_over_m");
  add_parameter(workings, parameters.at("ground.vertex_error_over_m"));
  const double sum = chord_sum_m2(block.shape, over);
  const double sd = area_sd_m2(block, parameters);
  const std::string sum_key =
      nodes.leaf("chord_sum", sum, "m2", Origin::measured, "boundary of " + block.code);
  const std::string sd_key = nodes.computed(
      "area_sd", sd, "m2", {vertex_error(block, parameters, workings, nodes), sum_key});
  if (area > 0) nodes.computed("relative", sd / area, "share", {sd_key, area_key});
  const Gates& gates = block.gates;
  if (gates.natural_trees_counted.answer != Answer::yes || !gates.natural_trees_per_ha) {
    return workings;
  }
  const double natural = *gates.natural_trees_per_ha;
  const std::string natural_key =
      nodes.leaf("natural", natural, "stems/ha", Origin::measured, gates.natural_trees_counted.who);
  nodes.computed("natural_stems", natural * area / kM2PerHa, "stems", {natural_key, area_key});
  const Parameter& enough = parameters.at("ground.method.enough_natural_per_ha");
  const double missing = std::max(0.0, enough.value - natural);
  const std::string missing_key = nodes.computed("missing", missing, "stems/ha",
                                                 {add_parameter(workings, enough), natural_key});
  nodes.computed("missing_stems", missing * area / kM2PerHa, "stems", {missing_key, area_key});
  return workings;
}

}  // namespace wildling::ground
