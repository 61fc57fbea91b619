#include "plan/weather/water_today.hpp"

#include <algorithm>
#include <cmath>

#include "climate/climate_workings.hpp"
#include "climate/log_age.hpp"
#include "climate/water_workings.hpp"
#include "plan/weather/log_lines.hpp"

namespace wildling::plan::weather {
namespace {

std::vector<climate::WaterDay> last_days(const Scene& scene, int days) {
  return climate::water_days(*scene.book, scene.today - std::chrono::days(days - 1), scene.today,
                             scene.parameters());
}

std::string holds_node(Workings& w, const Parameters& p) {
  return computed(
      w, "weather/ball/holds", say("climate.node.ball_holds"), "mm", "weather.in_mm",
      {parameter(w, p, "climate.ball.depth_m"), parameter(w, p, "climate.ball.water_share")});
}

std::string limit_node(Workings& w, const Parameters& p) {
  return computed(w, "weather/ball/limit", say("climate.node.killing_below"), "mm",
                  "weather.product", {holds_node(w, p), parameter(w, p, "climate.killing.share")});
}

std::string water_key(Date day, const char* name) {
  return "climate/water/" + iso_date(day) + "/" + name;
}

Message answer_line(Workings& w, const Scene& scene, const climate::WaterDay& newest) {
  const std::string holds = holds_node(w, scene.parameters());
  const std::string limit = limit_node(w, scene.parameters());
  return opening(from_gauge(scene, say("weather.water.answer", {{"day", newest.day},
                                                                {"ball", newest.ball_mm},
                                                                {"holds", value_of(w, holds)},
                                                                {"limit", value_of(w, limit)}})),
                 {{"ball", water_key(newest.day, "ball")}, {"holds", holds}, {"limit", limit}});
}

Cell if_there(const Workings& w, const std::string& key, double value) {
  return cell(value, w.find(key) == nullptr ? std::string() : key);
}

Table water_table(const Workings& w, const Scene& scene,
                  const std::vector<climate::WaterDay>& days) {
  Table table{"water",
              from_gauge(scene, say("weather.water.caption")),
              {{"day", say("field.day"), 0},
               {"rain_mm", say("weather.column.rain"), 1},
               {"et0_mm", say("weather.column.et0"), 1},
               {"ball_mm", say("weather.column.ball"), 1},
               {"hole_mm", say("weather.column.hole"), 1},
               {"stress", say("weather.column.stress"), 2}},
              {}};
  for (auto it = days.rbegin(); it != days.rend(); ++it) {
    const std::string day = iso_date(it->day);
    table.rows.push_back(
        {cell(it->day), it->rain_missing ? Cell{} : if_there(w, "climate/rain/" + day, it->rain_mm),
         if_there(w, "climate/et0/" + day + "/et0", it->et0_mm),
         if_there(w, water_key(it->day, "ball"), it->ball_mm),
         if_there(w, water_key(it->day, "hole"), it->hole_mm),
         if_there(w, water_key(it->day, "ks"), it->ks)});
  }
  return table;
}

std::vector<Message> notes_of(const Scene& scene) {
  std::vector<Message> lines = {say("weather.water.assumed"), say("weather.water.spade")};
  const auto& blocks = scene.programme.blocks;
  if (std::any_of(blocks.begin(), blocks.end(),
                  [&](const ground::Block& block) { return is_wet_ground(scene, block); }))
    lines.push_back(say("weather.wet_ground"));
  for (Message& caveat : gauge_caveats(scene)) lines.push_back(std::move(caveat));
  for (const Message& note : climate::et0_series(*scene.book, scene.parameters(), {}).notes)
    lines.push_back(note);
  return lines;
}

double number_of_day(Date day) {
  return static_cast<double>(day.time_since_epoch().count());
}

}  // namespace

Chart water_chart(const Scene& scene, int days) {
  Chart chart{"water",
              from_gauge(scene, say("weather.water.chart")),
              say("weather.axis.day"),
              say("weather.axis.mm"),
              true,
              true,
              {}};
  Curve rain{say("weather.curve.rain"), Shape::bars, Ink::water, {}, {}, {}};
  Curve ball{say("weather.curve.ball"), Shape::line, Ink::leaf, {}, {}, {}};
  Curve limit{say("weather.curve.limit"), Shape::line, Ink::clay, {}, {}, {}};
  Workings unused;
  const double below = value_of(unused, limit_node(unused, scene.parameters()));
  for (const climate::WaterDay& day : last_days(scene, days)) {
    const double x = number_of_day(day.day);
    for (Curve* curve : {&rain, &ball, &limit}) curve->x.push_back(x);
    rain.y.push_back(day.rain_missing ? std::nan("") : day.rain_mm);
    ball.y.push_back(day.ball_mm);
    limit.y.push_back(below);
  }
  chart.curves = {std::move(rain), std::move(ball), std::move(limit)};
  return chart;
}

Reply water_reply(const store::Store& store, const Entries& entries, Date today, const Progress&) {
  const Scene scene = weather::scene(store, entries, today);
  const int count = static_cast<int>(whole_of(entries, "days").value_or(30));
  const climate::WeatherBook& book = log_of(scene);
  Reply reply;
  reply.name = "water";
  const auto days = last_days(scene, count);
  const auto refused = climate::no_advice_for(book.daily, today, scene.parameters());
  if (days.empty() || (refused && !book.daily.index(today))) {
    add_log_age(reply.workings, scene);
    reply.answer = refused.value_or(say("weather.no_log_advice"));
    if (reply.answer.key == "climate.log_old") reply.answer.opens = {{"days", "weather/log/age"}};
    reply.parts = {part_of("weather.heading.until_then", {say("climate.safe_act_today")})};
    return reply;
  }
  climate::add_water_workings(reply.workings, book, days, scene.parameters());
  reply.answer = answer_line(reply.workings, scene, days.back());
  std::vector<Message> rain = {log_age_line(reply.workings, scene),
                               useful_rain_line(reply.workings, scene),
                               fortnight_line(reply.workings, scene)};
  reply.parts = {part_of("weather.heading.rain", std::move(rain)),
                 part_of("weather.heading.how", notes_of(scene))};
  reply.tables.push_back(water_table(reply.workings, scene, days));
  reply.charts.push_back(water_chart(scene, count));
  return reply;
}

}  // namespace wildling::plan::weather
