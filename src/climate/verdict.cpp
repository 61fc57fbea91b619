#include "climate/verdict.hpp"

#include <algorithm>

#include "base/exact_math.hpp"

namespace wildling::climate {
namespace {

bool is_yes(const std::optional<bool>& answer) {
  return answer.value_or(false);
}

// Days from `today` to the first day of the window, 0 inside it.
int days_to_window(const PlantingWindow& window, Date today) {
  for (int ahead = 0; ahead < 366; ++ahead) {
    const int p = ten_day_period(today + std::chrono::days(ahead));
    const bool wraps = window.last_period < window.first_period;
    const bool inside = wraps ? p >= window.first_period || p <= window.last_period
                              : p >= window.first_period && p <= window.last_period;
    if (inside) return ahead;
  }
  return 366;
}

void close_gates(const PlantingGate& gate, std::vector<Message>& reasons) {
  const auto need = [&](const std::optional<bool>& answer, const char* key) {
    if (!is_yes(answer)) reasons.push_back(say(key));
  };
  need(gate.consent, "climate.gate_consent");
  need(gate.strip_cleared, "climate.gate_strip");
  need(gate.pits_dug, "climate.gate_pits");
  need(gate.stock_ready, "climate.gate_stock");
  if (gate.peat_or_flooded) {
    need(gate.water_falling, "climate.gate_water_falling");
    need(gate.rewetted, "climate.gate_rewetted");
  } else {
    if (gate.soil == SoilSeen::dry) reasons.push_back(say("climate.gate_soil_dry"));
    if (gate.soil == SoilSeen::not_looked) reasons.push_back(say("climate.gate_soil_not_looked"));
    need(gate.pit_drains, "climate.gate_drains");
    need(gate.river_not_rising, "climate.gate_river");
  }
  need(gate.crew_and_way_in, "climate.gate_crew");
}

bool years_say_wait(const Outlook& outlook, const Parameters& p, std::vector<Message>& reasons) {
  if (outlook.delays.empty() || outlook.delays.front().judged == 0) return false;
  const OutlookDelay& now = outlook.delays.front();
  if (now.good >= p.value("climate.window.least_share") * now.judged) return false;
  reasons.push_back(say("climate.gate_years",
                        {{"good", std::int64_t{now.good}}, {"of", std::int64_t{now.judged}}}));
  return true;
}

// On peat and flooded ground the balance is off: no count of past years is named.
Message line_of(PlantVerdict verdict, const std::vector<Message>& reasons, const Outlook& outlook,
                bool wet_ground) {
  const std::int64_t closed = static_cast<std::int64_t>(reasons.size());
  switch (verdict) {
    case PlantVerdict::plant:
      if (wet_ground) return say("climate.verdict_plant_water");
      if (outlook.delays.empty() || outlook.delays.front().judged == 0)
        return say("climate.verdict_plant_spade");
      return say("climate.verdict_plant", {{"good", std::int64_t{outlook.delays.front().good}},
                                           {"of", std::int64_t{outlook.delays.front().judged}}});
    case PlantVerdict::wait:
      return say("climate.verdict_wait", {{"closed", closed}});
    case PlantVerdict::not_this_season:
      return say("climate.verdict_not_this_season");
    case PlantVerdict::no_advice:
      break;
  }
  return say("climate.verdict_no_advice");
}

}  // namespace

PlantingAdvice planting_advice(const PlantingGate& gate, const Outlook& outlook,
                               const PlantingWindow& window, const Parameters& p) {
  PlantingAdvice advice;
  close_gates(gate, advice.reasons);
  if (!gate.peat_or_flooded) {
    if (outlook.refused) advice.reasons.push_back(*outlook.refused);
    years_say_wait(outlook, p, advice.reasons);
  }
  const bool unanswered_water = gate.peat_or_flooded && !gate.water_falling;
  const int ahead = window.found ? days_to_window(window, outlook.today) : 0;
  if (advice.reasons.empty())
    advice.verdict = PlantVerdict::plant;
  else if (unanswered_water)
    advice.verdict = PlantVerdict::no_advice;
  else if (!gate.peat_or_flooded && ahead > p.value("climate.advice.hold_days"))
    advice.verdict = PlantVerdict::not_this_season;
  if (advice.verdict != PlantVerdict::plant) {
    advice.stock = {say("climate.stock_shade"), say("climate.stock_space")};
    if (advice.verdict == PlantVerdict::not_this_season) {
      advice.stock.push_back(say("climate.stock_cut"));
      advice.stock.push_back(say("climate.stock_give"));
    }
  }
  advice.first_line = line_of(advice.verdict, advice.reasons, outlook, gate.peat_or_flooded);
  return advice;
}

KinderHours kinder_hours(const DayHours& day, const Parameters& p) {
  KinderHours result;
  const double rate = exact_log(2.0) / p.value("climate.kinder.half_h");
  const int from = static_cast<int>(p.value("climate.work.first_hour"));
  const int to = static_cast<int>(p.value("climate.work.last_hour"));
  double best = 0, worst = 0;
  for (int hour = from; hour < to; ++hour) {
    KinderHour one{hour, 0};
    for (int k = 0; k < 24; ++k) {
      one.strain_kpa_h +=
          day.vpd_kpa[static_cast<std::size_t>((hour + k) % 24)] * exact_exp(-rate * (k + 0.5));
    }
    if (result.best_hour < 0 || one.strain_kpa_h < best) {
      best = one.strain_kpa_h;
      result.best_hour = hour;
    }
    worst = std::max(worst, one.strain_kpa_h);
    result.hours.push_back(one);
  }
  result.best_over_worst = worst > 0 ? best / worst : 1;
  result.notes = {say("climate.kinder_water_first"), say("climate.kinder_custom"),
                  say("climate.kinder_lightning")};
  return result;
}

}  // namespace wildling::climate
