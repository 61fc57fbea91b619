#include "plan/weather/fire_today.hpp"

#include <algorithm>
#include <cmath>

#include "climate/advice_workings.hpp"
#include "climate/log_age.hpp"
#include "climate/normals.hpp"
#include "plan/weather/log_lines.hpp"
#include "plan/weather/words_of.hpp"

namespace wildling::plan::weather {
namespace {

using climate::FireClass;

// Newest lowest humidity, of today or at most so many days ago.
std::optional<double> afternoon_rh(const Scene& scene) {
  const climate::DailyWeather& daily = scene.book->daily;
  const int most = static_cast<int>(scene.parameters().value("weather.reading_days"));
  for (int back = 0; back <= most; ++back) {
    const auto i = daily.index(scene.today - std::chrono::days(back));
    if (!i) continue;
    const double rh = climate::at_or_missing(daily.rh_min_pct, *i);
    if (!std::isnan(rh)) return rh;
  }
  return {};
}

// The index moved on by dry days from the log's last day to today.
std::optional<double> litter_index(const Scene& scene) {
  climate::DailyWeather daily = scene.book->daily;
  while (daily.last() < scene.today) {
    daily.rain_mm.push_back(std::nan(""));
    for (auto* column : {&daily.tmax_c, &daily.tmin_c, &daily.rh_max_pct, &daily.rh_min_pct,
                         &daily.rh_mean_pct, &daily.wind_m_s, &daily.sun_h}) {
      if (!column->empty()) column->push_back(std::nan(""));
    }
  }
  const std::vector<double> series = climate::keetch_byram_series(daily);
  const auto i = daily.index(scene.today);
  if (series.empty() || !i) return {};
  return series[*i];
}

// Deepest water of the looks at peat blocks.
std::optional<double> peat_water(const Scene& scene) {
  std::optional<double> deepest;
  for (const ground::Block& block : scene.programme.blocks) {
    const auto look = scene.looks.find(block.uid);
    if (!is_peat(block) || look == scene.looks.end() || !look->second.water_below_m.value) continue;
    deepest = std::max(deepest.value_or(-1e9), *look->second.water_below_m.value);
  }
  return deepest;
}

bool has_peat(const Scene& scene) {
  return std::any_of(scene.programme.blocks.begin(), scene.programme.blocks.end(),
                     [](const ground::Block& block) { return is_peat(block); });
}

void read_log(const Scene& scene, climate::FireInputs& inputs) {
  if (!scene.book || climate::no_advice_for(scene.book->daily, scene.today, scene.parameters()))
    return;
  const climate::DailyWeather& daily = scene.book->daily;
  const Date until = std::min(scene.today, daily.last());
  const auto since = climate::days_since_rain(
      daily, until, scene.parameters().value("climate.fire.useful_rain_mm"));
  if (since.days)
    inputs.days_since_useful_rain = *since.days + static_cast<int>((scene.today - until).count());
  inputs.afternoon_rh_pct = afternoon_rh(scene);
  inputs.keetch_byram_mm = litter_index(scene);
}

Message manager_line(const Scene& scene, const FireToday& fire) {
  const FireWord& word = *scene.fire_word;
  return say(fire.result.raised ? "weather.fire.raised" : "weather.fire.not_lowered",
             {{"who", word.who}, {"class", fire_class_name(word.value)}, {"why", word.why}});
}

Message fuel_line(const Message& reason, bool judged, const char* argument, const char* opens) {
  return judged ? opening(reason, {{argument, opens}}) : reason;
}

std::vector<Message> notes_of(Workings& w, const Scene& scene) {
  std::vector<Message> lines;
  if (scene.cured_share) {
    const std::string key =
        leaf(w, "weather/fire/cured_pct", say("weather.node.cured"),
             {100 * *scene.cured_share->value, "%", Origin::measured, scene.cured_share->who, ""});
    lines.push_back(opening(say("weather.fire.cured", {{"share", 100 * *scene.cured_share->value},
                                                       {"day", *scene.cured_share->day}}),
                            {{"share", key}}));
  } else {
    const std::string key = parameter(w, scene.parameters(), "weather.walk_days");
    lines.push_back(opening(
        say("weather.fire.no_walk",
            {{"days", static_cast<std::int64_t>(scene.parameters().value("weather.walk_days"))}}),
        {{"days", key}}));
  }
  lines.push_back(say("weather.fire.no_noon"));
  return lines;
}

}  // namespace

FireToday fire_today(const Scene& scene) {
  FireToday fire;
  read_log(scene, fire.inputs);
  if (scene.cured_share) fire.inputs.cured_share = scene.cured_share->value;
  fire.inputs.water_table_below_m = peat_water(scene);
  if (scene.fire_word) fire.inputs.manager_says = scene.fire_word->value;
  fire.result = climate::fire_class(fire.inputs, scene.parameters());
  return fire;
}

std::vector<Message> fire_lines(Workings& w, const Scene& scene, const FireToday& fire) {
  climate::add_fire_workings(w, fire.inputs, fire.result, scene.parameters());
  std::vector<Message> lines = {fire.result.first_line};
  if (scene.fire_word) lines.push_back(manager_line(scene, fire));
  if (fire.inputs.days_since_useful_rain) {
    leaf(w, "weather/fire/days", say("weather.node.useful_age"),
         {static_cast<double>(*fire.inputs.days_since_useful_rain), "days", Origin::measured,
          scene.book->station.name, ""});
  }
  lines.push_back(fuel_line(fire.result.grass.reason,
                            fire.inputs.days_since_useful_rain.has_value(), "days",
                            "weather/fire/days"));
  lines.push_back(fuel_line(fire.result.litter.reason, fire.inputs.keetch_byram_mm.has_value(),
                            "index", "climate/fire/index"));
  if (has_peat(scene))
    lines.push_back(fuel_line(fire.result.peat.reason, fire.inputs.water_table_below_m.has_value(),
                              "depth", "climate/fire/water_table"));
  for (Message& note : notes_of(w, scene)) lines.push_back(std::move(note));
  for (Message& caveat : gauge_caveats(scene)) lines.push_back(std::move(caveat));
  return lines;
}

namespace {

std::vector<Cell> fuel_row(Workings& w, const char* name, const climate::FuelClass& fuel) {
  const std::string node = std::string("climate/fire/") + name;
  const std::string word = fuel.value ? fire_class_name(*fuel.value) : "unknown";
  return {cell(say(std::string("weather.fuel.") + name)), cell(say("weather.class." + word)),
          fuel.value && w.find(node) != nullptr ? cell_of(w, node, true) : Cell{},
          cell(fuel.reason)};
}

// Class of each of the last days as if asked then.
Chart index_chart(const Scene& scene) {
  Chart chart{"litter_index",
              from_gauge(scene, say("weather.fire.chart")),
              say("weather.axis.day"),
              say("weather.axis.mm"),
              true,
              true,
              {}};
  const std::vector<double> series = climate::keetch_byram_series(scene.book->daily);
  Curve line{say("weather.fire.curve"), Shape::line, Ink::clay, {}, {}, {}};
  const std::size_t n = series.size();
  for (std::size_t i = n > 365 ? n - 365 : 0; i < n; ++i) {
    line.x.push_back(static_cast<double>(scene.book->daily.day(i).time_since_epoch().count()));
    line.y.push_back(series[i]);
  }
  chart.curves.push_back(std::move(line));
  return chart;
}

}  // namespace

Reply fire_reply(const store::Store& store, const Entries& entries, Date today, const Progress&) {
  const Scene scene = weather::scene(store, entries, today);
  const FireToday fire = fire_today(scene);
  Reply reply;
  reply.name = "fire";
  reply.answer = fire.result.first_line;
  std::vector<Message> lines = fire_lines(reply.workings, scene, fire);
  lines.erase(lines.begin());
  lines.push_back(scene.book ? log_age_line(reply.workings, scene) : say("weather.no_log_advice"));
  reply.parts = {
      part_of("weather.heading.why", std::move(lines)),
      part_of("weather.heading.do", {say("weather.fire.do"), say("weather.fire.lowest")})};
  Table table{"fuels",
              say("weather.fire.caption"),
              {{"fuel", say("weather.column.fuel"), 0},
               {"class", say("weather.column.class"), 0},
               {"level", say("weather.column.level"), 0},
               {"reason", say("weather.column.why"), 0}},
              {fuel_row(reply.workings, "grass", fire.result.grass),
               fuel_row(reply.workings, "litter", fire.result.litter)}};
  if (has_peat(scene)) table.rows.push_back(fuel_row(reply.workings, "peat", fire.result.peat));
  reply.tables.push_back(std::move(table));
  if (scene.book && fire.inputs.keetch_byram_mm) reply.charts.push_back(index_chart(scene));
  return reply;
}

}  // namespace wildling::plan::weather
