#include "climate/heat.hpp"

#include <algorithm>
#include <cmath>

#include "base/exact_math.hpp"
#include "base/exact_trig.hpp"

namespace wildling::climate {
namespace {

double log10_of(double x) {
  return exact_log(x) / exact_log(10.0);
}

void choose_stretch(HeatPlan& plan, int rest_most) {
  std::size_t best = 0;
  for (std::size_t i = 0; i < plan.hours.size(); ++i) {
    std::size_t length = 0;
    while (i + length < plan.hours.size() && plan.hours[i + length].rest_minutes_sun <= rest_most)
      ++length;
    if (length <= best) continue;
    best = length;
    plan.start_hour = plan.hours[i].hour;
    plan.finish_hour = plan.hours[i + length - 1].hour + 1;
  }
}

HeatHour hour_of(const DayHours& day, int h, double ea_kpa) {
  const auto i = static_cast<std::size_t>(h);
  HeatHour hour;
  hour.hour = h;
  hour.wbgt_shade_c = wbgt_in_shade_c(day.temperature_c[i], day.rh_pct[i]);
  hour.wbgt_sun_c = wbgt_outside_c(wbgt_in_sun_c(day.temperature_c[i], ea_kpa), hour.wbgt_shade_c,
                                   day.sun_share[i]);
  hour.heat_index_c = heat_index_c(day.temperature_c[i], day.rh_pct[i]);
  return hour;
}

void add_steps(HeatPlan& plan) {
  const int hours = plan.start_hour ? *plan.finish_hour - *plan.start_hour : 0;
  for (int d = 1; d <= 5; ++d) {
    plan.steps[static_cast<std::size_t>(d - 1)] = {d, hours * exposure_share_pct(d, false) / 100.0,
                                                   hours * exposure_share_pct(d, true) / 100.0};
  }
}

}  // namespace

double heat_index_regression_f(double t, double r) {
  return -42.379 + 2.04901523 * t + 10.14333127 * r - 0.22475541 * t * r - 6.83783e-3 * t * t -
         5.481717e-2 * r * r + 1.22874e-3 * t * t * r + 8.5282e-4 * t * r * r -
         1.99e-6 * t * t * r * r;
}

double heat_index_f(double t, double r) {
  const double simple = 0.5 * (t + 61 + 1.2 * (t - 68) + 0.094 * r);
  if ((simple + t) / 2 < 80) return simple;
  double index = heat_index_regression_f(t, r);
  if (r < 13 && t >= 80 && t <= 112)
    index -= (13 - r) / 4 * std::sqrt((17 - std::abs(t - 95)) / 17);
  if (r > 85 && t >= 80 && t <= 87) index += (r - 85) / 10 * ((87 - t) / 5);
  return index;
}

double heat_index_c(double temperature_c, double rh_pct) {
  return (heat_index_f(temperature_c * 9 / 5 + 32, rh_pct) - 32) * 5 / 9;
}

double stull_wet_bulb_c(double t, double rh) {
  return t * exact_atan(0.151977 * std::sqrt(rh + 8.313659)) + exact_atan(t + rh) -
         exact_atan(rh - 1.676331) + 0.00391838 * rh * std::sqrt(rh) * exact_atan(0.023101 * rh) -
         4.686035;  // eq. 1
}

double wbgt_in_sun_c(double temperature_c, double vapour_pressure_kpa) {
  return 0.567 * temperature_c + 0.393 * (10 * vapour_pressure_kpa) + 3.94;
}

double wbgt_in_shade_c(double temperature_c, double rh_pct) {
  return 0.7 * stull_wet_bulb_c(temperature_c, std::clamp(rh_pct, 5.0, 99.0)) + 0.3 * temperature_c;
}

double recommended_limit_c(double metabolic_w) {
  return 56.7 - 11.5 * log10_of(metabolic_w);
}

double alert_limit_c(double metabolic_w) {
  return 59.9 - 14.1 * log10_of(metabolic_w);
}

double wbgt_outside_c(double full_sun_c, double shade_c, double sun_share) {
  return shade_c + std::max(0.0, full_sun_c - shade_c) * std::min(1.0, 2 * sun_share);
}

int rest_minutes(double wbgt_work_c, double wbgt_rest_c, bool acclimatised, double work_w,
                 double rest_w) {
  for (int rest = 0; rest <= 45; rest += 5) {
    const double share = rest / 60.0;
    const double metabolic = (1 - share) * work_w + share * rest_w;
    const double wbgt = (1 - share) * wbgt_work_c + share * wbgt_rest_c;
    if (wbgt <= (acclimatised ? recommended_limit_c(metabolic) : alert_limit_c(metabolic)))
      return rest;
  }
  return 60;
}

int exposure_share_pct(int day, bool returning) {
  constexpr std::array<int, 5> kNew = {20, 40, 60, 80, 100}, kReturning = {50, 60, 80, 100, 100};
  const auto i = static_cast<std::size_t>(std::clamp(day, 1, 5) - 1);
  return returning ? kReturning[i] : kNew[i];
}

HeatPlan heat_plan(const DayHours& day, double ea_kpa, bool acclimatised,
                   std::optional<double> usual_worst_c, const Parameters& p) {
  HeatPlan plan;
  const int from = static_cast<int>(p.value("climate.work.first_hour"));
  const int to = static_cast<int>(p.value("climate.work.last_hour"));
  const double work = p.value("climate.heat.work_w"), rest = p.value("climate.heat.rest_w");
  for (int h = from; h < to; ++h) {
    HeatHour hour = hour_of(day, h, ea_kpa);
    hour.rest_minutes_sun =
        rest_minutes(hour.wbgt_sun_c, hour.wbgt_shade_c, acclimatised, work, rest);
    hour.rest_minutes_shade =
        rest_minutes(hour.wbgt_shade_c, hour.wbgt_shade_c, acclimatised, work, rest);
    hour.litres =
        p.value(hour.rest_minutes_sun > 0 ? "climate.heat.litres_hot" : "climate.heat.litres_mild");
    plan.worst_wbgt_sun_c = std::max(plan.worst_wbgt_sun_c, hour.wbgt_sun_c);
    plan.hours.push_back(hour);
  }
  choose_stretch(plan, static_cast<int>(p.value("climate.heat.rest_most_min")));
  add_steps(plan);
  plan.worse_than_usual = usual_worst_c && plan.worst_wbgt_sun_c > *usual_worst_c;
  plan.notes = {say("climate.heat_symptoms"), say("climate.heat_station_cooler")};
  if (!plan.start_hour) plan.notes.insert(plan.notes.begin(), say("climate.heat_no_hour"));
  return plan;
}

std::optional<double> usual_worst_wbgt_c(std::vector<double> values) {
  values.erase(std::remove_if(values.begin(), values.end(), [](double v) { return std::isnan(v); }),
               values.end());
  if (values.size() < 60) return {};
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(0.9 * static_cast<double>(values.size() - 1))];
}

}  // namespace wildling::climate
