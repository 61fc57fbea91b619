#include "plan/weather/figures.hpp"

#include <algorithm>
#include <cmath>

namespace wildling::plan::weather {
namespace {

using In = std::span<const double>;

double sum(In x) {
  double total = 0;
  for (const double v : x) total += v;
  return total;
}

double how_many(In x) {
  return static_cast<double>(x.size());
}

double product(In x) {
  double result = 1;
  for (const double v : x) result *= v;
  return result;
}

double difference(In x) {
  return x[0] - x[1];
}

double per_thousand(In x) {
  return product(x) / 1000;
}

// depth in metres, share of its volume
double in_mm(In x) {
  return 1000 * x[0] * x[1];
}

double all_open(In x) {
  return std::all_of(x.begin(), x.end(), [](double v) { return v == 1; }) ? 1 : 0;
}

// good, judged, least share; no judged year closes nothing
double years_enough(In x) {
  return x[1] == 0 || x[0] >= x[2] * x[1] ? 1 : 0;
}

// hours, hours of a day, wage of a day
double wages(In x) {
  return x[0] / x[1] * x[2];
}

double ratio(In x) {
  return x[0] / x[1];
}

// days of age, days allowed
double young_enough(In x) {
  return x[0] >= 0 && x[0] <= x[1] ? 1 : 0;
}

double mean(In x) {
  return sum(x) / static_cast<double>(x.size());
}

double per_cent(In x) {
  return 100 * x[0];
}

const char* const kOwn = "this program, docs/weather.md";

}  // namespace

Formulas weather_formulas() {
  return {{"weather.sum", "sum of all inputs", kOwn, sum},
          {"weather.count", "number of inputs", kOwn, how_many},
          {"weather.product", "product of all inputs", kOwn, product},
          {"weather.difference", "first less second", kOwn, difference},
          {"weather.per_thousand", "number / 1000 x the other inputs", kOwn, per_thousand},
          {"weather.in_mm", "1000 x depth x share", kOwn, in_mm},
          {"weather.all_open", "1 when every gate is 1, else 0", kOwn, all_open},
          {"weather.years_enough", "1 when good >= share x judged or no year was judged, else 0",
           kOwn, years_enough},
          {"weather.wages", "hours / hours of a workday x wage of a day", kOwn, wages},
          {"weather.ratio", "first / second", kOwn, ratio},
          {"weather.young_enough", "1 when 0 <= age <= days allowed, else 0", kOwn, young_enough},
          {"weather.per_cent", "100 x share", kOwn, per_cent},
          {"weather.mean", "sum / number", kOwn, mean}};
}

std::string leaf(Workings& workings, std::string key, Message label, Leaf leaf) {
  return workings.add({.key = std::move(key),
                       .label = std::move(label),
                       .value = leaf.value,
                       .unit = std::move(leaf.unit),
                       .origin = leaf.origin,
                       .formula = "",
                       .source = std::move(leaf.source),
                       .note = std::move(leaf.note),
                       .inputs = {}});
}

std::string computed(Workings& workings, std::string key, Message label, std::string unit,
                     const std::string& formula, Keys inputs) {
  static const Formulas kFormulas = weather_formulas();
  const auto found = std::find_if(kFormulas.begin(), kFormulas.end(),
                                  [&](const Formula& f) { return f.id == formula; });
  if (found == kFormulas.end())
    throw Error(ErrorKind::internal, formula, say("weather.no_formula"));
  std::vector<double> values;
  for (const std::string& input : inputs) values.push_back(value_of(workings, input));
  return workings.add({.key = std::move(key),
                       .label = std::move(label),
                       .value = found->evaluate(values),
                       .unit = std::move(unit),
                       .origin = Origin::computed,
                       .formula = formula,
                       .source = "",
                       .note = "",
                       .inputs = std::move(inputs)});
}

double value_of(const Workings& workings, const std::string& key) {
  const WorkingsNode* node = workings.find(key);
  if (node == nullptr) throw Error(ErrorKind::internal, key, say("weather.no_node"));
  return node->value;
}

std::string parameter(Workings& workings, const Parameters& parameters, std::string_view key) {
  return add_parameter(workings, parameters.at(key));
}

std::string counted(Workings& workings, std::string key, Message label, std::int64_t n,
                    std::string unit, const climate::Station& station) {
  return leaf(workings, std::move(key), std::move(label),
              {static_cast<double>(n), std::move(unit), station.origin, station.name, ""});
}

void add_renamed(Workings& into, const Workings& workings, const std::string& from,
                 const std::string& to) {
  const auto renamed = [&](const std::string& key) {
    return key.starts_with(from) ? to + key.substr(from.size()) : key;
  };
  for (WorkingsNode node : workings.nodes()) {
    node.key = renamed(node.key);
    for (std::string& input : node.inputs) input = renamed(input);
    into.add(std::move(node));
  }
}

Cell cell_of(const Workings& workings, const std::string& key, bool whole) {
  const double value = value_of(workings, key);
  if (whole) return {static_cast<std::int64_t>(std::llround(value)), key};
  return cell(value, key);
}

}  // namespace wildling::plan::weather
