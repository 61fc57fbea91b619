#include "species/survival.hpp"
#include "species/survival_curve.hpp"

namespace wildling::species {
namespace {

WorkingsNode leaf(std::string key, Message label, double value, std::string unit, Origin origin,
                  std::string source, std::string note) {
  return {.key = std::move(key),
          .label = std::move(label),
          .value = value,
          .unit = std::move(unit),
          .origin = origin,
          .formula = {},
          .source = std::move(source),
          .note = std::move(note),
          .inputs = {}};
}

// The pioneers' reference is a power of the pooled share; every other reference is a leaf.
std::string add_reference(Workings& workings, const std::string& key, const Message& label,
                          const Survival& s, const Parameters& parameters) {
  if (s.parameter == "species.pioneer_cover_deaths") {
    const std::string pooled = add_parameter(workings, parameters.at("species.alive_month_60"));
    const std::string times = add_parameter(workings, parameters.at(s.parameter));
    return workings.add({.key = key + "/reference",
                         .label = label,
                         .value = s.reference_share,
                         .unit = "share",
                         .origin = Origin::computed,
                         .formula = "species.deaths_times",
                         .source = {},
                         .note = {},
                         .inputs = {pooled, times}});
  }
  if (!s.parameter.empty() && s.origin == parameters.at(s.parameter).origin) {
    return add_parameter(workings, parameters.at(s.parameter));
  }
  const std::string note =
      s.parameter.empty() ? "" : "published for other species, taken for this group";
  return workings.add(
      leaf(key + "/reference", label, s.reference_share, "share", s.origin, s.source, note));
}

}  // namespace

std::string add_survival(Workings& workings, const std::string& key,
                         const std::string& species_name, const Survival& s,
                         const Parameters& parameters) {
  const auto label = [&](const char* word) {
    return say(word, {{"species", species_name}, {"months", s.age_months}});
  };
  const std::string reference =
      add_reference(workings, key, label("species.reference_share"), s, parameters);
  const std::string reference_age = workings.add(
      leaf(key + "/reference_age", label("species.reference_age"), s.reference_age_months, "months",
           s.origin, s.source, s.from == SurvivalFrom::group ? "as the reference" : ""));
  const std::string age =
      workings.add(leaf(key + "/age", label("species.age_asked"), s.age_months, "months",
                        Origin::chosen, "", "the age for which the living are wanted"));
  const std::string b12 = add_parameter(workings, parameters.at("species.alive_month_12"));
  const std::string b60 = add_parameter(workings, parameters.at("species.alive_month_60"));
  return workings.add({.key = key,
                       .label = label("species.share_alive"),
                       .value = s.share,
                       .unit = "share",
                       .origin = Origin::computed,
                       .formula = "species.alive",
                       .source = {},
                       .note = {},
                       .inputs = {age, reference, reference_age, b12, b60}});
}

const Formulas& formulas() {
  static const Formulas list = {
      {"species.alive",
       "S(t) = B(t)^k, k = ln S_r / ln B(t_r), for t <= t_r; S_r (B(t)/B(t_r))^max(1,k) after. "
       "B: constant death rate in year 1 and in years 2 to 5",
       "curve B: Banin et al. 2023, Phil. Trans. R. Soc. B 378:20210090; form: ours",
       [](std::span<const double> x) { return referred_share(x[0], x[1], x[2], x[3], x[4]); }},
      {"species.deaths_times", "S_r = B(60)^times", "ours",
       [](std::span<const double> x) { return power_share(x[0], x[1]); }}};
  return list;
}

}  // namespace wildling::species
