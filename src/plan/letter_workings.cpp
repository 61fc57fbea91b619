#include "plan/letter_workings.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/workings_build.hpp"

namespace wildling::plan {
namespace {

constexpr double kNormal95 = 1.96;  // half-width of 95 % of a normal distribution, in deviations

double sum(std::span<const double> inputs) {
  return std::accumulate(inputs.begin(), inputs.end(), 0.0);
}

double give_or_take(std::span<const double> inputs) {
  double total = 0;
  for (const double value : inputs) total = std::hypot(total, value);
  return kNormal95 * total;
}

double percent_of(std::span<const double> inputs) {
  return 100 * inputs[0] / inputs[1];
}

// ready 1, wanted 1, ready 2, wanted 2 ...
double sum_of_smaller(std::span<const double> inputs) {
  double total = 0;
  for (std::size_t i = 0; i + 1 < inputs.size(); i += 2)
    total += std::min(inputs[i], inputs[i + 1]);
  return total;
}

double largest(std::span<const double> inputs) {
  double most = 0;
  for (const double value : inputs) most = std::max(most, value);
  return most;
}

const Formulas kFormulas = {
    {"plan.give_or_take", "give or take = 1.96 x square root of the sum of squared errors",
     "95 % of a normal distribution; independent errors add in squares", give_or_take},
    {"plan.percent_of", "percent = 100 x part / all", "arithmetic", percent_of},
    {"plan.sum_of_smaller", "total = the smaller of ready and wanted, summed over the species",
     "arithmetic", sum_of_smaller},
    {"plan.largest", "the largest of all", "", largest}};

class Letter {
 public:
  explicit Letter(PlanResult& result) : result_(result) {}

  void add() {
    land();
    species();
    people();
    work("wages", say("plan.node.letter_wages"));
    work("materials", say("plan.node.letter_materials"));
  }

 private:
  void land() {
    std::vector<std::string> open, errors;
    for (const BlockPart& part : result_.blocks) {
      if (part.open) open.push_back("block/" + part.block.code + "/area");
    }
    for (const SitePart& site : result_.sites)
      errors.push_back("site/" + site.code + "/area_error");
    put("letter/area_open", say("plan.node.letter_area_open"), "ha", "plan.sum", open, sum);
    put("letter/area_error", say("plan.node.letter_area_error"), "ha", "plan.give_or_take", errors,
        give_or_take);
  }

  void species() {
    std::vector<std::string> pioneers, stock, collected;
    for (const SpeciesPart& part : result_.species) {
      if (part.group == "pioneer") pioneers.push_back("species/" + part.name + "/planted");
    }
    for (const CollectPart& part : result_.collections) {
      const std::string key = "nursery/" + part.species;
      stock.insert(stock.end(), {key + "/ready", key + "/to_field"});
      if (part.count > 0) collected.push_back(key + "/count");
    }
    put("letter/pioneers", say("plan.node.letter_pioneers"), "seedlings", "plan.sum", pioneers,
        sum);
    const WorkingsNode* planted = result_.workings.find("programme/planted");
    if (planted != nullptr && planted->value > 0) {
      put("letter/pioneer_percent", say("plan.node.letter_pioneer_percent"), "%", "plan.percent_of",
          {"letter/pioneers", "programme/planted"}, percent_of);
    }
    put("letter/ready", say("plan.node.letter_ready"), "seedlings", "plan.sum_of_smaller", stock,
        sum_of_smaller);
    put("letter/to_collect", say("plan.node.letter_to_collect"), "", "plan.sum", collected, sum);
  }

  void people() {
    WorkingsBuilder build(result_.workings);
    std::vector<std::string> weeks;
    for (const WeekPart& week : result_.weeks) {
      if (!(week.work_days > 0)) continue;
      const std::string at = "letter/week/" + iso_date(week.first) + "/";
      const auto label = [&](const char* what) {
        return say(std::string("plan.node.week_") + what, {{"day", week.first}});
      };
      const std::string days =
          build.leaf(at + "work_days", label("work_days"), week.work_days, "days", Origin::measured,
                     "rest days and rain days of the log taken out");
      const std::string work =
          build.leaf(at + "person_days", label("person_days"), week.person_days, "person-days",
                     Origin::documented,
                     "carrying and planting spread evenly over the window; docs/tending.md");
      weeks.push_back(build.computed(at + "people", label("people"), week.people, "people",
                                     "tending.people", {days, work}));
    }
    if (!weeks.empty())
      put("letter/people", say("plan.node.letter_people"), "people", "plan.largest", weeks,
          largest);
  }

  // Every job of every block has its own node of wages, some of material.
  void work(const std::string& kind, const Message& label) {
    std::vector<std::string> inputs;
    const std::string ending = "/" + kind;
    for (const WorkingsNode& node : result_.workings.nodes()) {
      if (node.key.rfind("tending/", 0) == 0 && node.key.size() > ending.size() &&
          node.key.compare(node.key.size() - ending.size(), ending.size(), ending) == 0) {
        inputs.push_back(node.key);
      }
    }
    put("letter/" + kind, label, "money", "plan.sum", inputs, sum);
  }

  // Nothing is added where an input has no node: then the letter does not show the number either.
  void put(const std::string& key, const Message& label, const std::string& unit,
           const std::string& formula, const std::vector<std::string>& inputs,
           double (*evaluate)(std::span<const double>)) {
    std::vector<double> values;
    for (const std::string& input : inputs) {
      const WorkingsNode* node = result_.workings.find(input);
      if (node == nullptr) return;
      values.push_back(node->value);
    }
    result_.workings.add({.key = key,
                          .label = label,
                          .value = evaluate(values),
                          .unit = unit,
                          .origin = Origin::computed,
                          .formula = formula,
                          .source = {},
                          .note = {},
                          .inputs = inputs});
  }

  PlanResult& result_;
};

}  // namespace

void add_letter_workings(PlanResult& result) {
  Letter(result).add();
}

const Formulas& letter_formulas() {
  return kFormulas;
}

}  // namespace wildling::plan
