#include "plan/weather/verdicts.hpp"

#include <algorithm>

#include "climate/advice_workings.hpp"
#include "plan/weather/words_of.hpp"

namespace wildling::plan::weather {
namespace {

using climate::PlantVerdict;
using climate::SoilSeen;

struct Answer {
  const char* name;
  const Seen<bool>* seen;
};

std::vector<Answer> gates_of(const Look& look, bool wet, bool peat) {
  std::vector<Answer> gates = {
      {"strip", &look.strip_cleared}, {"pits", &look.pits_dug}, {"stock", &look.stock_ready}};
  if (wet) {
    gates.push_back({"water_falling", &look.water_falling});
    if (peat) gates.push_back({"rewetted", &look.rewetted});
  } else {
    gates.push_back({"drains", &look.pit_drains});
    gates.push_back({"river", &look.river_not_rising});
  }
  gates.push_back({"crew", &look.crew_and_way_in});
  return gates;
}

std::string source_of(const std::string& who, const std::optional<Date>& day) {
  if (!day) return who;
  return (who.empty() ? "" : who + ", ") + iso_date(*day);
}

std::string gate_leaf(Workings& w, const ground::Block& block, const char* gate,
                      std::optional<bool> answer, const std::string& source) {
  return leaf(w, "weather/block/" + block.code + "/gate/" + gate,
              say("weather.node.gate", {{"gate", std::string(gate)}, {"block", block.code}}),
              {answer.value_or(false) ? 1.0 : 0.0, "", answer ? Origin::told : Origin::assumed,
               source, answer ? "" : "nobody looked: counts as no"});
}

climate::PlantingGate planting_gate(const ground::Block& block, const Look& look, bool wet) {
  climate::PlantingGate gate;
  gate.consent = ground::judge(block.gates).open;
  gate.strip_cleared = look.strip_cleared.value;
  gate.pits_dug = look.pits_dug.value;
  gate.stock_ready = look.stock_ready.value;
  gate.pit_drains = look.pit_drains.value;
  gate.river_not_rising = look.river_not_rising.value;
  gate.crew_and_way_in = look.crew_and_way_in.value;
  gate.soil = look.soil.value.value_or(SoilSeen::not_looked);
  gate.peat_or_flooded = wet;
  gate.water_falling = look.water_falling.value;
  // Ground that floods every year needs no rewetting; peat does.
  gate.rewetted = is_peat(block) ? look.rewetted.value : std::optional<bool>(true);
  return gate;
}

// What the climate room says of unanswered gates is said once when nobody looked at all.
bool is_of_the_look(const Message& reason) {
  return reason.key.starts_with("climate.gate_") && reason.key != "climate.gate_years";
}

Message season_reason(const Scene& scene, int days) {
  return opening(say("weather.reason.season", {{"first", scene.today + std::chrono::days(days)},
                                               {"days", std::int64_t{days}}}),
                 {{"days", "weather/window/days"}});
}

std::vector<Message> reasons_of(const BlockAdvice& one, const Look& look,
                                const climate::PlantingAdvice& advice, const Scene& scene,
                                const Verdicts& all) {
  std::vector<Message> reasons = ground::judge(one.block->gates).reasons;
  if (one.verdict == PlantVerdict::not_this_season && all.days_to_window)
    reasons.insert(reasons.begin(), season_reason(scene, *all.days_to_window));
  for (const Message& reason : advice.reasons) {
    if (reason.key == "climate.gate_consent" || (!look.any && is_of_the_look(reason))) continue;
    Message opened = reason;
    if (reason.key == "climate.gate_years")
      opened.opens = {{"good", one.good_key}, {"of", one.of_key}};
    if (reason.key == "climate.log_old") opened.opens = {{"days", "weather/log/age"}};
    reasons.push_back(std::move(opened));
  }
  if (!look.any) {
    const auto days = static_cast<std::int64_t>(scene.parameters().value("weather.look_days"));
    reasons.push_back(opening(say("weather.nobody_looked", {{"days", days}}),
                              {{"days", "parameter/weather.look_days"}}));
  }
  return reasons;
}

// A gate that somebody answered with no.
bool any_said_no(const ground::Block& block, const Look& look, bool wet) {
  if (!ground::judge(block.gates).open || look.soil.value == SoilSeen::dry) return true;
  const auto gates = gates_of(look, wet, is_peat(block));
  return std::any_of(gates.begin(), gates.end(),
                     [](const Answer& a) { return a.seen->value && !*a.seen->value; });
}

void add_log_nodes(Workings& w, const Scene& scene, const climate::Outlook& outlook, Keys& gates,
                   const BlockAdvice& one) {
  gates.push_back(leaf(w, "weather/log/usable", say("weather.node.log_usable"),
                       {outlook.refused ? 0.0 : 1.0, "", Origin::measured,
                        scene.book ? scene.book->station.name : "no log", ""}));
  if (outlook.refused) return;
  gates.push_back(computed(
      w, outlook_prefix(one.soil) + "enough", say("weather.node.years_enough"), "",
      "weather.years_enough",
      {one.good_key, one.of_key, parameter(w, scene.parameters(), "climate.window.least_share")}));
}

void add_gates(Workings& w, const Scene& scene, const Look& look, const climate::Outlook& outlook,
               BlockAdvice& one) {
  const ground::Block& block = *one.block;
  Keys gates;
  const auto& consent = block.gates.consent;
  gates.push_back(gate_leaf(w, block, "consent", ground::judge(block.gates).open,
                            source_of(consent.who, consent.day)));
  for (const Answer& answer : gates_of(look, one.wet_ground, is_peat(block)))
    gates.push_back(gate_leaf(w, block, answer.name, answer.seen->value,
                              source_of(answer.seen->who, answer.seen->day)));
  if (!one.wet_ground) {
    std::optional<bool> moist;
    if (one.soil != SoilSeen::not_looked) moist = one.soil == SoilSeen::moist_to_bottom;
    gates.push_back(gate_leaf(w, block, "soil", moist, source_of(look.soil.who, look.soil.day)));
    add_log_nodes(w, scene, outlook, gates, one);
  }
  one.plant_key =
      computed(w, "weather/block/" + block.code + "/plant",
               say("weather.node.plant", {{"block", block.code}}), "", "weather.all_open", gates);
}

PlantVerdict verdict_of(const climate::PlantingAdvice& advice, const BlockAdvice& one,
                        const climate::Outlook& outlook, bool said_no) {
  // A log that does not reach today names no season either.
  if (!one.wet_ground && outlook.refused)
    return said_no ? PlantVerdict::wait : PlantVerdict::no_advice;
  if (one.wet_ground && advice.verdict == PlantVerdict::no_advice && said_no)
    return PlantVerdict::wait;
  return advice.verdict;
}

BlockAdvice advise(const Scene& scene, const ground::Block& block, const Verdicts& all,
                   Workings& w) {
  static const Look kNobody = {};
  const auto found = scene.looks.find(block.uid);
  const Look& look = found == scene.looks.end() ? kNobody : found->second;
  BlockAdvice one;
  one.block = &block;
  one.wet_ground = is_wet_ground(scene, block);
  one.soil = look.soil.value.value_or(SoilSeen::not_looked);
  const climate::Outlook& outlook = all.outlooks.at(one.soil);
  if (!one.wet_ground && !outlook.refused) {
    one.good = outlook.delays.front().good;
    one.of = outlook.delays.front().judged;
    one.good_key = outlook_prefix(one.soil) + "after/0/good_years";
    one.of_key = outlook_prefix(one.soil) + "after/0/judged_years";
  }
  const climate::PlantingAdvice advice = climate::planting_advice(
      planting_gate(block, look, one.wet_ground), outlook, all.window, scene.parameters());
  const bool said_no = any_said_no(block, look, one.wet_ground);
  one.verdict = verdict_of(advice, one, outlook, said_no);
  add_gates(w, scene, look, outlook, one);
  one.reasons = reasons_of(one, look, advice, scene, all);
  one.settled_by_a_look =
      !said_no && one.verdict != PlantVerdict::plant &&
      std::none_of(one.reasons.begin(), one.reasons.end(),
                   [](const Message& m) { return m.key == "climate.gate_years"; });
  return one;
}

// Planting today only: each year and delay holds its days of rain, and later days open in `spells`.
// Two nodes even where no year was judged: then both are 0.
void add_outlook(Workings& w, const Scene& scene, const climate::Outlook& outlook, SoilSeen soil) {
  if (outlook.refused || !scene.book) return;
  climate::Outlook today = outlook;
  today.delays.resize(1);
  Workings own;
  climate::add_outlook_workings(own, *scene.book, today, soil, scene.parameters());
  add_renamed(w, own, "climate/outlook/", outlook_prefix(soil));
  if (outlook.delays.front().judged > 0) return;
  for (const char* name : {"good_years", "judged_years"}) {
    if (w.find(outlook_prefix(soil) + "after/0/" + name) != nullptr) continue;
    leaf(w, outlook_prefix(soil) + "after/0/" + name, say("weather.node.no_year_judged"),
         {0, "years", Origin::measured, scene.book->station.name, ""});
  }
}

std::optional<int> days_to_window(const climate::PlantingWindow& window, Date today) {
  if (!window.found) return {};
  for (int ahead = 0; ahead < 366; ++ahead) {
    const int p = ten_day_period(today + std::chrono::days(ahead));
    const bool wraps = window.last_period < window.first_period;
    if (wraps ? p >= window.first_period || p <= window.last_period
              : p >= window.first_period && p <= window.last_period)
      return ahead;
  }
  return {};
}

}  // namespace

int Verdicts::count(PlantVerdict verdict) const {
  return static_cast<int>(std::count_if(blocks.begin(), blocks.end(), [&](const BlockAdvice& one) {
    return one.verdict == verdict;
  }));
}

std::string outlook_prefix(SoilSeen soil) {
  return "weather/outlook/" + soil_name(soil) + "/";
}

climate::Outlook outlook_of(const Scene& scene, SoilSeen soil) {
  if (scene.book)
    return climate::planting_outlook(*scene.book, scene.today, soil, {}, scene.parameters());
  climate::Outlook none;
  none.today = scene.today;
  none.refused = none.first_line = say("weather.no_log_advice");
  return none;
}

Verdicts verdicts(const Scene& scene, const std::vector<const ground::Block*>& blocks,
                  Workings& w) {
  Verdicts all;
  parameter(w, scene.parameters(), "weather.look_days");
  if (scene.book) {
    all.window = climate::planting_windows(*scene.book, scene.parameters()).window;
    all.days_to_window = days_to_window(all.window, scene.today);
    if (all.days_to_window)
      leaf(w, "weather/window/days", say("weather.node.days_to_window"),
           {static_cast<double>(*all.days_to_window), "days", Origin::chosen, "",
            "to the first day of the recommended weeks"});
  }
  for (const ground::Block* block : blocks) {
    const auto found = scene.looks.find(block->uid);
    const SoilSeen soil = found == scene.looks.end()
                              ? SoilSeen::not_looked
                              : found->second.soil.value.value_or(SoilSeen::not_looked);
    if (all.outlooks.contains(soil)) continue;
    all.outlooks.emplace(soil, outlook_of(scene, soil));
    add_outlook(w, scene, all.outlooks.at(soil), soil);
  }
  Keys plant;
  for (const ground::Block* block : blocks) {
    all.blocks.push_back(advise(scene, *block, all, w));
    plant.push_back(all.blocks.back().plant_key);
  }
  computed(w, "weather/today/plant", say("weather.node.plant_blocks"), "blocks", "weather.sum",
           plant);
  computed(w, "weather/today/blocks", say("weather.node.blocks"), "blocks", "weather.count", plant);
  return all;
}

}  // namespace wildling::plan::weather
