#include <cmath>

#include <fmt/format.h>

#include "climate/advice_workings.hpp"
#include "climate/drought_workings.hpp"
#include "climate/index_workings.hpp"
#include "plan/weather/log_lines.hpp"
#include "plan/weather/replies.hpp"

namespace wildling::plan::weather {
namespace {

constexpr std::array<int, 5> kScales = {1, 3, 6, 12, 24};

double value_of_year(const climate::YearIndices& year, const std::string& what) {
  const bool temperature = what == "tmax" || what == "tmin";
  if (!temperature && !year.judged) return std::nan("");
  if (what == "total") return year.total_mm;
  if (what == "rx1day") return year.rx1day_mm;
  if (what == "cdd") return year.cdd;
  if (what == "sdii") return year.sdii_mm;
  return what == "tmax" ? year.tmax_mean_c : year.tmin_mean_c;
}

struct Series {
  std::vector<int> years = {};
  std::vector<double> values = {};
};

Series series_of(const std::vector<climate::YearIndices>& years, const std::string& what) {
  Series series;
  for (const climate::YearIndices& year : years) {
    series.years.push_back(year.year);
    series.values.push_back(value_of_year(year, what));
  }
  return series;
}

Message opened_trend(const climate::TrendResult& trend) {
  if (trend.refused) return trend.first_line;
  const std::string key = "climate/trend/" + trend.what + "/";
  return opening(trend.first_line, {{"slope", key + "ten_years"},
                                    {"low", key + "ten_years_low"},
                                    {"high", key + "ten_years_high"},
                                    {"years", key + "years"}});
}

std::vector<Cell> trend_row(Workings& w, const climate::TrendResult& trend) {
  const std::string key = "climate/trend/" + trend.what + "/";
  constexpr std::array<const char*, 4> kVerdicts = {"rising", "falling", "no_change",
                                                    "cannot_tell"};
  std::vector<Cell> row = {cell(say("weather.index." + trend.what))};
  if (trend.refused) {
    row.push_back(cell(say("weather.trend.refused")));
    row.resize(7);
    row[2] = cell(trend.years);
    return row;
  }
  row.push_back(cell(
      say(std::string("weather.trend.") + kVerdicts[static_cast<std::size_t>(trend.verdict)])));
  row.push_back(cell_of(w, key + "years", true));
  row.push_back(cell_of(w, key + "ten_years"));
  row.push_back(cell_of(w, key + "ten_years_low"));
  row.push_back(cell_of(w, key + "ten_years_high"));
  row.push_back(trend.break_after_year ? cell(std::to_string(*trend.break_after_year)) : Cell{});
  return row;
}

Table trend_table(Workings& w, const Scene& scene,
                  const std::vector<climate::TrendResult>& trends) {
  Table table{"trends",
              from_gauge(scene, say("weather.trend.caption")),
              {{"what", say("weather.column.what"), 0},
               {"verdict", say("weather.column.verdict"), 0},
               {"years", say("weather.column.years"), 0},
               {"slope_ten_years", say("weather.column.slope"), 1},
               {"low", say("weather.column.low"), 1},
               {"high", say("weather.column.high"), 1},
               {"break_after", say("weather.column.break_after"), 0}},
              {}};
  for (const climate::TrendResult& trend : trends) table.rows.push_back(trend_row(w, trend));
  return table;
}

struct YearColumn {
  const char* name;
  const char* node;
  int decimals;
  double (*value)(const climate::YearIndices&);
};

const std::vector<YearColumn>& year_columns() {
  using Y = climate::YearIndices;
  static const std::vector<YearColumn> kColumns = {
      {"total_mm", "total", 0, [](const Y& y) { return y.total_mm; }},
      {"rx1day_mm", "rx1day", 0, [](const Y& y) { return y.rx1day_mm; }},
      {"rx5day_mm", "rx5day", 0, [](const Y& y) { return y.rx5day_mm; }},
      {"sdii_mm", "sdii", 1, [](const Y& y) { return y.sdii_mm; }},
      {"r10_days", "r10", 0, [](const Y& y) { return static_cast<double>(y.r10); }},
      {"r20_days", "r20", 0, [](const Y& y) { return static_cast<double>(y.r20); }},
      {"cdd_days", "cdd", 0, [](const Y& y) { return static_cast<double>(y.cdd); }},
      {"cwd_days", "cwd", 0, [](const Y& y) { return static_cast<double>(y.cwd); }},
      {"r95ptot_mm", "r95ptot", 0, [](const Y& y) { return y.r95ptot_mm; }},
      {"tmax_c", "tmax", 1, [](const Y& y) { return y.tmax_mean_c; }},
      {"tmin_c", "tmin", 1, [](const Y& y) { return y.tmin_mean_c; }}};
  return kColumns;
}

Table year_table(const Workings& w, const Scene& scene,
                 const std::vector<climate::YearIndices>& years) {
  Table table{"years",
              from_gauge(scene, say("weather.trend.years")),
              {{"year", say("weather.column.year"), 0}},
              {}};
  for (const YearColumn& column : year_columns()) {
    table.columns.push_back(
        {column.name, say(std::string("weather.column.") + column.node), column.decimals});
  }
  table.columns.push_back({"missing_days", say("weather.column.missing"), 0});
  for (const climate::YearIndices& year : years) {
    std::vector<Cell> row = {cell(std::to_string(year.year))};
    for (const YearColumn& column : year_columns()) {
      const std::string key = fmt::format("climate/year/{}/{}", year.year, column.node);
      const bool temperature = std::string(column.node).starts_with("t") && column.decimals == 1;
      const double value = year.judged || temperature ? column.value(year) : std::nan("");
      row.push_back(cell(value, w.find(key) == nullptr ? std::string() : key));
    }
    row.push_back(cell(year.missing_days));
    table.rows.push_back(std::move(row));
  }
  return table;
}

double newest(const std::vector<double>& values) {
  return values.empty() ? std::nan("") : values.back();
}

Cell drought_cell(const Workings& w, int scale, const char* name, double value) {
  const std::string key = fmt::format("climate/drought/{}/{}", scale, name);
  return cell(value, w.find(key) == nullptr ? std::string() : key);
}

void add_drought(Reply& reply, const Scene& scene, std::vector<Message>& lines) {
  Table table{"drought",
              from_gauge(scene, say("weather.drought.caption")),
              {{"months", say("weather.column.months"), 0},
               {"spi", say("weather.column.spi"), 2},
               {"spei", say("weather.column.spei"), 2},
               {"class", say("weather.column.class"), 0}},
              {}};
  for (const int scale : kScales) {
    const climate::DroughtResult result = climate::drought(*scene.book, scale, scene.parameters());
    if (result.refused) {
      lines.push_back(*result.refused);
      return;
    }
    climate::add_drought_workings(reply.workings, *scene.book, result, scene.parameters());
    const double spi = newest(result.spi), spei = newest(result.spei);
    table.rows.push_back(
        {cell(scale), drought_cell(reply.workings, scale, "spi", spi),
         drought_cell(reply.workings, scale, "spei", spei),
         std::isnan(spi) ? Cell{} : cell(say(std::string(climate::spi_class_key(spi))))});
  }
  lines.push_back(say("weather.drought.read"));
  reply.tables.push_back(std::move(table));
}

Chart total_chart(const Scene& scene, const std::vector<climate::YearIndices>& years,
                  const climate::TrendResult& total) {
  Chart chart{"totals",
              from_gauge(scene, say("weather.trend.chart")),
              say("weather.axis.year"),
              say("weather.axis.mm_year"),
              false,
              true,
              {}};
  Curve bars{say("weather.curve.rain"), Shape::bars, Ink::water, {}, {}, {}};
  Curve slope{say("weather.curve.slope"), Shape::line, Ink::clay, {}, {}, {}};
  for (const climate::YearIndices& year : years) {
    bars.x.push_back(year.year);
    bars.y.push_back(year.judged ? year.total_mm : std::nan(""));
    slope.x.push_back(year.year);
    slope.y.push_back(total.slope.intercept + total.slope.slope * year.year);
  }
  chart.curves = {std::move(bars)};
  if (!total.refused) chart.curves.push_back(std::move(slope));
  return chart;
}

std::vector<Message> break_lines(const std::vector<climate::TrendResult>& trends) {
  std::vector<Message> lines;
  for (const climate::TrendResult& trend : trends) {
    if (trend.break_after_year)
      lines.push_back(
          say("weather.trend.break_line",
              {{"what", trend.what}, {"year", std::to_string(*trend.break_after_year)}}));
  }
  return lines;
}

}  // namespace

Reply trend_reply(const store::Store& store, const Entries& entries, Date today,
                  const Progress& progress) {
  const Scene scene = weather::scene(store, entries, today);
  const climate::WeatherBook& book = log_of(scene);
  Reply reply;
  reply.name = "trend";
  Workings& w = reply.workings;
  const auto years = climate::year_indices(book.daily, scene.parameters());
  const auto trends = climate::trends(years, scene.parameters());
  for (const climate::YearIndices& year : years)
    climate::add_year_workings(w, book, year, scene.parameters());
  std::vector<Message> lines;
  for (const climate::TrendResult& trend : trends) {
    check_stop(progress);
    const Series series = series_of(years, trend.what);
    climate::add_trend_workings(w, trend, series.years, series.values, scene.parameters());
    lines.push_back(opened_trend(trend));
  }
  reply.answer = lines.front();
  lines.erase(lines.begin());
  for (Message& line : break_lines(trends)) lines.push_back(std::move(line));
  reply.tables.push_back(trend_table(w, scene, trends));
  reply.tables.push_back(year_table(w, scene, years));
  std::vector<Message> drought;
  add_drought(reply, scene, drought);
  for (Message& caveat : gauge_caveats(scene)) lines.push_back(std::move(caveat));
  reply.parts = {part_of("weather.heading.others", std::move(lines)),
                 part_of("weather.heading.drought", std::move(drought))};
  reply.charts.push_back(total_chart(scene, years, trends.front()));
  return reply;
}

}  // namespace wildling::plan::weather
