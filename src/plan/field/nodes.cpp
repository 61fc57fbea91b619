#include "plan/field/nodes.hpp"

#include <algorithm>

#include "base/workings_build.hpp"
#include "tending/norms.hpp"

namespace wildling::plan {
namespace {

using In = std::span<const double>;

/// hours of a full day, then hours and wage of a day by turns
double pay_sum(In in) {
  double sum = 0;
  for (std::size_t i = 1; i + 1 < in.size(); i += 2) sum += in[i] / in[0] * in[i + 1];
  return sum;
}

}  // namespace

std::string FieldNodes::leaf(const std::string& key, Message label, double value,
                             const std::string& unit, Origin origin, const std::string& source) {
  return WorkingsBuilder(workings_).leaf(key, std::move(label), value, unit, origin, source);
}

std::string FieldNodes::node(const std::string& key, Message label, double value,
                             const std::string& unit, const std::string& formula,
                             std::vector<std::string> inputs) {
  return WorkingsBuilder(workings_).computed(key, std::move(label), value, unit, formula,
                                             std::move(inputs));
}

std::string FieldNodes::parameter(const Parameters& parameters, const std::string& key) {
  return add_parameter(workings_, parameters.at(key));
}

Formulas field_book_formulas() {
  return {
      {"field.pay", "pay = sum of hours / hours of a full day x wage of a day", "arithmetic",
       pay_sum},
      {"field.days", "person-days = hours / hours of a full day", "arithmetic",
       [](In in) { return in[0] / in[1]; }},
      {"field.open", "open = sent - planted - dead - returned", "arithmetic",
       [](In in) { return in[0] - in[1] - in[2] - in[3]; }},
      {"field.left", "left = places - planted", "arithmetic", [](In in) { return in[0] - in[1]; }},
      {"field.ring_left", "uncut share = 1 - trees per hectare x pi x diameter^2 / 4 / 10,000",
       "area of a circle", [](In in) { return 1 - tending::ring_share(in[0], in[1]); }},
      {"field.per", "a / b", "arithmetic", [](In in) { return in[0] / in[1]; }},
      {"field.product", "a x b", "arithmetic", [](In in) { return in[0] * in[1]; }},
  };
}

}  // namespace wildling::plan
