#include "plan/weather/log_lines.hpp"

#include <algorithm>
#include <cmath>

#include "climate/hindcast_workings.hpp"
#include "climate/log_age.hpp"
#include "climate/normals.hpp"
#include "climate/season_workings.hpp"

namespace wildling::plan::weather {
namespace {

std::string day_number(Workings& w, const std::string& key, const char* label, Date day,
                       const climate::Station* station) {
  return leaf(w, key, say(label, {{"day", day}}),
              {static_cast<double>(day.time_since_epoch().count()), "days since 1970-01-01",
               station == nullptr ? Origin::chosen : station->origin,
               station == nullptr ? "" : station->name, ""});
}

std::string today_number(Workings& w, Date today) {
  return day_number(w, "weather/day/today", "weather.node.day", today, nullptr);
}

// Days between today and that day, as a node.
std::string age_node(Workings& w, const Scene& scene, const std::string& key, const char* label,
                     Date day) {
  const std::string then =
      day_number(w, key + "_day", "weather.node.day", day, &scene.book->station);
  return computed(w, key, say(label), "days", "weather.difference",
                  {today_number(w, scene.today), then});
}

// Last day up to `until` with at least so much rain.
std::optional<Date> useful_day(const climate::DailyWeather& daily, Date until, double useful_mm) {
  for (std::size_t i = daily.days(); i-- > 0;) {
    if (daily.day(i) <= until && daily.rain_mm[i] >= useful_mm) return daily.day(i);
  }
  return {};
}

Message months_message(const WetMonths& told) {
  return say("weather.season.wet_months_told",
             {{"months", month_list(told.months)}, {"who", told.who}, {"day", told.day}});
}

}  // namespace

std::optional<std::int64_t> add_log_age(Workings& w, const Scene& scene) {
  if (!scene.book) return {};
  const auto last = climate::last_rain_reading(scene.book->daily);
  if (!last) return {};
  age_node(w, scene, "weather/log/age", "weather.node.log_age", *last);
  return (scene.today - *last).count();
}

Message log_age_line(Workings& w, const Scene& scene) {
  if (!scene.book) return say("weather.no_log_advice");
  const auto age = add_log_age(w, scene);
  if (!age) return say("climate.no_reading");
  return opening(from_gauge(scene, say("weather.log_age",
                                       {{"days", *age},
                                        {"day", *climate::last_rain_reading(scene.book->daily)}})),
                 {{"days", "weather/log/age"}});
}

Message useful_rain_line(Workings& w, const Scene& scene) {
  const climate::DailyWeather& daily = scene.book->daily;
  const double useful = scene.parameters().value("climate.fire.useful_rain_mm");
  parameter(w, scene.parameters(), "climate.fire.useful_rain_mm");
  const auto day = useful_day(daily, scene.today, useful);
  if (!day)
    return opening(from_gauge(scene, say("weather.useful_rain_never", {{"useful", useful}})),
                   {{"useful", "parameter/climate.fire.useful_rain_mm"}});
  age_node(w, scene, "weather/rain/useful_age", "weather.node.useful_age", *day);
  const climate::SinceRain since =
      climate::days_since_rain(daily, std::min(scene.today, daily.last()), useful);
  return opening(
      from_gauge(scene, say("weather.useful_rain",
                            {{"useful", useful},
                             {"day", *day},
                             {"gaps", std::string(since.gap_met ? "yes" : "no")},
                             {"days", static_cast<std::int64_t>((scene.today - *day).count())}})),
      {{"useful", "parameter/climate.fire.useful_rain_mm"}, {"days", "weather/rain/useful_age"}});
}

Message fortnight_line(Workings& w, const Scene& scene) {
  const climate::DailyWeather& daily = scene.book->daily;
  Keys days;
  std::int64_t missing = 0;
  for (int back = 13; back >= 0; --back) {
    const Date day = scene.today - std::chrono::days(back);
    const auto i = daily.index(day);
    if (!i || std::isnan(daily.rain_mm[*i])) {
      ++missing;
      continue;
    }
    days.push_back(
        leaf(w, "weather/rain/" + iso_date(day), say("climate.node.rain", {{"day", day}}),
             {daily.rain_mm[*i], "mm", scene.book->station.origin, scene.book->station.name, ""}));
  }
  const std::string read =
      computed(w, "weather/rain/fortnight_read", say("weather.node.fortnight_read"), "days",
               "weather.count", days);
  const std::string of = leaf(w, "weather/rain/fortnight", say("weather.node.fortnight"),
                              {14, "days", Origin::chosen, "", "two weeks, as people count"});
  computed(w, "weather/rain/fortnight_missing", say("weather.node.fortnight_missing"), "days",
           "weather.difference", {of, read});
  computed(w, "weather/rain/fortnight_sum", say("weather.node.fortnight_sum"), "mm", "weather.sum",
           days);
  return opening(
      from_gauge(scene,
                 say("weather.fortnight",
                     {{"rain", value_of(w, "weather/rain/fortnight_sum")}, {"missing", missing}})),
      {{"rain", "weather/rain/fortnight_sum"}, {"missing", "weather/rain/fortnight_missing"}});
}

const climate::SeasonYear* season_of(const climate::SeasonResult& season, Date today) {
  const climate::SeasonYear* found = nullptr;
  for (const climate::SeasonYear& year : season.years) {
    if (year.start <= today && today - year.start < std::chrono::days(366)) found = &year;
  }
  return found;
}

std::vector<Message> season_lines(Workings& w, const Scene& scene) {
  std::vector<Message> lines;
  if (scene.wet_months && !scene.book) return {months_message(*scene.wet_months)};
  if (!scene.book) return {say("weather.season.no_log")};
  const climate::SeasonResult season = climate::seasons(*scene.book, scene.parameters());
  if (!season.season_told) {
    lines.push_back(season.first_line);
    if (season.first_line.key == "climate.season_log_short" && scene.wet_months)
      lines.push_back(months_message(*scene.wet_months));
    return lines;
  }
  const climate::SeasonYear* year = season_of(season, scene.today);
  if (year == nullptr) return {say("weather.season.no_year")};
  Keys begun;
  for (std::size_t d = 0; d < climate::kOnsetDefinitions; ++d) {
    const auto name = std::string(climate::onset_name(static_cast<climate::OnsetDefinition>(d)));
    const bool yes = year->onset[d] && *year->onset[d] <= scene.today;
    begun.push_back(leaf(w, "weather/season/begun/" + name,
                         say("weather.node.begun", {{"rule", name}}),
                         {yes ? 1.0 : 0.0, "", Origin::measured, scene.book->station.name, ""}));
  }
  const std::string yes = computed(w, "weather/season/begun", say("weather.node.begun_rules"),
                                   "rules", "weather.sum", begun);
  const std::string of = computed(w, "weather/season/rules", say("weather.node.rules"), "rules",
                                  "weather.count", begun);
  lines.push_back(opening(
      from_gauge(scene,
                 say("weather.season.begun", {{"yes", static_cast<std::int64_t>(value_of(w, yes))},
                                              {"of", static_cast<std::int64_t>(value_of(w, of))},
                                              {"start", year->start}})),
      {{"yes", yes}, {"of", of}}));
  return lines;
}

Message opened_hindcast(const climate::Hindcast& hindcast) {
  if (hindcast.refused) return hindcast.first_line;
  return opening(hindcast.first_line, {{"days", "climate/hindcast/days"},
                                       {"skill", "climate/hindcast/skill"},
                                       {"brier", "climate/hindcast/brier"},
                                       {"usual", "climate/hindcast/brier_usual"}});
}

Message hindcast_line(Workings& w, const Scene& scene) {
  const climate::Hindcast hindcast = climate::hindcast(*scene.book, scene.parameters());
  climate::add_hindcast_workings(w, hindcast, scene.parameters());
  return opened_hindcast(hindcast);
}

std::string month_list(const std::vector<int>& months) {
  std::string list;
  for (const int month : months) list += (list.empty() ? "" : ", ") + std::to_string(month);
  return list;
}

LetterPart part_of(const char* heading, std::vector<Message> sentences) {
  return {say(heading), std::move(sentences)};
}

}  // namespace wildling::plan::weather
