#include "climate/pit_balance.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "base/error.hpp"
#include "climate/soil.hpp"

namespace wildling::climate {
namespace {

void check_pit(double ball_width, double ball_depth, double hole_width, double hole_depth,
               double field_capacity, double wilting_point) {
  if (ball_width >= hole_width || ball_depth > hole_depth) {
    throw Error(ErrorKind::input, "",
                say("climate.ball_larger_than_hole", {{"ball_width", ball_width},
                                                      {"ball_depth", ball_depth},
                                                      {"hole_width", hole_width},
                                                      {"hole_depth", hole_depth}}));
  }
  if (wilting_point >= field_capacity) {
    throw Error(ErrorKind::input, "",
                say("climate.soil_holds_nothing",
                    {{"field_capacity", field_capacity}, {"wilting_point", wilting_point}}));
  }
}

}  // namespace

std::vector<double> rain_to_use(const DailyWeather& daily) {
  std::vector<double> rain = daily.rain_mm;
  for (double& mm : rain) {
    if (std::isnan(mm)) mm = 0;
  }
  for (const RainTotal& total : daily.totals) {
    if (const auto i = daily.index(total.last)) rain[*i] = total.total_mm;
  }
  return rain;
}

PitNumbers pit_numbers(const Parameters& parameters) {
  const auto value = [&](const char* key) { return parameters.value(key); };
  PitNumbers n;
  n.ball_depth_m = value("climate.ball.depth_m");
  n.ball_width_m = value("climate.ball.width_m");
  n.ball_water_share = value("climate.ball.water_share");
  n.crop_factor = value("climate.ball.crop_factor");
  n.easy_share = value("climate.ball.easy_share");
  n.hole_width_m = value("climate.hole.width_m");
  n.hole_depth_m = value("climate.hole.depth_m");
  n.field_capacity = value("climate.hole.field_capacity");
  n.wilting_point = value("climate.hole.wilting_point");
  n.evaporation_depth_m = value("climate.hole.evaporation_depth_m");
  n.readily_evaporable_mm = value("climate.hole.readily_evaporable_mm");
  n.bare_soil_factor = value("climate.hole.bare_soil_factor");
  n.mulch_factor = value("climate.hole.mulch_factor");
  n.exchange_per_day = value("climate.hole.exchange_per_day");
  n.rain_lost_share = value("climate.rain.lost_below_et0_share");
  return n;
}

PitSettings pit_settings(const Parameters& parameters) {
  return pit_settings(pit_numbers(parameters));
}

PitSettings pit_settings(const PitNumbers& n) {
  check_pit(n.ball_width_m, n.ball_depth_m, n.hole_width_m, n.hole_depth_m, n.field_capacity,
            n.wilting_point);
  PitSettings s;
  s.ball_holds_mm = total_available_mm(n.ball_water_share, 0, n.ball_depth_m);
  s.ball_easy_mm = readily_available_mm(s.ball_holds_mm, n.easy_share);
  s.crop_factor = n.crop_factor;
  s.ball_area_share = n.ball_width_m * n.ball_width_m / (n.hole_width_m * n.hole_width_m);
  s.hole_holds_mm = total_available_mm(n.field_capacity, n.wilting_point,
                                       n.hole_depth_m - s.ball_area_share * n.ball_depth_m);
  s.evaporable_mm = total_evaporable_mm(n.field_capacity, n.wilting_point, n.evaporation_depth_m);
  s.freely_evaporable_mm = std::min(n.readily_evaporable_mm, 0.9 * s.evaporable_mm);
  s.soil_factor = n.bare_soil_factor * n.mulch_factor;
  s.exchange_per_day = n.exchange_per_day;
  s.rain_lost_share = n.rain_lost_share;
  return s;
}

PitFluxes pit_step(PitDay& day, double rain_mm, double et0_mm, const PitSettings& s) {
  PitFluxes f;
  const double a = s.ball_area_share;
  f.rain_mm = rain_mm < s.rain_lost_share * et0_mm ? 0 : rain_mm;
  f.ball_overflow_mm = std::max(0.0, day.ball_mm + f.rain_mm - s.ball_holds_mm);
  double ball = day.ball_mm + f.rain_mm - f.ball_overflow_mm;
  double hole = day.hole_mm + f.rain_mm * (1 - a) + f.ball_overflow_mm * a;
  f.percolation_mm = std::max(0.0, hole - s.hole_holds_mm);
  hole -= f.percolation_mm;

  f.ks = stress_factor(s.ball_holds_mm - ball, s.ball_holds_mm, s.ball_easy_mm);
  f.uptake_mm = std::min(ball, f.ks * s.crop_factor * et0_mm);
  ball -= f.uptake_mm;
  f.kr = evaporation_reduction(s.hole_holds_mm - hole, s.evaporable_mm, s.freely_evaporable_mm);
  f.evaporation_mm = std::min(hole, f.kr * s.soil_factor * et0_mm * (1 - a));
  hole -= f.evaporation_mm;

  const double wanted =
      s.exchange_per_day * s.ball_holds_mm * (hole / s.hole_holds_mm - ball / s.ball_holds_mm);
  f.to_ball_mm = std::clamp(wanted, std::max(-ball, (hole - s.hole_holds_mm) / a),
                            std::min(s.ball_holds_mm - ball, hole / a));
  day.ball_mm = ball + f.to_ball_mm;
  day.hole_mm = hole - f.to_ball_mm * a;
  return f;
}

PitSeries pit_balance(const DailyWeather& daily, std::span<const double> et0_mm,
                      const PitSettings& settings) {
  assert(et0_mm.size() == daily.days());
  const std::vector<double> rain = rain_to_use(daily);
  PitSeries series;
  series.ball_mm.resize(rain.size());
  series.hole_mm.resize(rain.size());
  series.ks.resize(rain.size());
  PitDay day{settings.ball_holds_mm, settings.hole_holds_mm};
  for (std::size_t i = 0; i < rain.size(); ++i) {
    series.ks[i] = pit_step(day, rain[i], et0_mm[i], settings).ks;
    series.ball_mm[i] = day.ball_mm;
    series.hole_mm[i] = day.hole_mm;
  }
  return series;
}

}  // namespace wildling::climate
