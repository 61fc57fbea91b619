#include "climate/chain_workings.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/exact_math.hpp"
#include "climate/climate_workings.hpp"
#include "climate/nodes.hpp"

namespace wildling::climate {
namespace {

using detail::In;
using detail::Keys;
using detail::Nodes;

constexpr std::array<const char*, 3> kColumns = {"tmax", "tmin", "rh_mean"};
constexpr std::array<const char*, 2> kStates = {"dry", "wet"};

double series(In coefficients, double day) {
  const auto harmonics = static_cast<int>(coefficients.size() / 2);
  const auto terms = detail::harmonic_terms(static_cast<int>(std::lround(day)), harmonics);
  double sum = 0;
  for (std::size_t i = 0; i < terms.size(); ++i) sum += coefficients[i] * terms[i];
  return sum;
}

// 15th of the month, as a day of the year.
std::string middle_day(const Nodes& n, unsigned month) {
  return n.leaf(fmt::format("climate/middle_day/{}", month),
                say("climate.node.middle_day", {{"month", make_date(2001, month, 1)}}),
                day_of_year(make_date(2001, month, 15)), "", Origin::chosen, "",
                "the 15th of the month");
}

Keys coefficient_leaves(const Nodes& n, const std::string& key, const std::vector<double>& values,
                        const char* unit, const std::string& source) {
  Keys keys;
  for (std::size_t i = 0; i < values.size(); ++i) {
    keys.push_back(
        n.leaf(fmt::format("{}/{}", key, i),
               say("climate.node.coefficient", {{"number", static_cast<std::int64_t>(i)}}),
               values[i], unit, Origin::chosen, source,
               "fitted to the log: constant, then cosine and sine of the year"));
  }
  return keys;
}

Message history_label(const char* key, unsigned month, const std::string& history) {
  const auto state = [&](std::size_t back) {
    if (back >= history.size() || history[back] == '-') return std::string("none");
    return std::string(history[back] == 'w' ? "wet" : "dry");
  };
  return say(key, {{"month", make_date(2001, month, 1)},
                   {"before1", state(0)},
                   {"before2", state(1)},
                   {"before3", state(2)}});
}

void add_candidates(const Nodes& n, const WeatherBook& book, const ChainChoice& choice) {
  const auto days =
      n.leaf("climate/chain/days", say("climate.node.chain_days"), choice.best.days, "days",
             book.station.origin, book.station.source, "days with three known days before them");
  Keys triples;
  for (const ChainChoice::Candidate& c : choice.candidates) {
    const std::string key = fmt::format("climate/chain/{}/{}/", c.order, c.harmonics);
    const auto label = [&](const char* name) {
      return say(name,
                 {{"order", std::int64_t{c.order}}, {"harmonics", std::int64_t{c.harmonics}}});
    };
    const auto order =
        n.leaf(fmt::format("climate/chain/order/{}", c.order),
               say("climate.node.chain_order_tried", {{"order", std::int64_t{c.order}}}), c.order,
               "days", Origin::chosen);
    const auto harmonics = n.leaf(
        fmt::format("climate/chain/harmonics/{}", c.harmonics),
        say("climate.node.chain_harmonics_tried", {{"harmonics", std::int64_t{c.harmonics}}}),
        c.harmonics, "", Origin::chosen);
    const auto size = n.computed(key + "size", label("climate.node.chain_size"),
                                 static_cast<double>((1 << c.order) * (1 + 2 * c.harmonics)), "",
                                 "climate.chain_size", {order, harmonics});
    const auto likelihood = n.leaf(key + "log_likelihood", label("climate.node.chain_likelihood"),
                                   c.log_likelihood, "", book.station.origin, book.station.source,
                                   "sum over the days of ln(chance of what happened), with the "
                                   "coefficients that make it largest");
    const auto bic = n.computed(key + "bic", label("climate.node.chain_bic"), c.bic, "",
                                "climate.bic", {size, days, likelihood});
    triples.insert(triples.end(), {order, harmonics, bic});
  }
  n.computed("climate/chain/order", say("climate.node.chain_order"), choice.best.order, "days",
             "climate.least_bic_order", triples);
  n.computed("climate/chain/harmonics", say("climate.node.chain_harmonics"), choice.best.harmonics,
             "", "climate.least_bic_harmonics", triples);
}

struct Seen {
  int wet = 0, all = 0;
};

// Wet days and days by month and history.
std::vector<std::array<Seen, 12>> seen_days(const DailyWeather& daily, int order, double wet_mm) {
  const auto wet = detail::wet_days(daily, wet_mm);
  std::vector<std::array<Seen, 12>> seen(std::size_t{1} << static_cast<unsigned>(order));
  const auto k = static_cast<std::size_t>(order);
  for (std::size_t i = k; i < wet.size(); ++i) {
    std::size_t history = 0;
    bool known = wet[i] >= 0;
    for (std::size_t back = 1; back <= k; ++back) {
      known = known && wet[i - back] >= 0;
      history |= wet[i - back] == 1 ? std::size_t{1} << (back - 1) : 0;
    }
    if (!known) continue;
    Seen& s = seen[history][month_of(daily.day(i)) - 1];
    ++s.all;
    s.wet += wet[i];
  }
  return seen;
}

void add_chances(const Nodes& n, const WeatherBook& book, const RainChain& chain, double wet_mm) {
  const auto seen = seen_days(book.daily, chain.order, wet_mm);
  for (unsigned history = 0; history < seen.size(); ++history) {
    const std::string name = history_name(history, chain.order);
    const Keys coefficients =
        coefficient_leaves(n, "climate/chain/coefficient/" + name, chain.coefficients[history], "",
                           "maximum likelihood, docs/climate.md");
    for (unsigned m = 1; m <= 12; ++m) {
      Keys inputs = {middle_day(n, m)};
      inputs.insert(inputs.end(), coefficients.begin(), coefficients.end());
      n.computed(fmt::format("climate/chain/wet/{}/{}", m, name),
                 history_label("climate.node.chain_wet", m, name),
                 chain.wet_chance(history, day_of_year(make_date(2001, m, 15))), "",
                 "climate.wet_chance", inputs);
      const Seen& s = seen[history][m - 1];
      if (s.all == 0) continue;
      const std::string key = fmt::format("climate/chain/seen/{}/{}", m, name);
      const auto count = [&](const char* what, int value) {
        return n.leaf(key + "/" + what,
                      history_label(std::string_view(what) == "wet" ? "climate.node.chain_seen_wet"
                                                                    : "climate.node.chain_seen_all",
                                    m, name),
                      value, "days", book.station.origin, book.station.source);
      };
      n.computed(key, history_label("climate.node.chain_seen", m, name),
                 static_cast<double>(s.wet) / s.all, "", "climate.ratio",
                 {count("wet", s.wet), count("all", s.all)});
    }
  }
}

void add_amounts(const Nodes& n, const WeatherBook& book, const WeatherModel& model) {
  const auto ratio = n.leaf("climate/generator/log_ratio", say("climate.node.log_ratio"),
                            model.log_ratio, "", book.station.origin, book.station.source,
                            "mean over the wet days of ln(fitted mean / rain)");
  n.computed("climate/generator/shape", say("climate.node.amount_shape"), model.amount_shape, "",
             "climate.thom_shape", {ratio});
  const Keys coefficients = coefficient_leaves(n, "climate/generator/amount_coefficient",
                                               model.log_mean_amount, "", "docs/climate.md");
  for (unsigned m = 1; m <= 12; ++m) {
    const auto label = [&](const char* key) {
      return say(key, {{"month", make_date(2001, m, 1)}});
    };
    Keys inputs = {middle_day(n, m), n.parameter("climate.rain.wet_day_mm")};
    inputs.insert(inputs.end(), coefficients.begin(), coefficients.end());
    const auto terms = detail::harmonic_terms(day_of_year(make_date(2001, m, 15)), 2);
    n.computed(fmt::format("climate/generator/amount/{}", m), label("climate.node.amount"),
               mean_amount_mm(model, terms), "mm", "climate.mean_amount", inputs);
    double sum = 0;
    int days = 0;
    for (std::size_t i = 0; i < book.daily.days(); ++i) {
      if (month_of(book.daily.day(i)) != m || !(book.daily.rain_mm[i] >= model.wet_day_mm))
        continue;
      sum += book.daily.rain_mm[i];
      ++days;
    }
    if (days == 0) continue;
    n.leaf(fmt::format("climate/generator/amount_seen/{}", m), label("climate.node.amount_seen"),
           sum / days, "mm", book.station.origin, book.station.source,
           fmt::format("mean of {} wet days of the log", days));
  }
}

void add_columns(const Nodes& n, const WeatherModel& model) {
  for (std::size_t c = 0; c < model.columns.size(); ++c) {
    const char* column = kColumns[static_cast<std::size_t>(model.columns[c])];
    const char* unit = model.columns[c] == 2 ? "%" : "degC";
    for (std::size_t state = 0; state < 2; ++state) {
      const std::string key = fmt::format("climate/generator/{}/", column);
      const Keys coefficients =
          coefficient_leaves(n, fmt::format("{}coefficient/{}", key, kStates[state]),
                             model.means[c].mean[state], unit, "least squares, docs/climate.md");
      for (unsigned m = 1; m <= 12; ++m) {
        Keys inputs = {middle_day(n, m)};
        inputs.insert(inputs.end(), coefficients.begin(), coefficients.end());
        n.computed(
            fmt::format("{}{}/{}", key, m, kStates[state]),
            say("climate.node.column_mean",
                {{"month", make_date(2001, m, 1)}, {"column", column}, {"state", kStates[state]}}),
            series(model.means[c].mean[state], day_of_year(make_date(2001, m, 15))), unit,
            "climate.harmonics", inputs);
      }
      n.leaf(fmt::format("{}sd/{}", key, kStates[state]),
             say("climate.node.column_sd", {{"column", column}, {"state", kStates[state]}}),
             model.means[c].sd[state], unit, Origin::chosen, "docs/climate.md",
             "spread of the days about the seasonal mean, fitted to the log");
    }
  }
}

void add_residuals(const Nodes& n, const WeatherModel& model) {
  const std::size_t size = model.columns.size();
  const auto name = [&](std::size_t i) {
    return kColumns[static_cast<std::size_t>(model.columns[i])];
  };
  for (std::size_t i = 0; i < size; ++i) {
    for (std::size_t j = 0; j < size; ++j) {
      const auto add = [&](const char* what, const char* key, double value) {
        n.leaf(fmt::format("climate/generator/{}/{}/{}", what, name(i), name(j)),
               say(key, {{"column", name(i)}, {"of", name(j)}}), value, "", Origin::chosen,
               "Richardson (1981), Water Resour. Res. 17:182-190",
               "from the correlations of the log, same day and day before");
      };
      add("keeps", "climate.node.residual_keeps", model.a[i * size + j]);
      add("luck", "climate.node.residual_luck", model.b[i * size + j]);
    }
  }
}

std::size_t least_bic(In x) {
  std::size_t best = 0;
  for (std::size_t i = 3; i + 2 < x.size(); i += 3) best = x[i + 2] < x[best + 2] ? i : best;
  return best;
}

}  // namespace

std::string history_name(unsigned history, int order) {
  if (order == 0) return "-";
  std::string name;
  for (int back = 0; back < order; ++back)
    name += (history >> static_cast<unsigned>(back) & 1U) != 0 ? 'w' : 'd';
  return name;
}

void add_chain_workings(Workings& w, const WeatherBook& book, const ChainChoice& choice,
                        const Parameters& p) {
  if (choice.refused) return;
  const Nodes n{w, p};
  add_candidates(n, book, choice);
  add_chances(n, book, choice.best, p.value("climate.rain.wet_day_mm"));
}

void add_generator_workings(Workings& w, const WeatherBook& book, const WeatherModel& model,
                            const Parameters& p) {
  const Nodes n{w, p};
  add_amounts(n, book, model);
  add_columns(n, model);
  add_residuals(n, model);
}

namespace detail {

void add_chain_formulas(Formulas& f) {
  const char* stern = "Stern & Coe (1984), J. R. Statist. Soc. A 147:1-34";
  const char* katz = "Katz (1981), Technometrics 23:243-249";
  f.push_back({"climate.chain_size", "2^order x (1 + 2 harmonics)", katz,
               [](In x) { return std::ldexp(1 + 2 * x[1], static_cast<int>(x[0])); }});
  f.push_back({"climate.bic", "numbers x ln(days) - 2 ln L", katz,
               [](In x) { return x[0] * exact_log(x[1]) - 2 * x[2]; }});
  f.push_back({"climate.least_bic_order", "order of the chain with the least BIC", katz,
               [](In x) { return x[least_bic(x)]; }});
  f.push_back({"climate.least_bic_harmonics", "waves of the chain with the least BIC", katz,
               [](In x) { return x[least_bic(x) + 1]; }});
  f.push_back({"climate.wet_chance",
               "1/(1 + e^-z), z = c0 + sum of c cos(2 pi h day/365.25) + d sin(2 pi h day/365.25)",
               stern, [](In x) { return 1 / (1 + exact_exp(-series(x.subspan(1), x[0]))); }});
  f.push_back({"climate.harmonics",
               "c0 + sum of c cos(2 pi h day/365.25) + d sin(2 pi h day/365.25)", stern,
               [](In x) { return series(x.subspan(1), x[0]); }});
  f.push_back({"climate.mean_amount", "wet day limit - 0.05 + e^z, z with the waves of the year",
               stern, [](In x) { return x[1] - 0.05 + exact_exp(series(x.subspan(2), x[0])); }});
  f.push_back({"climate.thom_shape", "(1 + sqrt(1 + 4 A/3)) / (4 A)",
               "Thom (1958), Mon. Weather Rev. 86:117-122",
               [](In x) { return (1 + std::sqrt(1 + 4 * x[0] / 3)) / (4 * x[0]); }});
}

}  // namespace detail
}  // namespace wildling::climate
