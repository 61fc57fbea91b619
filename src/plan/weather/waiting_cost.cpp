#include "plan/weather/waiting_cost.hpp"

namespace wildling::plan::weather {
namespace {

using climate::PlantVerdict;

// Seedlings ready by the species list; empty when nobody said.
std::optional<std::string> ready_node(Workings& w, const Programme& programme) {
  Keys keys;
  for (const species::Candidate& candidate : programme.candidates) {
    const std::string& name = candidate.species.scientific_name;
    const std::string key = "weather/stock/ready/" + name;
    if (!candidate.use || !candidate.stock.seedlings_ready || w.find(key) != nullptr) continue;
    keys.push_back(leaf(w, key, say("weather.node.ready_of", {{"species", name}}),
                        {static_cast<double>(*candidate.stock.seedlings_ready), "seedlings",
                         Origin::told, candidate.stock.source, ""}));
  }
  if (keys.empty()) return {};
  return computed(w, "weather/stock/ready", say("weather.node.ready"), "seedlings", "weather.sum",
                  keys);
}

// Price of all that stand ready; empty when a price is not known.
std::optional<std::string> worth_node(Workings& w, const Programme& programme) {
  Keys parts;
  for (const species::Candidate& candidate : programme.candidates) {
    const std::string& name = candidate.species.scientific_name;
    if (!candidate.use || candidate.stock.seedlings_ready.value_or(0) == 0) continue;
    if (!candidate.stock.price_per_seedling) return {};
    const std::string price = leaf(
        w, "weather/stock/price/" + name, say("plan.node.price", {{"species", name}}),
        {*candidate.stock.price_per_seedling, "money", Origin::told, candidate.stock.source, ""});
    parts.push_back(computed(w, "weather/stock/worth/" + name,
                             say("weather.node.worth_of", {{"species", name}}), "money",
                             "weather.product", {"weather/stock/ready/" + name, price}));
  }
  if (parts.empty()) return {};
  return computed(w, "weather/stock/worth", say("weather.node.worth"), "money", "weather.sum",
                  parts);
}

std::string money_node(Workings& w, const Parameters& p, const std::string& name,
                       const std::string& hours) {
  return computed(w, "weather/stock/" + name + "/money",
                  say("weather.node.act_money", {{"act", name}}), "money", "weather.wages",
                  {hours, parameter(w, p, "tending.diary.hours_per_day"),
                   parameter(w, p, "tending.wage_per_day")});
}

std::vector<Cell> act_row(Workings& w, const Parameters& p, const std::string& name, Keys inputs,
                          const std::optional<std::string>& lost) {
  inputs.push_back(parameter(w, p, "weather.stock." + name + "_hours"));
  const std::string hours = computed(w, "weather/stock/" + name + "/hours",
                                     say("weather.node.act_hours", {{"act", name}}), "person-hours",
                                     "weather.per_thousand", std::move(inputs));
  return {cell(say("weather.act." + name)), cell_of(w, hours),
          cell_of(w, money_node(w, p, name, hours), true), lost ? cell_of(w, *lost, true) : Cell{}};
}

Table stock_table(Workings& w, const Scene& scene, const std::string& ready,
                  const std::string& days, bool over) {
  const Parameters& p = scene.parameters();
  Table table{"stock",
              say("weather.stock.caption"),
              {{"act", say("weather.column.act"), 0},
               {"work_h", say("weather.column.work_h"), 1},
               {"wages", say("weather.column.wages"), 0},
               {"worth_lost", say("weather.column.worth_lost"), 0}},
              {}};
  table.rows.push_back(act_row(w, p, "keep", {ready, days}, {}));
  table.rows.push_back(act_row(w, p, "shade", {ready}, {}));
  table.rows.push_back(act_row(w, p, "space", {ready}, {}));
  if (over) {
    table.rows.push_back(act_row(w, p, "cut", {ready}, {}));
    table.rows.push_back(act_row(w, p, "give", {ready}, worth_node(w, scene.programme)));
  }
  return table;
}

std::string water_node(Workings& w, const Parameters& p, const char* end, const std::string& ready,
                       const std::string& days) {
  return computed(
      w, std::string("weather/stock/water_") + end, say("weather.node.water"), "litres",
      "weather.per_thousand",
      {ready, days, parameter(w, p, std::string("nursery.water.") + end + "_l_per_1000_day")});
}

// Days until planting may begin again: to the window, or to the next look.
std::string days_node(Workings& w, const Scene& scene, bool over) {
  if (!over) return parameter(w, scene.parameters(), "weather.look_again_days");
  return "weather/window/days";
}

}  // namespace

std::vector<Message> waiting_cost(Reply& reply, const Scene& scene, const Verdicts& verdicts) {
  Workings& w = reply.workings;
  const int kept = static_cast<int>(verdicts.blocks.size()) - verdicts.count(PlantVerdict::plant);
  if (kept == 0) return {};
  const bool over = verdicts.count(PlantVerdict::not_this_season) > 0 && verdicts.days_to_window;
  const auto ready = ready_node(w, scene.programme);
  if (!ready || value_of(w, *ready) == 0) return {say("weather.stock.none_known")};
  const std::string days = days_node(w, scene, over);
  const std::string low = water_node(w, scene.parameters(), "low", *ready, days);
  const std::string high = water_node(w, scene.parameters(), "high", *ready, days);
  reply.tables.push_back(stock_table(w, scene, *ready, days, over));
  const Message line = opening(say(over ? "weather.stock.over" : "weather.stock.wait",
                                   {{"ready", static_cast<std::int64_t>(value_of(w, *ready))},
                                    {"days", static_cast<std::int64_t>(value_of(w, days))},
                                    {"low", value_of(w, low)},
                                    {"high", value_of(w, high)},
                                    {"hours", value_of(w, "weather/stock/keep/hours")},
                                    {"money", value_of(w, "weather/stock/keep/money")}}),
                               {{"ready", *ready},
                                {"days", days},
                                {"low", low},
                                {"high", high},
                                {"hours", "weather/stock/keep/hours"},
                                {"money", "weather/stock/keep/money"}});
  return {line, say("climate.stock_shade"), say("climate.stock_space")};
}

}  // namespace wildling::plan::weather
