#include "climate/planting_window.hpp"

#include <algorithm>
#include <cmath>

#include "climate/et0_series.hpp"
#include "climate/pit_balance.hpp"

namespace wildling::climate {
namespace {

std::vector<char> missing_rain(const DailyWeather& daily) {
  std::vector<char> missing(daily.days());
  for (std::size_t i = 0; i < missing.size(); ++i)
    missing[i] = std::isnan(daily.rain_mm[i]) ? 1 : 0;
  return missing;
}

double mean(const std::vector<double>& values) {
  double sum = 0;
  for (const double v : values) sum += v;
  return values.empty() ? 0 : sum / static_cast<double>(values.size());
}

std::vector<int> without(const std::vector<int>& all, const std::vector<int>& some) {
  std::vector<int> rest;
  std::set_difference(all.begin(), all.end(), some.begin(), some.end(), std::back_inserter(rest));
  return rest;
}

std::vector<PeriodRecord> records(const std::vector<PeriodCounts>& high,
                                  const std::vector<PeriodCounts>& low) {
  std::vector<PeriodRecord> result;
  for (std::size_t p = 0; p < high.size(); ++p) {
    PeriodRecord record;
    record.period = static_cast<int>(p);
    record.years_judged = static_cast<int>(high[p].judged.size());
    record.years_without_killing_spell = static_cast<int>(high[p].good.size());
    record.years_met = without(high[p].judged, high[p].good);
    record.years_failed = high[p].failed;
    record.years_good = high[p].good;
    record.years_without_killing_spell_low = static_cast<int>(low[p].good.size());
    record.lowest_water_mm = high[p].lowest_water_mm;
    result.push_back(std::move(record));
  }
  return result;
}

// The last plantings of a log have no sixty days after them yet. Nothing to say when none has.
void add_log_end(WindowResult& result, const DailyWeather& daily) {
  const auto look = static_cast<std::size_t>(result.rules.look_ahead_days);
  if (look == 0 || daily.days() < look) return;
  result.window.caveats.push_back(
      say("climate.window_log_end", {{"from", daily.day(daily.days() - look + 1)},
                                     {"look", std::int64_t{result.rules.look_ahead_days}}}));
}

void add_caveats(WindowResult& result, const WeatherBook& book, const Et0Series& et0,
                 const Parameters& parameters) {
  std::vector<Message>& caveats = result.window.caveats;
  const Station& station = book.station;
  const double distance = station.distance_km.value_or(0);
  if (distance > parameters.value("climate.station.on_site_km")) {
    caveats.push_back(say("climate.rain_away", {{"station", station.name}, {"km", distance}}));
  }
  if (station.origin == Origin::told)
    caveats.push_back(say("climate.rain_told", {{"station", station.name}}));
  int failed = 0;
  for (const PeriodRecord& p : result.periods)
    failed = std::max(failed, static_cast<int>(p.years_failed.size()));
  if (failed > 0)
    caveats.push_back(say("climate.years_with_gaps", {{"years", std::int64_t{failed}}}));
  for (const Message& note : et0.notes) caveats.push_back(note);
  caveats.push_back(
      say("climate.killing_assumed", {{"share_mm", result.killing_below_mm},
                                      {"holds_mm", result.ball_holds_mm},
                                      {"days", std::int64_t{result.rules.killing_days}},
                                      {"look", std::int64_t{result.rules.look_ahead_days}}}));
  caveats.push_back(
      say("climate.log_from_to", {{"first", book.daily.first}, {"last", book.daily.last()}}));
  add_log_end(result, book.daily);
}

}  // namespace

WindowRules window_rules(const Parameters& parameters) {
  const auto whole = [&](const char* key) {
    return static_cast<int>(std::lround(parameters.value(key)));
  };
  WindowRules rules;
  rules.look_ahead_days = whole("climate.window.look_ahead_days");
  rules.spin_up_days = whole("climate.window.spin_up_days");
  rules.missing_days_most = whole("climate.window.missing_days_most");
  rules.killing_share = parameters.value("climate.killing.share");
  rules.killing_days = whole("climate.killing.days");
  rules.least_share = parameters.value("climate.window.least_share");
  rules.years_least = whole("climate.window.years_least");
  rules.years_for_plain_words = whole("climate.window.years_for_plain_words");
  rules.longest_periods = whole("climate.window.longest_periods");
  rules.shortest_periods = whole("climate.window.shortest_periods");
  rules.near_best = parameters.value("climate.window.near_best");
  return rules;
}

WindowResult planting_windows(const WeatherBook& book, const Parameters& parameters,
                              std::optional<double> et0_override) {
  check(book);
  WindowResult result;
  result.rules = window_rules(parameters);
  const PitSettings pit = pit_settings(parameters);
  const Et0Series et0 = et0_series(book, parameters, et0_override);
  result.et0_low_mm_d = mean(et0.low_mm);
  result.et0_high_mm_d = mean(et0.high_mm);
  result.et0_assumed = et0.assumed;
  result.ball_holds_mm = pit.ball_holds_mm;
  result.killing_below_mm = result.rules.killing_share * pit.ball_holds_mm;
  result.first_year = year_of(book.daily.first);
  result.last_year = year_of(book.daily.last());

  const std::vector<char> missing = missing_rain(book.daily);
  const auto counts = [&](const std::vector<double>& et0_mm) {
    return count_periods(book.daily.first, pit_balance(book.daily, et0_mm, pit).ball_mm, missing,
                         result.killing_below_mm, result.rules);
  };
  const std::vector<PeriodCounts> high = counts(et0.high_mm);
  result.periods = records(high, et0.assumed ? counts(et0.low_mm) : high);
  result.window = choose_window(result.periods, result.rules);
  add_caveats(result, book, et0, parameters);
  return result;
}

}  // namespace wildling::climate
