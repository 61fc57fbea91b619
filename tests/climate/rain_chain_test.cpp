#include "climate/rain_chain.hpp"

#include <cmath>
#include <sstream>

#include <gtest/gtest.h>

#include "base/random.hpp"
#include "climate/generator.hpp"
#include "climate/normals.hpp"
#include "table.hpp"

namespace wildling::climate {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

TEST(RainChain, CountsOfIthacaAndTelAvivAreMet) {
  std::map<std::string, double> ithaca;
  for (const CsvRow& row : reference_table("rain_chain/data.csv").rows) {
    if (row.cells[0] != "markov/wilks_ithaca_jan1987" || row.cells[2] != "daily_precip") continue;
    std::vector<double> rain;
    std::stringstream stream(row.cells[3]);
    for (std::string cell; std::getline(stream, cell, ';');) rain.push_back(*parse_number(cell));
    const PairCounts c = pair_counts(rain, 0.01);
    ithaca = {{"n00", c.n00},
              {"n01", c.n01},
              {"n10", c.n10},
              {"n11", c.n11},
              {"p01", c.p01()},
              {"p11", c.p11()},
              {"pi_wet", c.stationary_wet()},
              {"r1", c.persistence()}};
  }
  const PairCounts t{1399 - 350, 350, 1038 - 688, 688};
  const std::map<std::string, double> tel_aviv = {{"p_WW", t.p11()},
                                                  {"p_WD", t.p01()},
                                                  {"persistence_d", t.persistence()},
                                                  {"pi_wet", t.stationary_wet()},
                                                  {"mean_wet_spell", t.mean_wet_spell()},
                                                  {"mean_dry_spell", t.mean_dry_spell()}};
  int checked = 0;
  for (const auto& [name, one] : published_cases("rain_chain/data.csv")) {
    if (!name.starts_with("markov/")) continue;
    const auto& values = name.ends_with("1987") ? ithaca : tel_aviv;
    for (const Published& out : one.out) {
      EXPECT_NEAR(values.at(out.name), out.value, out.tolerance + 1e-12) << name << " " << out.name;
      ++checked;
    }
  }
  EXPECT_EQ(checked, 14);
}

// Invented rain of a known chain: order `order`, seasonal or not.
DailyWeather invented(int years, int order, bool seasonal) {
  DailyWeather daily;
  daily.first = make_date(1990, 1, 1);
  Stream luck(Seed{3}, Purpose{"chain test"}, static_cast<std::uint64_t>(order));
  bool one = false, two = false;
  for (Date d = daily.first; d < make_date(1990 + years, 1, 1); d += std::chrono::days(1)) {
    double p = 0.4;
    if (order >= 1) p = one ? 0.65 : 0.3;
    if (order >= 2) p += two ? 0.15 : -0.15;
    if (seasonal) p += 0.2 * std::cos(2 * 3.14159265 * day_of_year(d) / 365.25);
    const bool wet = luck.uniform() < p;
    two = one;
    one = wet;
    daily.rain_mm.push_back(wet ? 1 + 12 * luck.gamma(0.8) : 0);
    daily.tmax_c.push_back(32 - (wet ? 1.5 : 0) + luck.normal());
    daily.tmin_c.push_back(23 + 0.5 * (daily.tmax_c.back() - 32) + 0.4 * luck.normal());
  }
  return daily;
}

TEST(RainChain, BicFindsTheOrderAndTheSeason) {
  EXPECT_EQ(choose_chain(invented(12, 0, false), shipped()).best.order, 0);
  EXPECT_EQ(choose_chain(invented(12, 1, false), shipped()).best.order, 1);
  EXPECT_EQ(choose_chain(invented(12, 2, false), shipped()).best.order, 2);
  EXPECT_EQ(choose_chain(invented(12, 1, false), shipped()).best.harmonics, 0);
  EXPECT_GE(choose_chain(invented(12, 1, true), shipped()).best.harmonics, 1);
}

TEST(RainChain, WithoutHarmonicsItIsTheCountedShare) {
  const DailyWeather daily = invented(10, 1, false);
  const RainChain chain = fit_chain(detail::wet_days(daily, 1), detail::days_of_year(daily), 1, 0);
  EXPECT_NEAR(chain.wet_chance(1, 100), pair_counts(daily.rain_mm, 1).p11(),
              2e-3);  // pairs differ by three days
  EXPECT_NEAR(chain.wet_chance(0, 100), pair_counts(daily.rain_mm, 1).p01(), 2e-3);
}

TEST(RainChain, IsRefusedOnAYear) {
  EXPECT_TRUE(choose_chain(invented(1, 1, false), shipped()).refused);
}

double mean(const std::vector<double>& x) {
  double sum = 0;
  for (const double v : x) sum += v;
  return sum / static_cast<double>(x.size());
}

double correlation(const std::vector<double>& x, const std::vector<double>& y) {
  double xy = 0, xx = 0, yy = 0;
  const double mx = mean(x), my = mean(y);
  for (std::size_t i = 0; i < x.size(); ++i) {
    xy += (x[i] - mx) * (y[i] - my);
    xx += (x[i] - mx) * (x[i] - mx);
    yy += (y[i] - my) * (y[i] - my);
  }
  return xy / std::sqrt(xx * yy);
}

TEST(Generator, KeepsMonthlyRainSpellLengthsAndCorrelations) {
  const DailyWeather log = invented(20, 1, true);
  const ModelFit fit = fit_weather(log, shipped());
  ASSERT_TRUE(fit.model);
  const DailyWeather made = generate(*fit.model, make_date(2100, 1, 1), 365 * 60, {}, Seed{1}, 0);
  WeatherBook a, b;
  a.daily = log;
  b.daily = made;
  const auto seen = month_normals(a), simulated = month_normals(b);
  for (std::size_t m = 0; m < 12; ++m) {
    // a month's sum has a spread of about 55 mm: 4 standard errors of 20 and 60 years, and 8 % for
    // the harmonics
    EXPECT_NEAR(simulated[m].rain_mean_mm, seen[m].rain_mean_mm,
                4 * 55 * std::sqrt(1 / 20.0 + 1 / 60.0))
        << m;
  }
  const PairCounts x = pair_counts(log.rain_mm, 1), y = pair_counts(made.rain_mm, 1);
  EXPECT_NEAR(y.mean_wet_spell(), x.mean_wet_spell(), 0.12);
  EXPECT_NEAR(y.mean_dry_spell(), x.mean_dry_spell(), 0.15);
  EXPECT_NEAR(mean(made.tmax_c), mean(log.tmax_c), 0.1);
  EXPECT_NEAR(correlation(made.tmax_c, made.tmin_c), correlation(log.tmax_c, log.tmin_c), 0.03);
}

TEST(Generator, EachContinuationHasItsOwnRepeatableLuck) {
  const WeatherModel model = *fit_weather(invented(5, 1, false), shipped()).model;
  const auto run = [&](std::uint64_t i) {
    return generate(model, make_date(2030, 1, 1), 60, {5, 0}, Seed{7}, i).rain_mm;
  };
  EXPECT_EQ(run(3), run(3));
  EXPECT_NE(run(3), run(4));
}

}  // namespace
}  // namespace wildling::climate
