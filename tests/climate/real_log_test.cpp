// The generator and the month sums on real logs. Tolerances are standard errors of what the log
// itself can tell.
#include "real_log.hpp"

#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "climate/generator.hpp"
#include "climate/normals.hpp"

namespace wildling::climate {
namespace {

const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

struct Mean {
  double mean = 0, error = 0;  ///< standard error
};

Mean mean_of(const std::vector<double>& x) {
  const auto n = static_cast<double>(x.size());
  double sum = 0, square = 0;
  for (const double v : x) sum += v;
  for (const double v : x) square += (v - sum / n) * (v - sum / n);
  return {sum / n, std::sqrt(square / (n - 1) / n)};
}

// Sums of one calendar month over the years without gaps.
std::vector<double> sums_of_month(const DailyWeather& daily, unsigned month) {
  std::vector<double> sums;
  for (int year = year_of(daily.first); year <= year_of(daily.last()); ++year) {
    const MonthRain rain = month_rain(daily, year, month, 1);
    if (rain.days_missing == 0) sums.push_back(rain.rain_mm);
  }
  return sums;
}

std::vector<double> spells(const DailyWeather& daily, bool wet) {
  std::vector<double> lengths;
  double run = 0;
  for (const double rain : daily.rain_mm) {
    const bool inside = !std::isnan(rain) && (rain >= 1) == wet;
    if (!inside && run > 0) lengths.push_back(run);
    run = inside ? run + 1 : 0;
  }
  return lengths;
}

void expect_same(const Mean& made, const Mean& seen, const std::string& what) {
  const double error = std::hypot(made.error, seen.error);
  EXPECT_NEAR(made.mean, seen.mean, 3.3 * error) << what << ", standard error " << error;
}

const DailyWeather& island() {
  static const DailyWeather log = barro_colorado(1979, 2008);
  return log;
}

const DailyWeather& made_island() {
  static const DailyWeather made = generate(*fit_weather(island(), shipped()).model,
                                            make_date(2101, 1, 1), 365 * 200, {}, Seed{4}, 0);
  return made;
}

TEST(BarroColorado, EveryMonthlyTotalIsThePortals) {
  int months = 0, wet_months = 0;
  for (const CsvRow& row : reference_table("bci/months.csv").rows) {
    double total = 0;
    int wet = 0;
    std::stringstream cells(row.cells[5]);
    for (std::string cell; std::getline(cells, cell, ';');) {
      const std::size_t colon = cell.find(':');
      const double mm = *parse_number(colon == std::string::npos ? cell : cell.substr(colon + 1));
      total += mm;
      wet += mm > 0.1 ? 1 : 0;
    }
    EXPECT_NEAR(total, *parse_number(row.cells[2]), 0.006) << row.cells[0] << "-" << row.cells[1];
    ++months;
    if (row.cells[3].empty()) continue;
    EXPECT_EQ(wet, *parse_number(row.cells[3])) << row.cells[0] << "-" << row.cells[1];
    ++wet_months;
  }
  EXPECT_EQ(months, 1092);
  EXPECT_EQ(wet_months, 1087);
}

// A log holds a day once, so the four months whose days stand twice must differ and no other.
TEST(BarroColorado, OurMonthSumsDifferOnlyWhereTheKeepersCountDaysTwice) {
  const DailyWeather log = barro_colorado(1929, 2019);
  for (const CsvRow& row : reference_table("bci/months.csv").rows) {
    const int year = static_cast<int>(*parse_number(row.cells[0]));
    const auto month = static_cast<unsigned>(*parse_number(row.cells[1]));
    const double off =
        std::abs(month_rain(log, year, month, 1).rain_mm - *parse_number(row.cells[2]));
    const bool twice = year == 2019 && month >= 2 && month <= 5;
    EXPECT_EQ(off > 0.006, twice && *parse_number(row.cells[2]) > 0) << year << "-" << month;
  }
}

TEST(GeneratorOnARealLog, KeepsTheRainOfEveryMonth) {
  for (unsigned m = 1; m <= 12; ++m) {
    expect_same(mean_of(sums_of_month(made_island(), m)), mean_of(sums_of_month(island(), m)),
                "month " + std::to_string(m));
  }
}

TEST(GeneratorOnARealLog, KeepsTheLengthsOfWetAndDrySpells) {
  expect_same(mean_of(spells(made_island(), true)), mean_of(spells(island(), true)), "wet");
  expect_same(mean_of(spells(made_island(), false)), mean_of(spells(island(), false)), "dry");
}

// Off the monthly mean.
std::vector<double> anomalies(const DailyWeather& daily, const std::vector<double>& values) {
  std::array<double, 12> sum{}, n{};
  for (std::size_t i = 0; i < values.size(); ++i) {
    sum[month_of(daily.day(i)) - 1] += values[i];
    n[month_of(daily.day(i)) - 1] += 1;
  }
  std::vector<double> off;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const std::size_t m = month_of(daily.day(i)) - 1;
    off.push_back(values[i] - sum[m] / n[m]);
  }
  return off;
}

double correlation(const std::vector<double>& x, const std::vector<double>& y, std::size_t lag) {
  double xy = 0, xx = 0, yy = 0;
  for (std::size_t i = lag; i < x.size(); ++i) {
    xy += x[i] * y[i - lag];
    xx += x[i] * x[i];
    yy += y[i - lag] * y[i - lag];
  }
  return xy / std::sqrt(xx * yy);
}

// Standard error (1 - r^2)/sqrt(n), n cut by the days' likeness to the day before (Bartlett 1935).
double correlation_error(double r, std::size_t n, double like_x, double like_y) {
  const double product = like_x * like_y;
  return (1 - r * r) / std::sqrt(static_cast<double>(n) * (1 - product) / (1 + product));
}

TEST(GeneratorOnARealLog, KeepsTheCorrelationsOfRainAndTemperatures) {
  const DailyWeather log = seattle();
  const ModelFit fit = fit_weather(log, shipped());
  ASSERT_TRUE(fit.model);
  const DailyWeather made = generate(*fit.model, make_date(2101, 1, 1), 365 * 60, {}, Seed{9}, 0);
  const auto columns = [](const DailyWeather& d) {
    std::vector<double> wet;
    for (const double r : d.rain_mm) wet.push_back(r >= 1 ? 1 : 0);
    return std::array{anomalies(d, wet), anomalies(d, d.tmax_c), anomalies(d, d.tmin_c)};
  };
  const auto seen = columns(log), ours = columns(made);
  std::array<double, 3> like{};
  for (std::size_t c = 0; c < 3; ++c) like[c] = correlation(seen[c], seen[c], 1);
  for (std::size_t k = 0; k < 3; ++k) {
    const std::size_t i = k / 2, j = k == 0 ? 1 : 2;
    const double r = correlation(seen[i], seen[j], 0);
    const double error = correlation_error(r, log.days(), like[i], like[j]);
    EXPECT_NEAR(correlation(ours[i], ours[j], 0), r, 3.3 * error)
        << i << " " << j << ", standard error " << error;
  }
  // Rain is made first and does not follow yesterday's temperature, so days come out somewhat less
  // like the day before than they are (docs/climate.md): never more alike, never by a fifth.
  for (std::size_t c = 1; c < 3; ++c) {
    const double made_like = correlation(ours[c], ours[c], 1);
    EXPECT_LT(made_like, like[c] + 0.05) << c;
    EXPECT_GT(made_like, 0.8 * like[c]) << c;
  }
}

}  // namespace
}  // namespace wildling::climate
