#include "climate/paired_workings.hpp"

#include <cmath>

#include <fmt/format.h>

#include "climate/climate_workings.hpp"
#include "climate/nodes.hpp"
#include "stat/student.hpp"

namespace wildling::climate {
namespace {

using detail::In;
using detail::Keys;

double sum(In x) {
  double total = 0;
  for (const double v : x) total += v;
  return total;
}

void add_difference(Workings& w, const char* what, const char* unit, const PairedDifference& d) {
  const Parameters none;
  const detail::Nodes n{w, none};
  const std::string key = fmt::format("climate/paired/{}/", what);
  const auto label = [&](const char* name) { return say(name, {{"what", what}}); };
  Keys means, days;
  for (const PairedBlock& block : d.parts) {
    const auto block_label = [&](const char* name) {
      return say(name, {{"what", what}, {"first", block.first}});
    };
    means.push_back(n.leaf(key + "block/" + iso_date(block.first),
                           block_label("climate.node.paired_block"), block.mean, unit,
                           Origin::measured, "both stations' logs"));
    days.push_back(n.leaf(key + "block_days/" + iso_date(block.first),
                          block_label("climate.node.paired_block_days"), block.days, "days",
                          Origin::measured, "both stations' logs"));
  }
  n.computed(key + "blocks", label("climate.node.paired_blocks"), d.blocks, "", "climate.how_many",
             means);
  n.computed(key + "days", label("climate.node.paired_days"), d.days, "days", "climate.sum", days);
  n.computed(key + "mean", label("climate.node.paired_mean"), d.mean, unit, "climate.mean", means);
  n.computed(key + "low", label("climate.node.paired_low"), d.low, unit, "climate.student_low",
             means);
  n.computed(key + "high", label("climate.node.paired_high"), d.high, unit, "climate.student_high",
             means);
}

}  // namespace

void add_paired_workings(Workings& w, const PairedResult& result) {
  if (result.tmax_c) add_difference(w, "tmax", "degC", *result.tmax_c);
  if (result.vpd_kpa) add_difference(w, "vpd", "kPa", *result.vpd_kpa);
}

namespace detail {

void add_paired_formulas(Formulas& f) {
  const char* student = "Student (1908), Biometrika 6:1-25";
  f.push_back({"climate.student_low", "mean - t(0.975, n - 1) s / sqrt(n)", student,
               [](In x) { return sum(x) / static_cast<double>(x.size()) - student_reach(x); }});
  f.push_back({"climate.student_high", "mean + t(0.975, n - 1) s / sqrt(n)", student,
               [](In x) { return sum(x) / static_cast<double>(x.size()) + student_reach(x); }});
}

}  // namespace detail
}  // namespace wildling::climate
