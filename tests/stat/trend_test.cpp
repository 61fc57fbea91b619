#include "stat/trend.hpp"

#include <cmath>
#include <limits>
#include <sstream>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "../climate/table.hpp"
#include "stat/normal.hpp"

namespace wildling::stat {
namespace {

struct Series {
  std::vector<double> t, x;
};

Series series_of(const std::string& name) {
  Series series;
  for (const CsvRow& row : climate::reference_table("trend/series.csv").rows) {
    if (row.cells[0] != name) continue;
    const auto t = parse_number(row.cells[2]), x = parse_number(row.cells[3]);
    series.t.push_back(t ? *t : static_cast<double>(series.t.size() + 1));
    series.x.push_back(x ? *x : std::numeric_limits<double>::quiet_NaN());
  }
  return series;
}

Series month_of_nottingham(std::size_t month) {
  const Series all = series_of("nottem_monthly");
  Series one;
  for (std::size_t i = month - 1; i < all.x.size(); i += 12) {
    one.x.push_back(all.x[i]);
    one.t.push_back(static_cast<double>(one.t.size()));
  }
  return one;
}

Series input_of(const std::string& text) {
  if (text.starts_with("nottem_monthly month"))
    return month_of_nottingham(text.ends_with("8") ? 8 : 9);
  if (text.find(';') == std::string::npos) return series_of(text);
  Series series;
  std::stringstream stream(text);
  for (std::string cell; std::getline(stream, cell, ';');) {
    series.x.push_back(*parse_number(cell));
    series.t.push_back(static_cast<double>(series.t.size()));
  }
  return series;
}

std::vector<double> without_missing(const std::vector<double>& x) {
  std::vector<double> values;
  for (const double v : x) {
    if (!std::isnan(v)) values.push_back(v);
  }
  return values;
}

// Gaps closed, first-order term (and, trend-free, the trend) taken off.
std::vector<double> whitened(const Series& series, bool trend_free) {
  std::vector<double> x = without_missing(series.x);
  std::vector<double> steps;
  for (std::size_t i = 0; i < x.size(); ++i) steps.push_back(static_cast<double>(i + 1));
  const double slope = trend_free ? sen_slope(series.t, series.x).slope : 0;
  for (std::size_t i = 0; i < x.size(); ++i) x[i] -= slope * steps[i];
  const double r = lag_one(x);
  std::vector<double> y;
  for (std::size_t i = 1; i < x.size(); ++i) y.push_back(x[i] - r * x[i - 1] + slope * steps[i]);
  return y;
}

std::map<std::string, double> of_test(const MannKendall& t) {
  return {{"S", t.s},
          {"var_S", t.var_s},
          {"Z", t.z},
          {"p_two_sided", t.p},
          {"tau_a", t.tau_a},
          {"tau_b", t.tau_b},
          {"p_no_continuity", normal_two_sided(t.s / std::sqrt(t.var_s))}};
}

std::map<std::string, double> of_hamed_rao(const HamedRao& h) {
  return {{"var_S_star", h.var_s},
          {"Z", h.z},
          {"p", h.p},
          {"n_over_nstar", h.factor},
          {"hamed_rao_n_over_nstar", h.factor},
          {"hamed_rao_Z", h.z}};
}

std::map<std::string, double> compute(const std::string& name, const Series& s) {
  const SenSlope sen = sen_slope(s.t, s.x);
  if (name == "hamed_rao_all_lags") return of_hamed_rao(hamed_rao(s.x, sen.slope, 100000));
  if (name == "hamed_rao_lag3") return of_hamed_rao(hamed_rao(s.x, sen.slope, 3));
  if (name == "prewhitening_lag1") {
    auto values = of_test(mann_kendall(whitened(s, false)));
    values["r1"] = lag_one(s.x);
    return values;
  }
  if (name == "trend_free_prewhitening") return of_test(mann_kendall(whitened(s, true)));
  if (name == "nottem_seasonal" || name == "arbitrary_360_seasonal12") {
    const SeasonalTest t = seasonal_mann_kendall(s.x, 12);
    return {
        {"S", t.s}, {"var_S", t.var_s}, {"Z", t.z}, {"p", t.p}, {"seasonal_sen_slope", t.slope}};
  }
  if (name == "page_pettitt") {
    const Pettitt p = pettitt(s.x);
    return {{"K", p.k}, {"t", p.change_after}, {"p", p.p}};
  }
  auto values = of_test(mann_kendall(s.x));
  values.insert({{"sen_slope", sen.slope},
                 {"sen_slope_gap_aware", sen.slope},
                 {"slope_LCL95", sen.low},
                 {"slope_UCL95", sen.high},
                 {"intercept_median_method", sen.intercept},
                 {"intercept", sen.intercept}});
  const auto more = of_hamed_rao(hamed_rao(s.x, sen.slope, 100000));
  values.insert({*more.find("hamed_rao_n_over_nstar"), *more.find("hamed_rao_Z")});
  return values;
}

TEST(Trend, EveryPublishedStatisticIsMet) {
  std::map<std::string, Series> inputs;
  int checked = 0;
  const CsvTable table = climate::reference_table("trend/data.csv");
  for (const CsvRow& row : table.rows) {
    if (row.cells[1] == "in" && row.cells[2] == "x") inputs[row.cells[0]] = input_of(row.cells[3]);
    if (row.cells[1] != "out") continue;
    SCOPED_TRACE(row.cells[0]);
    const auto values =
        compute(row.cells[0].substr(row.cells[0].find('/') + 1), inputs.at(row.cells[0]));
    const auto found = values.find(row.cells[2]);
    ASSERT_NE(found, values.end()) << row.cells[2];
    EXPECT_NEAR(found->second, *parse_number(row.cells[3]),
                *parse_number(row.cells[5]) * (1 + 1e-6))
        << row.cells[2];
    ++checked;
  }
  EXPECT_EQ(checked, 66);
}

// Trap C39: ties are subtracted from the variance; the intercept is the median method.
TEST(Trend, TiesAreSubtracted) {
  const std::vector<double> x = {1210, 1210, 1340, 1180, 1180, 1420, 1500, 1500},
                            t = {1, 2, 3, 4, 5, 6, 7, 8};
  const MannKendall test = mann_kendall(x);
  EXPECT_EQ(test.s, 13);
  EXPECT_NEAR(test.var_s, 62.3333, 5e-5);
  EXPECT_NEAR(test.z, 1.5199, 5e-5);
  EXPECT_NEAR(test.p, 0.1285, 5e-5);
  EXPECT_NEAR(sen_slope(t, x).slope, 41.7143, 5e-5);
  EXPECT_NEAR(sen_slope(t, x).intercept, 1087.2857, 5e-5);
}

RC_GTEST_PROP(TrendProperty, ReversingTimeTurnsTheSign, (std::vector<int> ints)) {
  std::vector<double> x(ints.begin(), ints.end());
  std::vector<double> back(x.rbegin(), x.rend());
  RC_ASSERT(mann_kendall(x).s == -mann_kendall(back).s);
}

TEST(Trend, AFewValuesGiveNoStatisticAndNoCrash) {
  EXPECT_EQ(mann_kendall(std::vector<double>{}).p, 1);
  EXPECT_EQ(pettitt(std::vector<double>{3}).change_after, 0);
  EXPECT_EQ(hamed_rao(std::vector<double>{1, 2}, 0, 3).factor, 1);
}

}  // namespace
}  // namespace wildling::stat
