// Two questions about the log itself: was the advice any good, and which readings are odd.
#include <fmt/format.h>

#include "climate/hindcast_workings.hpp"
#include "climate/quality.hpp"
#include "climate/quality_workings.hpp"
#include "plan/weather/log_lines.hpp"
#include "plan/weather/replies.hpp"

namespace wildling::plan::weather {
namespace {

Table reliability_table(const Workings& w, const climate::Hindcast& hindcast) {
  Table table{"reliability",
              say("weather.hindcast.caption"),
              {{"from_pct", say("weather.column.from_pct"), 0},
               {"to_pct", say("weather.column.to_pct"), 0},
               {"days", say("weather.column.days"), 0},
               {"said_pct", say("weather.column.said"), 0},
               {"came_pct", say("weather.column.came"), 0}},
              {}};
  int number = 0;
  for (const climate::ReliabilityBin& bin : hindcast.reliability) {
    const std::string key = fmt::format("climate/hindcast/bin/{}/", ++number);
    const auto percent = [&](const char* name, double share) {
      if (bin.days == 0) return Cell{};
      return cell(100 * share, w.find(key + name) == nullptr ? std::string() : key + name);
    };
    table.rows.push_back({cell(100 * bin.from), cell(100 * bin.to), cell_of(w, key + "days", true),
                          percent("forecast", bin.mean_forecast), percent("good", bin.share_good)});
  }
  return table;
}

struct YearScore {
  int days = 0;
  double squares = 0, usual = 0;
};

Table year_table(const climate::Hindcast& hindcast, Workings& w) {
  std::map<int, YearScore> years;
  for (const climate::HindcastDay& day : hindcast.days) {
    YearScore& year = years[year_of(day.day)];
    const double came = day.good ? 1 : 0;
    ++year.days;
    year.squares += (day.forecast - came) * (day.forecast - came);
    year.usual += (day.usual - came) * (day.usual - came);
  }
  Table table{"years",
              say("weather.hindcast.years"),
              {{"year", say("weather.column.year"), 0},
               {"days", say("weather.column.days"), 0},
               {"brier", say("weather.column.brier"), 3},
               {"brier_usual", say("weather.column.brier_usual"), 3}},
              {}};
  for (const auto& one : years) {
    const std::string year = std::to_string(one.first);
    const YearScore& score = one.second;
    const std::string key = fmt::format("climate/hindcast/year/{}/", year);
    const auto mean = [&](const char* sum) {
      return computed(w, key + sum + "_mean", say("weather.node.year_score", {{"year", year}}), "",
                      "weather.ratio", {key + sum, key + "days"});
    };
    table.rows.push_back({cell(year), cell(score.days, key + "days"), cell_of(w, mean("squares")),
                          cell_of(w, mean("squares_usual"))});
  }
  return table;
}

Chart reliability_chart(const climate::Hindcast& hindcast) {
  Chart chart{"reliability",
              say("weather.hindcast.chart"),
              say("weather.axis.said"),
              say("weather.axis.came"),
              false,
              true,
              {}};
  Curve came{say("weather.curve.came"), Shape::points, Ink::leaf, {}, {}, {}};
  for (const climate::ReliabilityBin& bin : hindcast.reliability) {
    if (bin.days == 0) continue;
    came.x.push_back(100 * bin.mean_forecast);
    came.y.push_back(100 * bin.share_good);
  }
  chart.curves = {{say("weather.curve.perfect"), Shape::line, Ink::smoke, {0, 100}, {0, 100}, {}},
                  std::move(came)};
  return chart;
}

Table flag_table(const climate::DailyWeather& daily, const std::vector<climate::Flag>& flags) {
  Table table{"flags",
              say("weather.quality.caption"),
              {{"check", say("weather.column.check"), 0},
               {"first", say("weather.column.first"), 0},
               {"last", say("weather.column.last"), 0},
               {"why", say("weather.column.why"), 0}},
              {}};
  for (const climate::Flag& flag : flags) {
    table.rows.push_back(
        {cell(say("weather.check." + std::string(climate::check_name(flag.check)))),
         cell(daily.day(flag.first)), cell(daily.day(flag.last)), cell(flag.message)});
  }
  return table;
}

Table break_table(const Workings& w, const std::vector<climate::BreakResult>& breaks) {
  Table table{"breaks",
              say("weather.quality.breaks"),
              {{"from", say("weather.column.new_level"), 0},
               {"size", say("weather.column.break_size"), 2},
               {"why", say("weather.column.what"), 0}},
              {}};
  for (const climate::BreakResult& one : breaks) {
    const std::string key =
        "climate/quality/break/" + std::string(climate::break_name(one)) + "/size";
    const bool known = one.verdict == climate::BreakVerdict::yes && w.find(key) != nullptr;
    table.rows.push_back(
        {known ? cell(one.from) : Cell{}, known ? cell_of(w, key) : Cell{}, cell(one.first_line)});
  }
  return table;
}

Table weekday_table(const climate::WeekdayBias& bias) {
  Table table{"weekdays",
              say("weather.quality.weekdays"),
              {{"weekday", say("weather.column.weekday"), 0},
               {"read", say("weather.column.read"), 0},
               {"blank", say("weather.column.blank"), 0},
               {"wet", say("weather.column.wet"), 0}},
              {}};
  for (std::size_t d = 0; d < 7; ++d) {
    // 4 January 1970 was a Sunday.
    const Date day = Date(std::chrono::days(3 + static_cast<int>(d)));
    table.rows.push_back({cell(say("weather.weekday", {{"day", day}})), cell(bias.measured[d]),
                          cell(bias.blank[d]), cell(bias.wet[d])});
  }
  return table;
}

}  // namespace

Reply hindcast_reply(const store::Store& store, const Entries& entries, Date today,
                     const Progress&) {
  const Scene scene = weather::scene(store, entries, today);
  Reply reply;
  reply.name = "hindcast";
  const climate::Hindcast hindcast = climate::hindcast(log_of(scene), scene.parameters());
  climate::add_hindcast_workings(reply.workings, hindcast, scene.parameters());
  reply.answer = opened_hindcast(hindcast);
  std::vector<Message> how = {say("weather.hindcast.how"), say("weather.hindcast.brier"),
                              say("climate.outlook_not_survival")};
  for (Message& caveat : gauge_caveats(scene)) how.push_back(std::move(caveat));
  reply.parts = {part_of("weather.heading.how", std::move(how))};
  if (hindcast.refused) return reply;
  reply.tables.push_back(reliability_table(reply.workings, hindcast));
  reply.tables.push_back(year_table(hindcast, reply.workings));
  reply.charts.push_back(reliability_chart(hindcast));
  return reply;
}

Reply quality_reply(const store::Store& store, const Entries& entries, Date today,
                    const Progress&) {
  const Scene scene = weather::scene(store, entries, today);
  const climate::WeatherBook& book = log_of(scene);
  Reply reply;
  reply.name = "quality";
  const auto flags = climate::quality_flags(book.daily, scene.parameters());
  const auto bias = climate::weekday_bias(book.daily, scene.parameters());
  const std::string count =
      counted(reply.workings, "weather/quality/flags", say("weather.node.flags"),
              static_cast<std::int64_t>(flags.size()), "flags", book.station);
  const std::string days =
      counted(reply.workings, "weather/quality/days", say("weather.node.log_days"),
              static_cast<std::int64_t>(book.daily.days()), "days", book.station);
  reply.answer =
      opening(say("weather.quality.answer", {{"flags", static_cast<std::int64_t>(flags.size())},
                                             {"days", static_cast<std::int64_t>(book.daily.days())},
                                             {"station", book.station.name}}),
              {{"flags", count}, {"days", days}});
  const auto breaks = climate::breaks(book.daily, scene.parameters());
  climate::add_quality_workings(reply.workings, book.station, flags, bias, breaks);
  reply.parts = {
      part_of("weather.heading.how",
              {say("weather.quality.nothing_changed"),
               opening(say(bias.biased ? "weather.quality.biased" : "weather.quality.not_biased",
                           {{"wet_p", bias.wet_p}, {"blank_p", bias.blank_p}}),
                       {{"wet_p", "climate/quality/weekday/wet_p"},
                        {"blank_p", "climate/quality/weekday/blank_p"}})})};
  reply.tables = {flag_table(book.daily, flags), break_table(reply.workings, breaks),
                  weekday_table(bias)};
  return reply;
}

}  // namespace wildling::plan::weather
