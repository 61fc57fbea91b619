#include <cmath>

#include <fmt/format.h>

#include "climate/climate_workings.hpp"
#include "climate/season_workings.hpp"
#include "plan/weather/log_lines.hpp"
#include "plan/weather/replies.hpp"

namespace wildling::plan::weather {
namespace {

std::string rule_name(std::size_t d) {
  return std::string(climate::onset_name(static_cast<climate::OnsetDefinition>(d)));
}

Cell day_cell(const Workings& w, const std::optional<Date>& day, const std::string& key) {
  if (!day) return {};
  return {*day, w.find(key) == nullptr ? std::string() : key};
}

Table onset_table(const Workings& w, const Scene& scene, const climate::SeasonResult& season) {
  Table table{"onset",
              from_gauge(scene, say("weather.season.caption")),
              {{"season", say("weather.column.search"), 0}},
              {}};
  for (std::size_t d = 0; d < climate::kOnsetDefinitions; ++d)
    table.columns.push_back(
        {"onset_" + rule_name(d), say("weather.column.onset_" + rule_name(d)), 0});
  table.columns.push_back({"end_dry_run", say("weather.column.end_dry_run"), 0});
  table.columns.push_back({"end_anomaly", say("weather.column.end_anomaly"), 0});
  for (const climate::SeasonYear& year : season.years) {
    const std::string key = fmt::format("climate/season/{}/", year_of(year.start));
    std::vector<Cell> row = {cell(year.start)};
    for (std::size_t d = 0; d < climate::kOnsetDefinitions; ++d)
      row.push_back(day_cell(w, year.onset[d], key + "onset/" + rule_name(d)));
    row.push_back(day_cell(w, year.end_dry_run, key + "end/dry_run"));
    row.push_back(day_cell(w, year.end_anomaly, key + "end/anomaly"));
    table.rows.push_back(std::move(row));
  }
  return table;
}

Cell node_cell(const Workings& w, const std::string& key, double value) {
  return cell(value, w.find(key) == nullptr ? std::string() : key);
}

Table month_table(const Workings& w, const Scene& scene,
                  const std::array<climate::MonthNormal, 12>& normals) {
  Table table{"months",
              from_gauge(scene, say("weather.season.months")),
              {{"month", say("weather.column.month"), 0},
               {"rain_mean_mm", say("weather.column.rain_mean"), 0},
               {"rain_least_mm", say("weather.column.rain_least"), 0},
               {"rain_most_mm", say("weather.column.rain_most"), 0},
               {"rain_days", say("weather.column.rain_days"), 1},
               {"years", say("weather.column.years"), 0}},
              {}};
  for (const climate::MonthNormal& m : normals) {
    const std::string key = fmt::format("climate/month/{}/", m.month);
    table.rows.push_back(
        {cell(
             say("weather.month", {{"month", make_date(2001, static_cast<unsigned>(m.month), 1)}})),
         node_cell(w, key + "rain_mean", m.rain_mean_mm),
         node_cell(w, key + "rain_least", m.rain_least_mm),
         node_cell(w, key + "rain_most", m.rain_most_mm),
         node_cell(w, key + "rain_days", m.rain_days_mean), cell(m.years)});
  }
  return table;
}

Chart month_chart(const Scene& scene, const std::array<climate::MonthNormal, 12>& normals) {
  Chart chart{"months",
              from_gauge(scene, say("weather.season.chart")),
              say("weather.axis.month"),
              say("weather.axis.mm_month"),
              false,
              true,
              {}};
  Curve mean{say("weather.curve.rain"), Shape::bars, Ink::water, {}, {}, {}};
  Curve range{say("weather.curve.range"), Shape::band, Ink::smoke, {}, {}, {}};
  for (const climate::MonthNormal& m : normals) {
    mean.x.push_back(m.month);
    mean.y.push_back(m.rain_mean_mm);
    range.x.push_back(m.month);
    range.y.push_back(m.rain_most_mm);
    range.low.push_back(m.rain_least_mm);
  }
  chart.curves = {std::move(range), std::move(mean)};
  return chart;
}

Message opened_window(const climate::PlantingWindow& window, const Workings& w) {
  Message line = window.first_line;
  if (!window.found) return line;
  for (const auto& [argument, key] : std::map<std::string, std::string>{
           {"good", "climate/window/good_years"}, {"of", "climate/window/of_years"}}) {
    if (w.find(key) != nullptr) line.opens[argument] = key;
  }
  return line;
}

Reply without_log(const Scene& scene, Reply reply) {
  std::vector<Message> lines = season_lines(reply.workings, scene);
  reply.answer = lines.front();
  reply.parts = {part_of("weather.heading.until_then", {say("climate.safe_act_today")})};
  return reply;
}

}  // namespace

Reply season_reply(const store::Store& store, const Entries& entries, Date today, const Progress&) {
  const Scene scene = weather::scene(store, entries, today);
  Reply reply;
  reply.name = "season";
  if (!scene.book) return without_log(scene, std::move(reply));
  Workings& w = reply.workings;
  const Parameters& p = scene.parameters();
  const climate::SeasonResult season = climate::seasons(*scene.book, p);
  const auto normals = climate::month_normals(*scene.book, p);
  const climate::WindowResult windows = climate::planting_windows(*scene.book, p);
  climate::add_normals_workings(w, *scene.book, normals, p);
  climate::add_season_workings(w, *scene.book, season, p);
  climate::add_window_workings(w, *scene.book, windows, p);
  std::vector<Message> begun = season_lines(w, scene);
  reply.answer = begun.front();
  begun.erase(begun.begin());
  if (season.season_told) begun.push_back(season.first_line);
  for (Message& caveat : gauge_caveats(scene)) begun.push_back(std::move(caveat));
  if (!begun.empty()) reply.parts.push_back(part_of("weather.heading.how", std::move(begun)));
  std::vector<Message> weeks = {opened_window(windows.window, w)};
  for (const Message& line : windows.window.refused) weeks.push_back(line);
  for (const Message& line : windows.window.caveats) weeks.push_back(line);
  reply.parts.push_back(part_of("weather.heading.weeks", std::move(weeks)));
  if (season.season_told) reply.tables.push_back(onset_table(w, scene, season));
  reply.tables.push_back(month_table(w, scene, normals));
  reply.charts.push_back(month_chart(scene, normals));
  return reply;
}

}  // namespace wildling::plan::weather
