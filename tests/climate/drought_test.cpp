#include "climate/drought.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "stat/lmoments.hpp"
#include "table.hpp"

namespace wildling::climate {
namespace {

struct Wichita {
  std::vector<double> rain, tmax, tmin, mean, thornthwaite, hargreaves, spi1, spi12, spei1, spei12;
};

Wichita wichita() {
  Wichita w;
  for (auto& row : number_rows("drought/wichita.csv")) {
    w.rain.push_back(row.at("prcp_mm"));
    w.tmax.push_back(row.at("tmax_C"));
    w.tmin.push_back(row.at("tmin_C"));
    w.mean.push_back(row.at("tmed_C"));
    w.thornthwaite.push_back(row.at("pet_thornthwaite_mm"));
    w.hargreaves.push_back(row.at("pet_hargreaves_mm"));
    const auto optional = [&](const char* name) {
      return row.contains(name) ? row[name] : std::nan("");
    };
    w.spi1.push_back(optional("spi1"));
    w.spi12.push_back(optional("spi12"));
    w.spei1.push_back(optional("spei1"));
    w.spei12.push_back(optional("spei12"));
  }
  return w;
}

void expect_equal(const std::vector<double>& ours, const std::vector<double>& printed,
                  double tolerance) {
  ASSERT_EQ(ours.size(), printed.size());
  int compared = 0;
  for (std::size_t i = 0; i < ours.size(); ++i) {
    if (std::isnan(printed[i])) continue;
    EXPECT_NEAR(ours[i], printed[i], tolerance) << "month " << i;
    ++compared;
  }
  EXPECT_GT(compared, 300);
}

TEST(Wichita, ThornthwaiteAndHargreavesAreMet) {
  const Wichita w = wichita();
  expect_equal(thornthwaite_mm(w.mean, 1, 37.6475), w.thornthwaite, 1e-6);
  std::vector<double> hargreaves;
  for (std::size_t i = 0; i < w.rain.size(); ++i) {
    hargreaves.push_back(
        hargreaves_month_mm(w.tmax[i], w.tmin[i], static_cast<unsigned>(i % 12) + 1, 37.6475));
  }
  expect_equal(hargreaves, w.hargreaves, 1e-6);
}

TEST(Wichita, SpiOfOneAndTwelveMonthsIsMet) {
  const Wichita w = wichita();
  expect_equal(spi(w.rain, 1, 1, ZeroRule::whole_share), w.spi1, 1e-6);
  expect_equal(spi(w.rain, 1, 12, ZeroRule::whole_share), w.spi12, 1e-6);
}

TEST(Wichita, SpeiOfOneAndTwelveMonthsIsMet) {
  const Wichita w = wichita();
  std::vector<double> balance;
  for (std::size_t i = 0; i < w.rain.size(); ++i) balance.push_back(w.rain[i] - w.thornthwaite[i]);
  expect_equal(spei(balance, 1, 1), w.spei1, 1e-6);
  expect_equal(spei(balance, 1, 12), w.spei12, 1e-6);
}

TEST(Wichita, GammaParametersByMonthAreMet) {
  const Wichita w = wichita();
  int checked = 0;
  for (const auto& [name, one] : published_cases("drought/data.csv")) {
    if (!name.starts_with("spi-spei/wichita_spi1_gamma")) continue;
    std::vector<double> wet;
    for (std::size_t i = static_cast<std::size_t>(one["month"]) - 1; i < w.rain.size(); i += 12) {
      if (w.rain[i] > 0) wet.push_back(w.rain[i]);
    }
    const stat::GammaFit fit = stat::fit_gamma(stat::l_moments(wet));
    for (const Published& out : one.out) {
      EXPECT_NEAR(out.name == "shape" ? fit.shape : fit.scale, out.value, out.tolerance)
          << name << " " << out.name;
      ++checked;
    }
  }
  EXPECT_EQ(checked, 24);
}

// Trap C33: a month with 12 zeros in 30 years.
TEST(Spi, ARainlessMonthIsFiniteByTheNamedConvention) {
  std::vector<double> monthly;
  for (int year = 0; year < 30; ++year) {
    for (int m = 0; m < 12; ++m)
      monthly.push_back(m == 7 && year % 5 < 2 ? 0 : 20 + 7.0 * ((year * 13 + m * 5) % 11));
  }
  EXPECT_NEAR(spi(monthly, 1, 1, ZeroRule::centre_of_mass)[7], -0.8075, 5e-5);
  EXPECT_NEAR(spi(monthly, 1, 1, ZeroRule::whole_share)[7], -0.2533, 5e-5);
}

TEST(Spi, AllZeroMonthsAreNotJudged) {
  const std::vector<double> monthly(360, 0.0);
  for (const double v : spi(monthly, 1, 1, ZeroRule::centre_of_mass)) EXPECT_TRUE(std::isnan(v));
}

TEST(Drought, IsRefusedUnderTwentyYearsInPlainWords) {
  WeatherBook book;
  book.daily.first = make_date(2010, 1, 1);
  book.daily.rain_mm.assign(3650, 4.0);
  const DroughtResult result = drought(book, 3, Parameters::shipped());
  EXPECT_FALSE(result.judged);
  ASSERT_TRUE(result.refused);
  EXPECT_EQ(result.refused->key, "climate.spi_refused");
}

}  // namespace
}  // namespace wildling::climate
