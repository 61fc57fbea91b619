#include "climate/season.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wildling::climate {
namespace {

enum class DrySpell { none, found, unknown };

// A run of `days` days below `mm` inside [from, from + look).
DrySpell dry_spell_in(std::span<const double> rain, std::size_t from, int look, int days,
                      double mm) {
  if (from + static_cast<std::size_t>(look) > rain.size()) return DrySpell::unknown;
  int run = 0;
  bool missing = false;
  for (std::size_t i = from; i < from + static_cast<std::size_t>(look); ++i) {
    missing = missing || std::isnan(rain[i]);
    run = rain[i] < mm ? run + 1 : 0;
    if (run >= days) return DrySpell::found;
  }
  return missing ? DrySpell::unknown : DrySpell::none;
}

double sum_back(std::span<const double> rain, std::size_t last, int days) {
  double sum = 0;
  for (std::size_t i = last + 1 - static_cast<std::size_t>(days); i <= last; ++i) sum += rain[i];
  return sum;
}

SeasonYear one_year(const DailyWeather& daily, Date start, double daily_mean, const Parameters& p) {
  SeasonYear year;
  year.start = start;
  const std::size_t from = *daily.index(start);
  const std::size_t length = std::min<std::size_t>(365, daily.days() - from);
  const std::span<const double> rain(daily.rain_mm.data() + from, length);
  const auto date = [&](const SeasonDay& d) {
    return d.day ? std::optional(daily.day(from + *d.day)) : std::nullopt;
  };
  year.onset[0] = date(onset_after_spell(rain, 0, sivakumar_rule(p)));
  year.onset[1] = date(onset_after_spell(rain, 0, stern_rule(p)));
  year.onset[2] = date(onset_by_sum(rain, 0, p.value("climate.season.accumulated_mm")));
  if (year.onset[0]) {
    const auto begin = static_cast<std::size_t>((*year.onset[0] - start).count());
    year.end_dry_run =
        date(end_by_dry_run(rain, begin + 30, 20, p.value("climate.rain.wet_day_mm")));
  }
  const auto missing =
      std::count_if(rain.begin(), rain.end(), [](double r) { return std::isnan(r); });
  if (length == 365 && static_cast<double>(missing) <= p.value("climate.index.missing_days_most")) {
    const RainyStretch stretch = anomalous_accumulation(rain, daily_mean);
    year.onset[3] = daily.day(from + stretch.onset);
    year.end_anomaly = daily.day(from + stretch.end);
  }
  return year;
}

OnsetSpread spread_of(const std::vector<SeasonYear>& years, std::size_t definition) {
  std::vector<double> days;
  for (const SeasonYear& y : years) {
    if (y.onset[definition])
      days.push_back(static_cast<double>((*y.onset[definition] - y.start).count()));
  }
  if (days.empty()) return {};
  std::sort(days.begin(), days.end());
  const std::size_t n = days.size();
  return {static_cast<int>(n), (days[(n - 1) / 2] + days[n / 2]) / 2, days.front(), days.back()};
}

std::array<double, 12> month_means(const std::array<MonthNormal, 12>& normals) {
  std::array<double, 12> means{};
  for (std::size_t m = 0; m < 12; ++m) means[m] = normals[m].rain_mean_mm;
  return means;
}

}  // namespace

double seasonality_index(std::span<const double> means) {
  double year = 0, off = 0;
  for (const double m : means) year += m;
  for (const double m : means) off += std::abs(m - year / 12);
  return year > 0 ? off / year : std::numeric_limits<double>::quiet_NaN();
}

unsigned driest_middle_month(std::span<const double> means) {
  std::size_t best = 0;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t m = 0; m < 12; ++m) {
    const double sum = means[(m + 11) % 12] + means[m] + means[(m + 1) % 12];
    if (sum < least) {
      least = sum;
      best = m;
    }
  }
  return static_cast<unsigned>(best) + 1;
}

double mean_daily_rain_mm(std::span<const double> means) {
  double year = 0;
  for (const double m : means) year += m;
  return year / 365.25;
}

OnsetRule sivakumar_rule(const Parameters& p) {
  return {3, p.value("climate.season.sivakumar_mm"), 7, 30, p.value("climate.rain.wet_day_mm")};
}

OnsetRule stern_rule(const Parameters& p) {
  return {2, p.value("climate.season.stern_mm"), 10, 30, p.value("climate.season.stern_dry_mm")};
}

SeasonDay onset_after_spell(std::span<const double> rain, std::size_t from, const OnsetRule& rule) {
  SeasonDay result;
  for (std::size_t i = from + static_cast<std::size_t>(rule.wet_days) - 1; i < rain.size(); ++i) {
    if (!(sum_back(rain, i, rule.wet_days) >= rule.amount_mm)) continue;
    const DrySpell after = dry_spell_in(rain, i + 1, rule.look_days, rule.dry_days, rule.dry_mm);
    if (after == DrySpell::unknown) result.unknown = true;
    if (after != DrySpell::none) continue;
    result.day = i;
    return result;
  }
  return result;
}

SeasonDay end_by_dry_run(std::span<const double> rain, std::size_t from, int dry_days,
                         double dry_mm) {
  SeasonDay result;
  int run = 0;
  for (std::size_t i = from; i < rain.size(); ++i) {
    if (std::isnan(rain[i])) result.unknown = true;
    run = rain[i] < dry_mm ? run + 1 : 0;
    if (run < dry_days) continue;
    result.day = i + 1 - static_cast<std::size_t>(dry_days);
    return result;
  }
  return result;
}

SeasonDay onset_by_sum(std::span<const double> rain, std::size_t from, double amount_mm) {
  SeasonDay result;
  double sum = 0;
  for (std::size_t i = from; i < rain.size(); ++i) {
    if (std::isnan(rain[i]))
      result.unknown = true;
    else
      sum += rain[i];
    if (sum < amount_mm) continue;
    result.day = i;
    return result;
  }
  return result;
}

RainyStretch anomalous_accumulation(std::span<const double> rain, double daily_mean_mm) {
  double sum = 0, lowest = 0, best = -1;
  std::size_t low_at = 0;  // first day after the lowest sum so far
  RainyStretch result;
  for (std::size_t i = 0; i < rain.size(); ++i) {
    sum += std::isnan(rain[i]) ? 0 : rain[i] - daily_mean_mm;
    if (sum < lowest) {
      lowest = sum;
      low_at = i + 1;
    } else if (sum - lowest > best) {
      best = sum - lowest;
      result = {low_at, i};
    }
  }
  return result;
}

SeasonResult seasons(const WeatherBook& book, const Parameters& p) {
  check(book);
  const auto normals = rain_normals(book.daily, p);
  SeasonResult result;
  const auto means = month_means(normals);
  result.seasonality = seasonality_index(means);
  const double dry = p.value("climate.month.dry_mm");
  for (const MonthNormal& m : normals) result.dry_months += m.rain_mean_mm < dry ? 1 : 0;
  if (std::isnan(result.seasonality)) {
    result.first_line = say("climate.season_log_short");
    return result;
  }
  if (result.dry_months == 0 && result.seasonality < p.value("climate.season.seasonality_least")) {
    result.first_line = say("climate.season_none");
    return result;
  }
  result.season_told = true;
  result.start_month = driest_middle_month(means);
  const double mean = mean_daily_rain_mm(means);
  for (std::size_t k = 0; k < 12; ++k) {
    const MonthNormal& m = normals[(result.start_month - 1 + k) % 12];
    if (m.rain_mean_mm > mean * 30.4) result.wet_months.push_back(m.month);
  }
  for (int year = year_of(book.daily.first); year <= year_of(book.daily.last()); ++year) {
    const Date start = make_date(year, result.start_month, 1);
    if (book.daily.index(start)) result.years.push_back(one_year(book.daily, start, mean, p));
  }
  for (std::size_t d = 0; d < kOnsetDefinitions; ++d) result.spread[d] = spread_of(result.years, d);
  result.first_line =
      say("climate.season_told", {{"start", make_date(2001, result.start_month, 1)},
                                  {"years", static_cast<std::int64_t>(result.years.size())}});
  return result;
}

}  // namespace wildling::climate
