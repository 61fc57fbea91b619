#include "climate/season_workings.hpp"

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

constexpr std::array<std::string_view, kOnsetDefinitions> kNames = {"sivakumar", "stern",
                                                                    "accumulated", "anomaly"};

double or_missing(const SeasonDay& day) {
  return day.day ? static_cast<double>(*day.day) : std::nan("");
}

// wet days, amount, dry days, days looked at, dry limit, then rain
double onset_spell(In x) {
  const OnsetRule rule{static_cast<int>(x[0]), x[1], static_cast<int>(x[2]), static_cast<int>(x[3]),
                       x[4]};
  return or_missing(onset_after_spell(x.subspan(5), 0, rule));
}

double median(In x) {
  std::vector<double> v(x.begin(), x.end());
  std::sort(v.begin(), v.end());
  return (v[(v.size() - 1) / 2] + v[v.size() / 2]) / 2;
}

/// What every year's nodes need.
struct Context {
  Nodes nodes;
  const WeatherBook& book;
  std::string mean_day;
  Keys sivakumar, stern, accumulated, end_run;  ///< settings of the rules
};

std::string rule_number(const Nodes& n, std::string_view rule, std::string_view what, double value,
                        const char* source) {
  return n.leaf(
      fmt::format("climate/season/rule/{}/{}", rule, what),
      say("climate.node.season_rule", {{"rule", std::string(rule)}, {"what", std::string(what)}}),
      value, "days", Origin::documented, source);
}

Keys spell_rule(const Nodes& n, std::string_view name, const OnsetRule& rule, const char* amount,
                const char* dry_mm, const char* source) {
  return {rule_number(n, name, "wet_days", rule.wet_days, source), n.parameter(amount),
          rule_number(n, name, "dry_days", rule.dry_days, source),
          rule_number(n, name, "look_days", rule.look_days, source), n.parameter(dry_mm)};
}

// Rain as read: a missing day is missing here, not dry.
Keys rain_of(const Context& c, std::size_t from, std::size_t length) {
  Keys keys;
  for (std::size_t i = from; i < from + length; ++i) {
    const Date day = c.book.daily.day(i);
    const bool missing = std::isnan(c.book.daily.rain_mm[i]);
    keys.push_back(
        c.nodes.leaf(detail::day_key(missing ? "climate/rain_missing/" : "climate/rain/", day),
                     detail::day_label("climate.node.rain", day), c.book.daily.rain_mm[i], "mm",
                     c.book.station.origin, c.book.station.source, missing ? "not read" : ""));
  }
  return keys;
}

Keys joined(Keys first, const Keys& second) {
  first.insert(first.end(), second.begin(), second.end());
  return first;
}

struct YearNodes {
  const Context& c;
  const SeasonYear& year;
  Keys rain;  ///< empty: not opened

  std::string add(const std::string& name, const Message& label, const std::optional<Date>& day,
                  const char* formula, const Keys& settings) const {
    if (!day) return "";
    const std::string key = fmt::format("climate/season/{}/{}", year_of(year.start), name);
    const auto value = static_cast<double>((*day - year.start).count());
    if (rain.empty()) {
      return c.nodes.leaf(key, label, value, "days", c.book.station.origin, c.book.station.source,
                          "by the same rule on the days of that year");
    }
    return c.nodes.computed(key, label, value, "days", formula, joined(settings, rain));
  }
};

void add_year(const Context& c, const SeasonYear& year, bool open,
              std::array<Keys, kOnsetDefinitions>& onsets) {
  YearNodes nodes{c, year, {}};
  if (open) {
    const std::size_t from = *c.book.daily.index(year.start);
    nodes.rain = rain_of(c, from, std::min<std::size_t>(365, c.book.daily.days() - from));
  }
  const auto label = [&](const char* key, std::string_view rule) {
    return say(key, {{"rule", std::string(rule)}, {"start", year.start}});
  };
  const std::array<const char*, 4> formulas = {"climate.onset_spell", "climate.onset_spell",
                                               "climate.onset_sum", "climate.onset_anomaly"};
  const std::array<Keys, 4> settings = {c.sivakumar, c.stern, c.accumulated, Keys{c.mean_day}};
  for (std::size_t d = 0; d < kOnsetDefinitions; ++d) {
    const std::string key =
        nodes.add("onset/" + std::string(kNames[d]), label("climate.node.season_onset", kNames[d]),
                  year.onset[d], formulas[d], settings[d]);
    if (!key.empty()) onsets[d].push_back(key);
  }
  if (year.end_dry_run) {
    const auto onset = fmt::format("climate/season/{}/onset/sivakumar", year_of(year.start));
    nodes.add("end/dry_run", label("climate.node.season_end", "dry_run"), year.end_dry_run,
              "climate.season_end_run", joined({onset}, c.end_run));
  }
  nodes.add("end/anomaly", label("climate.node.season_end", "anomaly"), year.end_anomaly,
            "climate.season_end_anomaly", {c.mean_day});
}

void add_spread(const Nodes& n, const SeasonResult& season,
                const std::array<Keys, kOnsetDefinitions>& onsets) {
  for (std::size_t d = 0; d < kOnsetDefinitions; ++d) {
    const OnsetSpread& s = season.spread[d];
    if (s.years == 0) continue;
    const auto add = [&](const char* what, double value, const char* unit, const char* formula) {
      n.computed(
          fmt::format("climate/season/onset/{}/{}", kNames[d], what),
          say("climate.node.season_spread", {{"rule", std::string(kNames[d])},
                                             {"what", what},
                                             {"start", make_date(2001, season.start_month, 1)}}),
          value, unit, formula, onsets[d]);
    };
    add("years", s.years, "years", "climate.how_many");
    add("middle", s.middle, "days", "climate.median");
    add("earliest", s.earliest, "days", "climate.smallest");
    add("latest", s.latest, "days", "climate.largest");
  }
}

std::optional<int> newest_with_onset(const SeasonResult& season) {
  for (auto y = season.years.rbegin(); y != season.years.rend(); ++y) {
    if (std::any_of(y->onset.begin(), y->onset.end(), [](const auto& o) { return o.has_value(); }))
      return year_of(y->start);
  }
  return {};
}

}  // namespace

std::string_view onset_name(OnsetDefinition definition) {
  return kNames[static_cast<std::size_t>(definition)];
}

void add_season_workings(Workings& w, const WeatherBook& book, const SeasonResult& season,
                         const Parameters& p, std::optional<int> open_year) {
  const auto normals = rain_normals(book.daily, p);
  add_normals_workings(w, book, normals, p);
  const Nodes n{w, p};
  Keys means;
  for (const MonthNormal& m : normals) {
    if (m.years > 0) means.push_back(fmt::format("climate/month/{}/rain_mean", m.month));
  }
  n.computed("climate/season/dry_months", say("climate.node.dry_months"), season.dry_months,
             "months", "climate.how_many_below",
             joined({n.parameter("climate.month.dry_mm")}, means));
  if (std::isnan(season.seasonality)) return;
  n.computed("climate/season/seasonality", say("climate.node.seasonality"), season.seasonality, "",
             "climate.seasonality", means);
  if (!season.season_told) return;
  n.computed("climate/season/start_month", say("climate.node.season_start"), season.start_month, "",
             "climate.driest_middle", means);
  std::vector<double> values;
  for (const std::string& key : means) values.push_back(w.find(key)->value);
  const char* sivakumar = "Sivakumar (1988), Agric. For. Meteorol. 42:295";
  const Context c{
      n,
      book,
      n.computed("climate/season/mean_day", say("climate.node.mean_day"),
                 mean_daily_rain_mm(values), "mm", "climate.mean_day", means),
      spell_rule(n, "sivakumar", sivakumar_rule(p), "climate.season.sivakumar_mm",
                 "climate.rain.wet_day_mm", sivakumar),
      spell_rule(n, "stern", stern_rule(p), "climate.season.stern_mm",
                 "climate.season.stern_dry_mm", "Stern, Dennett & Dale (1982), Exp. Agric. 18:223"),
      {n.parameter("climate.season.accumulated_mm")},
      {rule_number(n, "end_run", "look_days", 30, sivakumar),
       rule_number(n, "end_run", "dry_days", 20, sivakumar),
       n.parameter("climate.rain.wet_day_mm")}};
  const std::optional<int> open = open_year ? open_year : newest_with_onset(season);
  std::array<Keys, kOnsetDefinitions> onsets;
  for (const SeasonYear& year : season.years)
    add_year(c, year, open == year_of(year.start), onsets);
  add_spread(n, season, onsets);
}

namespace detail {

void add_season_formulas(Formulas& f) {
  const char* walsh = "Walsh & Lawler (1981), Weather 36:201-208";
  const char* liebmann = "Liebmann & Marengo (2001), J. Climate 14:4308";
  const char* own = "this program, docs/climate.md";
  f.push_back({"climate.seasonality", "sum |month - year/12| / year", walsh,
               [](In x) { return seasonality_index(x); }});
  f.push_back({"climate.driest_middle", "middle of the three months on end with least rain", own,
               [](In x) -> double { return driest_middle_month(x); }});
  f.push_back({"climate.mean_day", "sum of the months / 365.25", own,
               [](In x) { return mean_daily_rain_mm(x); }});
  f.push_back({"climate.how_many_below", "how many are below the limit", own, [](In x) {
                 return static_cast<double>(
                     std::count_if(x.begin() + 1, x.end(), [&](double v) { return v < x[0]; }));
               }});
  f.push_back({"climate.median", "median", own, median});
  f.push_back({"climate.smallest", "the lowest", own,
               [](In x) { return *std::min_element(x.begin(), x.end()); }});
  f.push_back({"climate.onset_spell",
               "first day on which the last days' rain reaches the amount and no dry run follows",
               "Sivakumar (1988), Agric. For. Meteorol. 42:295; Stern, Dennett & Dale (1982), "
               "Exp. Agric. 18:223",
               onset_spell});
  f.push_back({"climate.onset_sum",
               "first day on which the rain since the start reaches the amount",
               "Morris & Zandstra (1979)",
               [](In x) { return or_missing(onset_by_sum(x.subspan(1), 0, x[0])); }});
  f.push_back(
      {"climate.onset_anomaly", "day after the lowest sum of rain less its mean", liebmann,
       [](In x) { return static_cast<double>(anomalous_accumulation(x.subspan(1), x[0]).onset); }});
  f.push_back(
      {"climate.season_end_anomaly", "day of the highest sum of rain less its mean", liebmann,
       [](In x) { return static_cast<double>(anomalous_accumulation(x.subspan(1), x[0]).end); }});
  f.push_back({"climate.season_end_run",
               "first of so many dry days on end, looked for some days after the onset",
               "Sivakumar (1988), Agric. For. Meteorol. 42:295", [](In x) {
                 const auto from = static_cast<std::size_t>(x[0] + x[1]);
                 return or_missing(
                     end_by_dry_run(x.subspan(4), from, static_cast<int>(x[2]), x[3]));
               }});
}

}  // namespace detail
}  // namespace wildling::climate
