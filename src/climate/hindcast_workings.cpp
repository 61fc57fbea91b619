#include "climate/hindcast_workings.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "climate/climate_workings.hpp"
#include "climate/nodes.hpp"

namespace wildling::climate {
namespace {

using detail::In;
using detail::Keys;
using detail::Nodes;

constexpr const char* kSource = "the log and its days before each advice";

struct YearSums {
  double squares = 0, squares_usual = 0;
  int days = 0;
};

double square(double forecast, bool good) {
  const double off = forecast - (good ? 1 : 0);
  return off * off;
}

// Keys of forecast, usual and outcome of one ten-day period.
std::array<std::string, 3> add_day(const Nodes& n, const HindcastDay& d) {
  const std::string key = detail::day_key("climate/hindcast/day/", d.day) + "/";
  const auto leaf = [&](const char* name, const char* label, double value) {
    return n.leaf(key + name, detail::day_label(label, d.day), value, "", Origin::measured, kSource,
                  fmt::format("{} years before it", d.years));
  };
  return {leaf("forecast", "climate.node.hindcast_forecast", d.forecast),
          leaf("usual", "climate.node.hindcast_usual", d.usual),
          leaf("good", "climate.node.hindcast_good", d.good ? 1 : 0)};
}

// One year's sums: opened to its ten-day periods, or leaves.
void add_year(const Nodes& n, const Hindcast& h, int year, const YearSums& sums, bool open,
              std::array<Keys, 3>& all) {
  const std::string key = fmt::format("climate/hindcast/year/{}/", year);
  const auto label = [&](const char* name) { return say(name, {{"year", std::int64_t{year}}}); };
  Keys forecasts, usuals, goods;
  if (open) {
    for (const HindcastDay& d : h.days) {
      if (year_of(d.day) != year) continue;
      const auto keys = add_day(n, d);
      forecasts.insert(forecasts.end(), {keys[0], keys[2]});
      usuals.insert(usuals.end(), {keys[1], keys[2]});
      goods.push_back(keys[2]);
    }
  }
  const auto add = [&](std::size_t which, const char* name, const char* node, double value,
                       const char* formula, const Keys& inputs) {
    all[which].push_back(
        open ? n.computed(key + name, label(node), value, "", formula, inputs)
             : n.leaf(key + name, label(node), value, "", Origin::measured, kSource,
                      fmt::format("sum over {} ten-day periods of that year", sums.days)));
  };
  add(0, "squares", "climate.node.hindcast_squares", sums.squares, "climate.squares_off",
      forecasts);
  add(1, "squares_usual", "climate.node.hindcast_squares_usual", sums.squares_usual,
      "climate.squares_off", usuals);
  add(2, "days", "climate.node.hindcast_year_days", sums.days, "climate.how_many", goods);
}

void add_bins(const Nodes& n, const Hindcast& h) {
  for (std::size_t b = 0; b < h.reliability.size(); ++b) {
    const ReliabilityBin& bin = h.reliability[b];
    const std::string key = fmt::format("climate/hindcast/bin/{}/", b + 1);
    const auto label = [&](const char* name) {
      return say(name, {{"from", bin.from}, {"to", bin.to}});
    };
    const auto leaf = [&](const char* name, const char* node, double value) {
      return n.leaf(key + name, label(node), value, "", Origin::measured, kSource,
                    "sum over the ten-day periods whose advice lies in these limits");
    };
    const auto days = leaf("days", "climate.node.bin_days", bin.days);
    if (bin.days == 0) continue;
    const auto forecasts = leaf("forecasts", "climate.node.bin_forecasts", bin.sum_forecast);
    const auto goods = leaf("goods", "climate.node.bin_goods", bin.sum_good);
    n.computed(key + "forecast", label("climate.node.bin_forecast"), bin.mean_forecast, "",
               "climate.ratio", {forecasts, days});
    n.computed(key + "good", label("climate.node.bin_good"), bin.share_good, "", "climate.ratio",
               {goods, days});
  }
}

// sums of squares, then as many counts of days
double mean_square(In x) {
  double sum = 0, n = 0;
  const std::size_t half = x.size() / 2;
  for (std::size_t i = 0; i < half; ++i) sum += x[i], n += x[half + i];
  return sum / n;
}

}  // namespace

void add_hindcast_workings(Workings& w, const Hindcast& h, const Parameters& p) {
  if (h.refused || h.days.empty()) return;
  const Nodes n{w, p};
  std::map<int, YearSums> years;
  for (const HindcastDay& d : h.days) {
    YearSums& y = years[year_of(d.day)];
    y.squares += square(d.forecast, d.good);
    y.squares_usual += square(d.usual, d.good);
    ++y.days;
  }
  std::array<Keys, 3> all;
  for (const auto& [year, sums] : years)
    add_year(n, h, year, sums, year == years.rbegin()->first, all);
  const auto with_days = [&](std::size_t which) {
    Keys keys = all[which];
    keys.insert(keys.end(), all[2].begin(), all[2].end());
    return keys;
  };
  n.computed("climate/hindcast/days", say("climate.node.hindcast_days"),
             static_cast<double>(h.days.size()), "", "climate.sum", all[2]);
  const auto brier = n.computed("climate/hindcast/brier", say("climate.node.hindcast_brier"),
                                h.brier, "", "climate.mean_square", with_days(0));
  const auto usual =
      n.computed("climate/hindcast/brier_usual", say("climate.node.hindcast_brier_usual"),
                 h.brier_usual, "", "climate.mean_square", with_days(1));
  n.computed("climate/hindcast/skill", say("climate.node.hindcast_skill"), h.skill, "",
             "climate.skill", {brier, usual});
  add_bins(n, h);
}

namespace detail {

void add_hindcast_formulas(Formulas& f) {
  const char* brier = "Brier (1950), Mon. Weather Rev. 78:1-3";
  f.push_back({"climate.squares_off", "sum of (said - happened)^2", brier, [](In x) {
                 double sum = 0;
                 for (std::size_t i = 0; i + 1 < x.size(); i += 2)
                   sum += (x[i] - x[i + 1]) * (x[i] - x[i + 1]);
                 return sum;
               }});
  f.push_back({"climate.mean_square", "sum of squares / sum of days", brier, mean_square});
  f.push_back({"climate.skill", "1 - Brier / Brier of the usual share; 0 where that is 0",
               "Murphy (1988), Mon. Weather Rev. 116:2417-2424",
               [](In x) { return x[1] > 0 ? 1 - x[0] / x[1] : 0; }});
}

}  // namespace detail
}  // namespace wildling::climate
