#include "climate/quality_workings.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "base/exact_math.hpp"

namespace wildling::climate {
namespace {

using In = std::span<const double>;
using Keys = std::vector<std::string>;

double weekday_p(In x) {  // hits of Sunday to Saturday, then trials
  std::array<int, 7> hits{}, trials{};
  for (std::size_t w = 0; w < 7; ++w) {
    hits[w] = static_cast<int>(x[w]);
    trials[w] = static_cast<int>(x[w + 7]);
  }
  return detail::chi_square_6(hits, trials);
}

double homogeneity_t(In x) {
  return stat::standard_normal_homogeneity(x).t;
}

double limit_one_pct(In x) {
  return stat::homogeneity_critical(static_cast<int>(x.size()), stat::HomogeneityLevel::one_pct);
}

double limit_five_pct(In x) {
  return stat::homogeneity_critical(static_cast<int>(x.size()), stat::HomogeneityLevel::five_pct);
}

double pettitt_k(In x) {
  return stat::pettitt(x).k;
}

double pettitt_p(In x) {
  return stat::pettitt(x).p;
}

double step_between(In x) {
  const stat::Homogeneity test = stat::standard_normal_homogeneity(x);
  return test.after - test.before;
}

double ratio_between(In x) {
  return exact_exp(step_between(x));
}

double share(In x) {
  return x[1] > 0 ? x[0] / x[1] : 0;
}

std::string leaf(Workings& workings, const Station& station, std::string key, Message label,
                 double value, std::string unit, std::string note = {}) {
  return workings.add({.key = std::move(key),
                       .label = std::move(label),
                       .value = value,
                       .unit = std::move(unit),
                       .origin = station.origin,
                       .formula = "",
                       .source = station.source,
                       .note = std::move(note),
                       .inputs = {}});
}

void computed(Workings& workings, std::string key, Message label, double value, std::string unit,
              std::string formula, const Keys& inputs) {
  workings.add({.key = std::move(key),
                .label = std::move(label),
                .value = value,
                .unit = std::move(unit),
                .origin = Origin::computed,
                .formula = std::move(formula),
                .source = "",
                .note = "",
                .inputs = inputs});
}

void add_weekdays(Workings& workings, const Station& station, const WeekdayBias& bias) {
  Keys wet, measured, blank, days;
  for (std::size_t w = 0; w < 7; ++w) {
    const auto count = [&](const char* what, int n) {
      return leaf(workings, station, fmt::format("climate/quality/weekday/{}/{}", what, w),
                  say("climate.node.weekday_count",
                      {{"what", std::string(what)}, {"weekday", std::to_string(w)}}),
                  n, "days");
    };
    wet.push_back(count("wet", bias.wet[w]));
    measured.push_back(count("measured", bias.measured[w]));
    blank.push_back(count("blank", bias.blank[w]));
    days.push_back(count("all", bias.measured[w] + bias.blank[w]));
  }
  wet.insert(wet.end(), measured.begin(), measured.end());
  blank.insert(blank.end(), days.begin(), days.end());
  computed(workings, "climate/quality/weekday/wet_p",
           say("climate.node.weekday_p", {{"what", std::string("wet")}}), bias.wet_p, "",
           "climate.weekday_p", wet);
  computed(workings, "climate/quality/weekday/blank_p",
           say("climate.node.weekday_p", {{"what", std::string("blank")}}), bias.blank_p, "",
           "climate.weekday_p", blank);
}

void add_break(Workings& workings, const Station& station, const BreakResult& result) {
  if (result.limit_one_pct == 0) return;  // refused
  const std::string name(break_name(result));
  Keys years;
  for (std::size_t i = 0; i < result.years.size(); ++i) {
    years.push_back(leaf(workings, station,
                         fmt::format("climate/quality/break/{}/{}", name, result.years[i]),
                         say("climate.node.log_break_year",
                             {{"what", name}, {"year", std::int64_t{result.years[i]}}}),
                         result.values[i], "",
                         "mean of the year's months, each less the mean of its calendar month"));
  }
  const auto add = [&](const char* what, double value, const char* formula) {
    computed(workings, fmt::format("climate/quality/break/{}/{}", name, what),
             say(fmt::format("climate.node.log_break_{}", what), {{"what", name}}), value, "",
             formula, years);
  };
  add("t", result.test.t, "climate.homogeneity_t");
  add("limit", result.limit_one_pct, "climate.homogeneity_limit_1");
  add("limit_five", result.limit_five_pct, "climate.homogeneity_limit_5");
  add("k", result.pettitt.k, "climate.pettitt_k");
  add("p", result.pettitt.p, "climate.pettitt_p");
  if (result.test.change_after == 0) return;
  add("size", result.size,
      result.kind == BreakKind::rain_amount ? "climate.break_ratio" : "climate.break_size");
}

}  // namespace

void add_quality_workings(Workings& workings, const Station& station,
                          const std::vector<Flag>& flags, const WeekdayBias& bias,
                          const std::vector<BreakResult>& breaks) {
  std::map<Check, int> counts;
  for (const Flag& flag : flags) ++counts[flag.check];
  for (const auto& entry : counts) {
    const std::string name(check_name(entry.first));
    leaf(workings, station, "climate/quality/flags/" + name,
         say("climate.node.flags", {{"check", name}}), entry.second, "", "counted in the log");
  }
  add_weekdays(workings, station, bias);
  for (const BreakResult& result : breaks) add_break(workings, station, result);
}

void add_fill_workings(Workings& workings, const Station& station, const FilledLog& filled) {
  for (const FilledColumn& column : filled.columns) {
    const std::string name(column_name(column.column));
    const std::string base = "climate/fill/" + name;
    const Keys inputs = {
        leaf(workings, station, base + "/filled", say("climate.node.filled", {{"column", name}}),
             static_cast<double>(column.filled_days), "days"),
        leaf(workings, station, base + "/days", say("climate.node.fill_days", {{"column", name}}),
             static_cast<double>(column.days), "days")};
    computed(workings, base + "/share", say("climate.node.fill_share", {{"column", name}}),
             column.share, "", "climate.fill_share", inputs);
  }
}

namespace detail {

void add_quality_formulas(Formulas& formulas) {
  const char* alexandersson = "Alexandersson (1986) J. Climatol. 6:661-675";
  const char* khaliq = "Khaliq & Ouarda (2007) Int. J. Climatol. 27:681-687, Table I";
  const char* pettitt = "Pettitt (1979) Appl. Statist. 28:126-135";
  formulas.push_back({"climate.weekday_p",
                      "p of chi-square with 6 degrees of freedom: hits on seven weekdays against "
                      "their trials, one share for all",
                      "Pearson's chi-square test", weekday_p});
  formulas.push_back(
      {"climate.homogeneity_t",
       "largest over k of k mean(z of the first k)^2 + (n - k) mean(z of the rest)^2",
       alexandersson, homogeneity_t});
  formulas.push_back({"climate.homogeneity_limit_1",
                      "what luck exceeds in 1 of 100 series of n years", khaliq, limit_one_pct});
  formulas.push_back({"climate.homogeneity_limit_5",
                      "what luck exceeds in 5 of 100 series of n years", khaliq, limit_five_pct});
  formulas.push_back({"climate.pettitt_k", "largest |U|", pettitt, pettitt_k});
  formulas.push_back({"climate.pettitt_p", "2 exp(-6 K^2 / (n^3 + n^2))", pettitt, pettitt_p});
  formulas.push_back({"climate.break_size", "mean of the years after less mean of those before",
                      alexandersson, step_between});
  formulas.push_back({"climate.break_ratio",
                      "exp(mean of the years after less mean of those before), of logarithms",
                      alexandersson, ratio_between});
  formulas.push_back({"climate.fill_share", "filled days / days", "share", share});
}

}  // namespace detail

}  // namespace wildling::climate
