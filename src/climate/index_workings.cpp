#include "climate/index_workings.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "climate/climate_workings.hpp"
#include "climate/nodes.hpp"

namespace wildling::climate {
namespace {

using detail::In;
using detail::Keys;
using detail::Nodes;

struct Stretch {
  std::size_t begin = 0, end = 0;
};

struct Context {
  Nodes nodes;
  const WeatherBook& book;
  const YearIndices& year;

  // Days of one month (0: of the year) that the log has.
  Stretch days(unsigned month) const {
    const Date first = make_date(year.year, std::max(1U, month), 1);
    const Date next = month == 0 ? make_date(year.year + 1, 1, 1) : add_months(first, 1);
    const auto place = [&](Date d) {
      const auto offset = (d - book.daily.first).count();
      return static_cast<std::size_t>(
          std::clamp<std::int64_t>(offset, 0, static_cast<std::int64_t>(book.daily.days())));
    };
    return {place(first), place(next)};
  }

  std::string leaf(const char* name, unsigned month, double value, const char* unit) const {
    return nodes.leaf(
        fmt::format("climate/year/{}/{}/{}", year.year, name, month),
        say("climate.node.year_month", {{"what", name}, {"month", make_date(year.year, month, 1)}}),
        value, unit, book.station.origin, book.station.source, "of the days of that month");
  }

  std::string computed(const char* name, double value, const char* unit, const char* formula,
                       Keys inputs) const {
    return nodes.computed(
        fmt::format("climate/year/{}/{}", year.year, name),
        say("climate.node.year_figure", {{"what", name}, {"year", std::int64_t{year.year}}}), value,
        unit, formula, std::move(inputs));
  }

  // One leaf per month that the log has, by `value` of its days.
  template <typename Value>
  Keys months(const char* name, const char* unit, Value value) const {
    Keys keys;
    for (unsigned m = 1; m <= 12; ++m) {
      const Stretch s = days(m);
      if (s.end > s.begin) keys.push_back(leaf(name, m, value(s), unit));
    }
    return keys;
  }
};

std::span<const double> rain_in(const Context& c, const Stretch& s) {
  return std::span(c.book.daily.rain_mm).subspan(s.begin, s.end - s.begin);
}

std::string add_count(const Context& c, const char* name, double limit, int value) {
  return c.computed(name, value, "days", "climate.sum",
                    c.months(name, "days", [&](const Stretch& s) {
                      return static_cast<double>(days_at_least(rain_in(c, s), limit));
                    }));
}

void add_run(const Context& c, const char* name, const DayRun& run) {
  if (run.days == 0) return;
  const auto day = [&](const char* which, std::size_t at) {
    const Date date = c.book.daily.day(at);
    return c.nodes.leaf(fmt::format("climate/year/{}/{}/{}", c.year.year, name, which),
                        say("climate.node.year_run", {{"what", name}, {"which", which}}),
                        day_of_year(date), "", c.book.station.origin, c.book.station.source,
                        iso_date(date));
  };
  c.computed(
      name, run.days, "days", "climate.run_length",
      {day("first", run.first), day("last", run.first + static_cast<std::size_t>(run.days) - 1)});
}

void add_mean(const Context& c, const char* name, const std::vector<double>& column, double value) {
  if (std::isnan(value)) return;
  Keys inputs;
  for (unsigned m = 1; m <= 12; ++m) {
    const Stretch s = c.days(m);
    double sum = 0;
    int n = 0;
    for (std::size_t i = s.begin; i < std::min(s.end, column.size()); ++i) {
      if (!std::isnan(column[i])) sum += column[i], ++n;
    }
    if (n == 0) continue;
    const std::string days = std::string(name) + "_days";
    inputs.insert(inputs.end(),
                  {c.leaf(name, m, sum / n, "degC"), c.leaf(days.c_str(), m, n, "days")});
  }
  c.computed(name, value, "degC", "climate.weighted_mean", inputs);
}

void add_amounts(const Context& c, const Parameters& p) {
  const double wet = p.value("climate.rain.wet_day_mm");
  const YearIndices& y = c.year;
  Keys total = c.months("total", "mm", [&](const Stretch& s) {
    double sum = 0;
    for (const double r : rain_in(c, s)) sum += std::isnan(r) ? 0 : r;
    return sum;
  });
  if (y.totals_mm > 0) {
    total.push_back(c.nodes.leaf(
        fmt::format("climate/year/{}/several_days", y.year),
        say("climate.node.year_several_days", {{"year", std::int64_t{y.year}}}), y.totals_mm, "mm",
        c.book.station.origin, c.book.station.source, "readings over several days, kept whole"));
  }
  c.computed("total", y.total_mm, "mm", "climate.sum", total);
  const auto on_wet = c.computed("prcptot", y.prcptot_mm, "mm", "climate.sum",
                                 c.months("prcptot", "mm", [&](const Stretch& s) {
                                   return rain_on_wet_days_mm(rain_in(c, s), wet);
                                 }));
  const auto wet_days = add_count(c, "wet_days", wet, days_at_least(rain_in(c, c.days(0)), wet));
  if (!std::isnan(y.sdii_mm))
    c.computed("sdii", y.sdii_mm, "mm", "climate.ratio", {on_wet, wet_days});
  c.computed("r95ptot", y.r95ptot_mm, "mm", "climate.sum",
             c.months("r95ptot", "mm", [&](const Stretch& s) {
               double sum = 0;
               for (const double r : rain_in(c, s)) sum += r > y.r95_mm ? r : 0;
               return sum;
             }));
}

}  // namespace

void add_year_workings(Workings& w, const WeatherBook& book, const YearIndices& year,
                       const Parameters& p) {
  const Context c{{w, p}, book, year};
  const double wet = p.value("climate.rain.wet_day_mm");
  add_amounts(c, p);
  for (const int days : {1, 5}) {
    const char* name = days == 1 ? "rx1day" : "rx5day";
    const auto most = c.months(name, "mm", [&](const Stretch& s) {
      return wettest_run(book.daily.rain_mm, s.begin, s.end, days).rain_mm;
    });
    c.computed(name, days == 1 ? year.rx1day_mm : year.rx5day_mm, "mm", "climate.largest", most);
  }
  add_count(c, "r10", 10, year.r10);
  add_count(c, "r20", 20, year.r20);
  const Stretch all = c.days(0);
  add_run(c, "cdd", longest_dry_run(book.daily.rain_mm, all.begin, all.end, wet));
  add_run(c, "cwd", longest_wet_run(book.daily.rain_mm, all.begin, all.end, wet));
  add_mean(c, "tmax", book.daily.tmax_c, year.tmax_mean_c);
  add_mean(c, "tmin", book.daily.tmin_c, year.tmin_mean_c);
}

namespace detail {

void add_index_formulas(Formulas& f) {
  const char* etccdi = "definitions of the Expert Team on Climate Change Detection and Indices";
  f.push_back({"climate.ratio", "a / b", etccdi, [](In x) { return x[0] / x[1]; }});
  f.push_back(
      {"climate.run_length", "last - first + 1", etccdi, [](In x) { return x[1] - x[0] + 1; }});
  f.push_back(
      {"climate.weighted_mean", "sum of mean x days / sum of days", "arithmetic mean", [](In x) {
         double sum = 0, n = 0;
         for (std::size_t i = 0; i + 1 < x.size(); i += 2) sum += x[i] * x[i + 1], n += x[i + 1];
         return sum / n;
       }});
}

}  // namespace detail
}  // namespace wildling::climate
