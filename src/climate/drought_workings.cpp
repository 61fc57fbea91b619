#include "climate/drought_workings.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "climate/climate_workings.hpp"
#include "climate/et0_series.hpp"
#include "climate/nodes.hpp"
#include "stat/lmoments.hpp"
#include "stat/normal.hpp"

namespace wildling::climate {
namespace {

using detail::In;
using detail::Keys;
using detail::Nodes;

std::vector<double> wet_only(In x) {
  std::vector<double> wet;
  std::copy_if(x.begin(), x.end(), std::back_inserter(wet), [](double v) { return v > 0; });
  return wet;
}

struct Context {
  Nodes nodes;
  const WeatherBook& book;
  const DroughtResult& result;
  std::string prefix;  ///< "climate/drought/3/"

  Date month(std::size_t i) const { return month_start(result.months, i); }

  std::string rain(std::size_t i) const {
    return detail::month_rain_leaf(nodes, book, year_of(month(i)), month_of(month(i)));
  }

  std::string balance(std::size_t i) const {
    const Date m = month(i);
    const std::string key = fmt::format("climate/month/{}/{}/", month_of(m), year_of(m));
    const double rain_mm = nodes.workings.find(rain(i))->value;
    const auto et0 = nodes.leaf(key + "et0", say("climate.node.month_et0", {{"month", m}}),
                                rain_mm - result.months.balance_mm[i], "mm", Origin::measured,
                                book.station.source,
                                "sum of the days' evaporation, by FAO-56 and what was read");
    return nodes.computed(key + "balance", say("climate.node.month_balance", {{"month", m}}),
                          result.months.balance_mm[i], "mm", "climate.difference", {rain(i), et0});
  }

  // Sum over the scale that ends in month i.
  std::string sum(std::size_t i, const std::vector<double>& monthly, const char* what) const {
    const auto scale = static_cast<std::size_t>(result.scale);
    Keys inputs;
    double total = 0;
    for (std::size_t j = i + 1 - scale; j <= i; ++j) {
      inputs.push_back(std::string_view(what) == "sum" ? rain(j) : balance(j));
      total += monthly[j];
    }
    return nodes.computed(fmt::format("{}{}/{}", prefix, what, year_of(month(i))),
                          label(fmt::format("climate.node.drought_{}", what), i), total, "mm",
                          "climate.sum", inputs);
  }

  Message label(const std::string& key, std::size_t i) const {
    return say(key, {{"scale", std::int64_t{result.scale}}, {"month", month(i)}});
  }
};

// Keys of the sums of the same calendar month in every year, and the newest one's.
struct Sums {
  Keys all;
  std::string newest;
};

Sums sums_of(const Context& c, const std::vector<double>& monthly, std::size_t newest,
             const char* what) {
  const std::vector<double> rolled = rolling_sums(monthly, c.result.scale);
  Sums sums;
  for (std::size_t i = newest % 12; i < rolled.size(); i += 12) {
    if (std::isnan(rolled[i])) continue;
    sums.all.push_back(c.sum(i, monthly, what));
    if (i == newest) sums.newest = sums.all.back();
  }
  return sums;
}

/// Adds nodes whose value is what the formula gives: each is a step towards the index.
struct Steps {
  const Context& c;
  std::size_t month;

  std::string add(const char* name, const char* unit, const char* formula, Keys inputs) const {
    std::vector<double> x;
    for (const std::string& key : inputs) x.push_back(c.nodes.workings.find(key)->value);
    const auto rule = std::find_if(formulas().begin(), formulas().end(),
                                   [&](const Formula& f) { return f.id == formula; });
    return c.nodes.computed(c.prefix + name, c.label(fmt::format("climate.node.{}", name), month),
                            rule->evaluate(x), unit, formula, std::move(inputs));
  }
};

void add_spi(const Context& c, std::size_t newest) {
  const Sums sums = sums_of(c, c.result.months.rain_mm, newest, "sum");
  const Steps steps{c, newest};
  const auto l1 = steps.add("spi_l1", "mm", "climate.wet_l1", sums.all);
  const auto l2 = steps.add("spi_l2", "mm", "climate.wet_l2", sums.all);
  const auto shape = steps.add("spi_shape", "", "climate.gamma_shape", {l1, l2});
  const auto scale = steps.add("spi_scale", "mm", "climate.gamma_scale", {l1, l2});
  const auto years = steps.add("spi_years", "years", "climate.how_many", sums.all);
  const auto dry = steps.add("spi_dry_years", "years", "climate.how_many_rainless", sums.all);
  steps.add("no_rain_share", "", "climate.no_rain_share", {years, dry});
  const auto p = steps.add("spi_probability", "", "climate.spi_probability",
                           {sums.newest, shape, scale, years, dry});
  c.nodes.computed(c.prefix + "spi", c.label("climate.node.spi", newest), c.result.spi[newest], "",
                   "climate.normal_quantile", {p});
}

void add_spei(const Context& c, std::size_t newest) {
  const Sums sums = sums_of(c, c.result.months.balance_mm, newest, "balance");
  const Steps steps{c, newest};
  const auto l1 = steps.add("spei_l1", "mm", "climate.l1", sums.all);
  const auto l2 = steps.add("spei_l2", "mm", "climate.l2", sums.all);
  const auto t3 = steps.add("spei_t3", "", "climate.t3", sums.all);
  const Keys moments = {l1, l2, t3};
  const auto xi = steps.add("spei_xi", "mm", "climate.logistic_xi", moments);
  const auto alpha = steps.add("spei_alpha", "mm", "climate.logistic_alpha", moments);
  const auto k = steps.add("spei_k", "", "climate.logistic_k", moments);
  const auto p = steps.add("spei_probability", "", "climate.logistic_probability",
                           {sums.newest, xi, alpha, k});
  c.nodes.computed(c.prefix + "spei", c.label("climate.node.spei", newest), c.result.spei[newest],
                   "", "climate.normal_quantile", {p});
}

stat::LogisticFit logistic_of(In x) {
  stat::LMoments m;
  m.l1 = x[0], m.l2 = x[1], m.t3 = x[2];
  return stat::fit_logistic(m);
}

stat::GammaFit gamma_of(In x) {
  stat::LMoments m;
  m.l1 = x[0], m.l2 = x[1];
  return stat::fit_gamma(m);
}

}  // namespace

void add_drought_workings(Workings& w, const WeatherBook& book, const DroughtResult& result,
                          const Parameters& p) {
  Context c{{w, p}, book, result, fmt::format("climate/drought/{}/", result.scale)};
  if (const auto newest = newest_month(result.spi)) add_spi(c, *newest);
  if (const auto newest = newest_month(result.spei)) add_spei(c, *newest);
}

namespace detail {

void add_drought_formulas(Formulas& f) {
  const char* hosking = "Hosking (1990), J. R. Statist. Soc. B 52:105-124";
  const char* stagge = "Stagge et al. (2015), Int. J. Climatol. 35:4027";
  f.push_back({"climate.wet_l1", "mean of the values above 0", hosking,
               [](In x) { return stat::l_moments(wet_only(x)).l1; }});
  f.push_back({"climate.wet_l2", "second L-moment of the values above 0, unbiased", hosking,
               [](In x) { return stat::l_moments(wet_only(x)).l2; }});
  f.push_back({"climate.l1", "mean", hosking, [](In x) { return stat::l_moments(x).l1; }});
  f.push_back({"climate.l2", "second L-moment, unbiased", hosking,
               [](In x) { return stat::l_moments(x).l2; }});
  f.push_back({"climate.t3", "third over second L-moment, unbiased", hosking,
               [](In x) { return stat::l_moments(x).t3; }});
  f.push_back({"climate.gamma_shape", "shape of the gamma distribution with these L-moments",
               hosking, [](In x) { return gamma_of(x).shape; }});
  f.push_back(
      {"climate.gamma_scale", "l1 / shape", hosking, [](In x) { return gamma_of(x).scale; }});
  f.push_back({"climate.how_many_rainless", "how many are 0", stagge,
               [](In x) { return static_cast<double>(x.size() - wet_only(x).size()); }});
  f.push_back(
      {"climate.no_rain_share", "m / (n + 1)", stagge, [](In x) { return x[1] / (x[0] + 1); }});
  f.push_back({"climate.spi_probability",
               "q + (1 - q) F(sum), q = m/(n + 1); (m + 1)/(2 (n + 1)) for a sum of 0", stagge,
               [](In x) {
                 return rain_probability(x[0], stat::gamma_of(x[1], x[2]), x[3], x[4],
                                         ZeroRule::centre_of_mass);
               }});
  f.push_back({"climate.normal_quantile", "z with P(Z < z) = p, p held off 0 and 1 by 1e-9",
               "standard normal distribution", [](In x) { return index_of_probability(x[0]); }});
  f.push_back({"climate.logistic_xi", "place of the log-logistic with these L-moments", hosking,
               [](In x) { return logistic_of(x).xi; }});
  f.push_back({"climate.logistic_alpha", "scale of the log-logistic with these L-moments", hosking,
               [](In x) { return logistic_of(x).alpha; }});
  f.push_back({"climate.logistic_k", "shape of the log-logistic with these L-moments", hosking,
               [](In x) { return logistic_of(x).k; }});
  f.push_back({"climate.logistic_probability", "F(sum) of the log-logistic", hosking, [](In x) {
                 stat::LogisticFit fit;
                 fit.xi = x[1], fit.alpha = x[2], fit.k = x[3];
                 return fit.cdf(x[0]);
               }});
}

}  // namespace detail
}  // namespace wildling::climate
