#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "climate/chain_workings.hpp"
#include "climate/climate_workings.hpp"
#include "climate/normals.hpp"
#include "climate/rain_runs.hpp"
#include "plan/weather/log_lines.hpp"
#include "plan/weather/replies.hpp"

namespace wildling::plan::weather {
namespace {

constexpr std::size_t kMostDays = 36600;  // rows of the table of invented days: a hundred years

struct Invented {
  climate::WeatherBook book;
  Seed seed;
  int years = 0;
};

std::string source_of(const Invented& invented) {
  return fmt::format("generator, seed {}, {} years", invented.seed.value, invented.years);
}

Invented invent(const Scene& scene, const climate::WeatherModel& model, const Entries& entries) {
  Invented invented;
  invented.years = static_cast<int>(whole_of(entries, "years").value_or(30));
  invented.seed = Seed{static_cast<std::uint64_t>(whole_of(entries, "seed").value_or(1))};
  invented.book.station = scene.book->station;
  const Date first = make_date(2001, 1, 1);
  const int days = static_cast<int>((make_date(2001 + invented.years, 1, 1) - first).count());
  invented.book.daily = climate::generate(model, first, days, {}, invented.seed, 0);
  return invented;
}

std::string made_leaf(Workings& w, const std::string& key, const char* label, unsigned month,
                      double value, const char* unit, const Invented& invented) {
  return leaf(w, key, say(label, {{"month", make_date(2001, month, 1)}}),
              {value, unit, Origin::chosen, source_of(invented), "sum over invented days"});
}

Table month_table(Workings& w, const Scene& scene, const Invented& invented) {
  const auto log = climate::month_normals(*scene.book, scene.parameters());
  const auto made = climate::month_normals(invented.book, scene.parameters());
  climate::add_normals_workings(w, *scene.book, log, scene.parameters());
  Table table{"months",
              say("weather.simulate.caption"),
              {{"month", say("weather.column.month"), 0},
               {"log_mm", say("weather.column.log_mm"), 0},
               {"invented_mm", say("weather.column.invented_mm"), 0},
               {"log_rain_days", say("weather.column.log_days"), 1},
               {"invented_rain_days", say("weather.column.invented_days"), 1}},
              {}};
  for (std::size_t m = 0; m < 12; ++m) {
    const auto month = static_cast<unsigned>(m + 1);
    const std::string key = fmt::format("weather/invented/{}/", month);
    const std::string log_key = fmt::format("climate/month/{}/", month);
    const auto known = [&](const char* name, double value) {
      return cell(value, w.find(log_key + name) == nullptr ? std::string() : log_key + name);
    };
    table.rows.push_back(
        {cell(say("weather.month", {{"month", make_date(2001, month, 1)}})),
         known("rain_mean", log[m].rain_mean_mm),
         cell(made[m].rain_mean_mm, made_leaf(w, key + "rain", "weather.node.invented_rain", month,
                                              made[m].rain_mean_mm, "mm", invented)),
         known("rain_days", log[m].rain_days_mean),
         cell(made[m].rain_days_mean, made_leaf(w, key + "days", "weather.node.invented_days",
                                                month, made[m].rain_days_mean, "days", invented))});
  }
  return table;
}

// Runs of wet or dry days without a gap: how many, and their mean length.
struct Runs {
  int count = 0, days = 0;

  [[nodiscard]] double mean() const { return count == 0 ? std::nan("") : 1.0 * days / count; }
};

Runs runs_of(const climate::DailyWeather& daily, double wet_mm, bool wet) {
  Runs runs;
  bool inside = false;
  for (const double rain : daily.rain_mm) {
    const bool hit = !std::isnan(rain) && (rain >= wet_mm) == wet;
    if (hit) {
      ++runs.days;
      runs.count += inside ? 0 : 1;
    }
    inside = hit;
  }
  return runs;
}

double correlation(const std::vector<double>& x, const std::vector<double>& y) {
  double n = 0, sx = 0, sy = 0, sxx = 0, syy = 0, sxy = 0;
  for (std::size_t i = 0; i < std::min(x.size(), y.size()); ++i) {
    if (std::isnan(x[i]) || std::isnan(y[i])) continue;
    n += 1;
    sx += x[i];
    sy += y[i];
    sxx += x[i] * x[i];
    syy += y[i] * y[i];
    sxy += x[i] * y[i];
  }
  const double bottom = std::sqrt((n * sxx - sx * sx) * (n * syy - sy * sy));
  return n < 2 || bottom == 0 ? std::nan("") : (n * sxy - sx * sy) / bottom;
}

std::vector<Cell> pair_row(Workings& w, const std::string& name, double log, double made,
                           const Scene& scene, const Invented& invented) {
  const auto node = [&](const char* which, double value, Origin origin, const std::string& source) {
    if (std::isnan(value)) return Cell{};
    return cell(value,
                leaf(w, "weather/invented/" + name + "/" + which, say("weather.simulate." + name),
                     {value, "", origin, source, "counted over all days"}));
  };
  return {cell(say("weather.simulate." + name)),
          node("log", log, scene.book->station.origin, scene.book->station.name),
          node("made", made, Origin::chosen, source_of(invented))};
}

Table likeness_table(Workings& w, const Scene& scene, const Invented& invented) {
  const double wet_mm = scene.parameters().value("climate.rain.wet_day_mm");
  const climate::DailyWeather& log = scene.book->daily;
  const climate::DailyWeather& made = invented.book.daily;
  Table table{"likeness",
              say("weather.simulate.likeness"),
              {{"what", say("weather.column.what"), 0},
               {"log", say("weather.column.log"), 2},
               {"invented", say("weather.column.invented_value"), 2}},
              {}};
  table.rows.push_back(pair_row(w, "wet_spell", runs_of(log, wet_mm, true).mean(),
                                runs_of(made, wet_mm, true).mean(), scene, invented));
  table.rows.push_back(pair_row(w, "dry_spell", runs_of(log, wet_mm, false).mean(),
                                runs_of(made, wet_mm, false).mean(), scene, invented));
  if (!made.tmax_c.empty() && !made.tmin_c.empty())
    table.rows.push_back(pair_row(w, "tmax_tmin", correlation(log.tmax_c, log.tmin_c),
                                  correlation(made.tmax_c, made.tmin_c), scene, invented));
  if (!made.tmax_c.empty() && !made.rh_mean_pct.empty() && !log.rh_mean_pct.empty())
    table.rows.push_back(pair_row(w, "tmax_rh", correlation(log.tmax_c, log.rh_mean_pct),
                                  correlation(made.tmax_c, made.rh_mean_pct), scene, invented));
  return table;
}

Table day_table(const Invented& invented) {
  const climate::DailyWeather& daily = invented.book.daily;
  Table table{"days",
              say("weather.simulate.days"),
              {{"day", say("field.day"), 0},
               {"rain_mm", say("weather.column.rain"), 1},
               {"tmax_c", say("weather.column.tmax"), 1},
               {"tmin_c", say("weather.column.tmin"), 1},
               {"rh_mean_pct", say("weather.column.rh_mean"), 0}},
              {}};
  for (std::size_t i = 0; i < std::min(daily.days(), kMostDays); ++i) {
    table.rows.push_back({cell(daily.day(i)), cell(daily.rain_mm[i]),
                          cell(climate::at_or_missing(daily.tmax_c, i)),
                          cell(climate::at_or_missing(daily.tmin_c, i)),
                          cell(climate::at_or_missing(daily.rh_mean_pct, i))});
  }
  return table;
}

// Yearly rain of log and of invented days, in one sentence.
Message answer_of(Workings& w, const Invented& invented) {
  Keys log, made;
  for (int month = 1; month <= 12; ++month) {
    const std::string key = fmt::format("climate/month/{}/rain_mean", month);
    if (w.find(key) != nullptr) log.push_back(key);
    made.push_back(fmt::format("weather/invented/{}/rain", month));
  }
  const std::string seen = computed(w, "weather/invented/log_year", say("weather.node.log_year"),
                                    "mm", "weather.sum", log);
  const std::string new_year = computed(
      w, "weather/invented/year", say("weather.node.invented_year"), "mm", "weather.sum", made);
  const std::string years =
      leaf(w, "weather/invented/years", say("weather.node.invented_years"),
           {static_cast<double>(invented.years), "years", Origin::chosen, "", ""});
  return opening(say("weather.simulate.answer", {{"years", std::int64_t{invented.years}},
                                                 {"invented", value_of(w, new_year)},
                                                 {"log", value_of(w, seen)}}),
                 {{"years", years}, {"invented", new_year}, {"log", seen}});
}

}  // namespace

Reply simulate_reply(const store::Store& store, const Entries& entries, Date today,
                     const Progress& progress) {
  const Scene scene = weather::scene(store, entries, today);
  Reply reply;
  reply.name = "simulate";
  const climate::ModelFit fit = climate::fit_weather(log_of(scene).daily, scene.parameters());
  if (!fit.model) {
    reply.answer = *fit.refused;
    return reply;
  }
  check_stop(progress);
  const Invented invented = invent(scene, *fit.model, entries);
  check_stop(progress);
  climate::add_generator_workings(reply.workings, *scene.book, *fit.model, scene.parameters());
  reply.tables = {month_table(reply.workings, scene, invented),
                  likeness_table(reply.workings, scene, invented), day_table(invented)};
  reply.answer = answer_of(reply.workings, invented);
  reply.parts = {part_of("weather.heading.how", {say("weather.simulate.how")})};
  return reply;
}

}  // namespace wildling::plan::weather
