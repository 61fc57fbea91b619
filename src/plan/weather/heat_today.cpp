#include "plan/weather/heat_today.hpp"

#include <fmt/format.h>

#include "climate/climate_workings.hpp"
#include "plan/weather/log_lines.hpp"

namespace wildling::plan::weather {
namespace {

std::string heat_key(const HeatToday& heat, const std::string& name) {
  return "climate/heat/" + iso_date(heat.air->day) + "/" + name;
}

std::string hour_key(const HeatToday& heat, int hour, const char* name) {
  return heat_key(heat, fmt::format("{}/{}", hour, name));
}

Message worked_line(const HeatToday& heat) {
  if (!heat.plan.start_hour) return say("climate.heat_no_hour");
  return opening(say("weather.heat.stretch", {{"start", std::int64_t{*heat.plan.start_hour}},
                                              {"finish", std::int64_t{*heat.plan.finish_hour}}}),
                 {{"start", heat_key(heat, "start")}, {"finish", heat_key(heat, "finish")}});
}

Message usual_line(const HeatToday& heat) {
  if (!heat.usual_worst_c) return say("weather.heat.usual_unknown");
  return opening(say(heat.plan.worse_than_usual ? "weather.heat.worse" : "weather.heat.as_usual",
                     {{"worst", heat.plan.worst_wbgt_sun_c}, {"usual", *heat.usual_worst_c}}),
                 {{"worst", heat_key(heat, "worst")}, {"usual", heat_key(heat, "usual")}});
}

Message day_line(const Scene& scene, const HeatToday& heat) {
  const std::string key = "climate/et0/" + iso_date(heat.air->day);
  return opening(from_gauge(scene, say("weather.heat.day", {{"day", heat.air->day},
                                                            {"tmax", heat.air->et0.input.tmax_c},
                                                            {"tmin", heat.air->et0.input.tmin_c}})),
                 {{"tmax", key + "/tmax"}, {"tmin", key + "/tmin"}});
}

}  // namespace

HeatToday heat_today(const Scene& scene) {
  HeatToday heat;
  if (!scene.book) return heat;
  heat.air = climate::day_air(*scene.book, scene.today, scene.parameters());
  if (!heat.air) return heat;
  const climate::DayHours hours = climate::day_hours(*heat.air, scene.parameters());
  heat.usual_worst_c = climate::usual_worst_wbgt_c(*scene.book, scene.parameters());
  heat.plan =
      climate::heat_plan(hours, heat.air->et0.ea_kpa, true, heat.usual_worst_c, scene.parameters());
  heat.kinder = climate::kinder_hours(hours, scene.parameters());
  return heat;
}

std::vector<Message> heat_lines(Workings& w, const Scene& scene, const HeatToday& heat) {
  std::vector<Message> lines = {say("climate.heat_symptoms")};
  if (!heat.air) {
    lines.push_back(say("weather.heat.no_reading"));
    return lines;
  }
  climate::add_et0_workings(w, heat.air->et0, heat.air->day, scene.book->station,
                            scene.parameters());
  climate::add_heat_workings(w, *heat.air, scene.book->station, heat.plan, true, heat.usual_worst_c,
                             scene.parameters());
  lines.push_back(day_line(scene, heat));
  lines.push_back(worked_line(heat));
  lines.push_back(usual_line(heat));
  lines.push_back(say("weather.heat.drink"));
  lines.push_back(say("climate.heat_station_cooler"));
  return lines;
}

std::vector<Message> kinder_lines(Workings& w, const Scene& scene, const HeatToday& heat) {
  std::vector<Message> lines = {say("climate.kinder_lightning")};
  if (!heat.air || heat.kinder.best_hour < 0) {
    lines.push_back(say("weather.kinder.no_reading"));
  } else {
    climate::add_kinder_workings(w, *heat.air, scene.book->station, heat.kinder,
                                 scene.parameters());
    const std::string key = "climate/kinder/" + iso_date(heat.air->day) + "/";
    lines.push_back(
        opening(say("weather.kinder.best", {{"hour", std::int64_t{heat.kinder.best_hour}},
                                            {"ratio", heat.kinder.best_over_worst}}),
                {{"hour", key + "best_hour"}, {"ratio", key + "best_over_worst"}}));
  }
  lines.push_back(say("climate.kinder_water_first"));
  lines.push_back(say("climate.kinder_custom"));
  return lines;
}

Table hours_table(const Workings& w, const HeatToday& heat) {
  Table table{"hours",
              say("weather.heat.caption", {{"day", heat.air->day}}),
              {{"hour", say("weather.column.hour"), 0},
               {"wbgt_sun_c", say("weather.column.wbgt_sun"), 1},
               {"rest_sun_min", say("weather.column.rest_sun"), 0},
               {"wbgt_shade_c", say("weather.column.wbgt_shade"), 1},
               {"rest_shade_min", say("weather.column.rest_shade"), 0},
               {"litres", say("weather.column.litres"), 2}},
              {}};
  for (const climate::HeatHour& hour : heat.plan.hours) {
    table.rows.push_back({cell(hour.hour), cell_of(w, hour_key(heat, hour.hour, "wbgt_sun")),
                          cell_of(w, hour_key(heat, hour.hour, "rest_sun"), true),
                          cell_of(w, hour_key(heat, hour.hour, "wbgt_shade")),
                          cell_of(w, hour_key(heat, hour.hour, "rest_shade"), true),
                          cell_of(w, hour_key(heat, hour.hour, "litres"))});
  }
  return table;
}

Table new_workers_table(const Workings& w, const HeatToday& heat) {
  Table table{"new_workers",
              say("weather.heat.new_caption"),
              {{"day", say("weather.column.day_number"), 0},
               {"new_h", say("weather.column.new_h"), 1},
               {"returning_h", say("weather.column.returning_h"), 1}},
              {}};
  if (!heat.plan.start_hour) return table;
  for (int day = 1; day <= 5; ++day) {
    table.rows.push_back({cell(day), cell_of(w, heat_key(heat, fmt::format("day/{}/new", day))),
                          cell_of(w, heat_key(heat, fmt::format("day/{}/returning", day)))});
  }
  return table;
}

Reply heat_reply(const store::Store& store, const Entries& entries, Date today, const Progress&) {
  const Scene scene = weather::scene(store, entries, today);
  const HeatToday heat = heat_today(scene);
  Reply reply;
  reply.name = "heat";
  std::vector<Message> lines = heat_lines(reply.workings, scene, heat);
  std::vector<Message> kinder = kinder_lines(reply.workings, scene, heat);
  reply.answer = !heat.air ? say("weather.heat.no_reading_answer") : worked_line(heat);
  reply.parts = {part_of("weather.heading.heat", std::move(lines)),
                 part_of("weather.heading.kinder", std::move(kinder))};
  if (!heat.air) return reply;
  reply.tables.push_back(hours_table(reply.workings, heat));
  if (heat.plan.start_hour) reply.tables.push_back(new_workers_table(reply.workings, heat));
  Chart chart{"hours",
              say("weather.heat.chart", {{"day", heat.air->day}}),
              say("weather.axis.hour"),
              say("weather.axis.wbgt"),
              false,
              false,
              {}};
  Curve sun{say("weather.heat.sun"), Shape::line, Ink::clay, {}, {}, {}};
  Curve shade{say("weather.heat.shade"), Shape::line, Ink::leaf, {}, {}, {}};
  for (const climate::HeatHour& hour : heat.plan.hours) {
    sun.x.push_back(hour.hour + 0.5);
    shade.x.push_back(hour.hour + 0.5);
    sun.y.push_back(hour.wbgt_sun_c);
    shade.y.push_back(hour.wbgt_shade_c);
  }
  chart.curves = {std::move(sun), std::move(shade)};
  reply.charts.push_back(std::move(chart));
  return reply;
}

}  // namespace wildling::plan::weather
