#include "species/survival.hpp"

// B pooled curve, S share alive of one species, k multiple of the pooled death rate,
// S_r and t_r the reference share and its age in months.

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "base/exact_math.hpp"
#include "species/survival_curve.hpp"
#include "species/taxon_name.hpp"

namespace wildling::species {
namespace {

bool inside(double value, double low, double high) {
  return value >= low && value <= high;
}

[[noreturn]] void refuse(const std::string& where, const char* what, double value) {
  throw Error(ErrorKind::input, where, say(what, {{"value", value}}));
}

struct Reference {
  double share = 0;
  double low = 0;
  double high = 0;
  double age_months = 0;
  SurvivalFrom from = SurvivalFrom::group;
  Origin origin = Origin::assumed;
  std::string source = {};
  std::string parameter = {};
};

Reference own_reference(const Candidate& candidate, const OwnSurvival& own,
                        const Parameters& parameters) {
  if (!inside(own.alive_pct, 0, 100)) refuse(own.source, "species.survival_outside", own.alive_pct);
  const double age = own.age_months.value_or(parameters.value("species.own_survival_age"));
  if (!inside(age, 0.1, 600)) refuse(own.source, "species.age_outside", age);
  const double share = own.alive_pct / 100;
  const std::string& source = own.source.empty() ? candidate.stock.source : own.source;
  return {.share = share,
          .low = share,
          .high = share,
          .age_months = age,
          .from = SurvivalFrom::own,
          .origin = own.origin,
          .source = source};
}

bool is_of(const PublishedSurvival& row, const Species& species) {
  const std::string key = name_key(row.species);
  if (key == name_key(species.scientific_name)) return true;
  return std::any_of(species.synonyms.begin(), species.synonyms.end(),
                     [&](const std::string& name) { return name_key(name) == key; });
}

// Several habitats of one study under cover: their mean; low and high their extremes.
std::optional<Reference> species_reference(const Species& species, bool under_cover,
                                           std::span<const PublishedSurvival> published) {
  if (species.scientific_name.empty()) return {};
  Reference r{.low = 1, .from = SurvivalFrom::species, .origin = Origin::documented};
  int rows = 0;
  for (const PublishedSurvival& row : published) {
    if (row.under_cover != under_cover || !is_of(row, species)) continue;
    if (rows > 0 && row.age_months != r.age_months)
      continue;  // only counts of one age are averaged
    const double share = row.alive_pct / 100;
    r.share += share;
    r.low = std::min(r.low, share);
    r.high = std::max(r.high, share);
    r.age_months = row.age_months;
    r.source = row.source;
    ++rows;
  }
  if (rows == 0) return {};
  r.share /= rows;
  return r;
}

Reference late_reference(const Species& species, bool under_cover, const Parameters& parameters) {
  const std::string key = under_cover ? "species.late_cover" : "species.late_open";
  const bool dipterocarp = species.family == "Dipterocarpaceae";
  return {.share = parameters.value(key),
          .low = parameters.value(key + "_low"),
          .high = parameters.value(key + "_high"),
          .age_months = parameters.value("species.late_age"),
          .origin = dipterocarp ? Origin::documented : Origin::assumed,
          .source = parameters.at(key).source,
          .parameter = key};
}

Reference pooled_reference(double deaths_times, const Parameters& parameters) {
  const auto raised = [&](const char* key) {
    return power_share(parameters.value(key), deaths_times);
  };
  return {.share = raised("species.alive_month_60"),
          .low = raised("species.alive_month_60_poor_site"),
          .high = raised("species.alive_month_60_good_site"),
          .age_months = parameters.value("species.pooled_age"),
          .source = parameters.at("species.alive_month_60").source,
          .parameter = "species.alive_month_60"};
}

Reference group_reference(const Species& species, bool under_cover, const Parameters& parameters) {
  if (species.group == Group::late) return late_reference(species, under_cover, parameters);
  if (species.group != Group::pioneer || !under_cover) return pooled_reference(1, parameters);
  Reference r = pooled_reference(parameters.value("species.pioneer_cover_deaths"), parameters);
  r.parameter = "species.pioneer_cover_deaths";
  return r;
}

Reference reference_of(const Candidate& candidate, bool under_cover,
                       std::span<const PublishedSurvival> published, const Parameters& parameters) {
  const auto& own = under_cover ? candidate.own_cover : candidate.own_open;
  if (own) return own_reference(candidate, *own, parameters);
  if (auto r = species_reference(candidate.species, under_cover, published)) return *r;
  return group_reference(candidate.species, under_cover, parameters);
}

}  // namespace

double pooled_share(double t, double b12, double b60) {
  const double h1 = -exact_log(b12) / 12;       // per month, first year
  const double h2 = exact_log(b12 / b60) / 48;  // per month, after it
  return exact_exp(t <= 12 ? -h1 * t : -h1 * 12 - h2 * (t - 12));
}

double power_share(double share, double times) {
  if (share <= 0) return 0;
  if (share >= 1) return 1;
  return exact_pow(share, times);
}

double referred_share(double t, double s_r, double t_r, double b12, double b60) {
  if (t <= 0) return 1;
  if (s_r <= 0) return 0;
  const double b_r = pooled_share(t_r, b12, b60);
  const double b_t = pooled_share(t, b12, b60);
  const double k = s_r >= 1 ? 0 : exact_log(s_r) / exact_log(b_r);
  if (t <= t_r) return k <= 0 ? 1 : power_share(b_t, k);
  return s_r * power_share(b_t / b_r, std::max(1.0, k));
}

double pooled_share_alive(double age_months, const Parameters& parameters) {
  if (!inside(age_months, 0, 600)) refuse("", "species.age_outside", age_months);
  return pooled_share(age_months, parameters.value("species.alive_month_12"),
                      parameters.value("species.alive_month_60"));
}

double share_alive(double age_months, double reference_share, double reference_age_months,
                   const Parameters& parameters) {
  if (!inside(age_months, 0, 600)) refuse("", "species.age_outside", age_months);
  if (!inside(reference_age_months, 0.1, 600))
    refuse("", "species.age_outside", reference_age_months);
  if (!inside(reference_share, 0, 1)) refuse("", "species.survival_outside", 100 * reference_share);
  return referred_share(age_months, reference_share, reference_age_months,
                        parameters.value("species.alive_month_12"),
                        parameters.value("species.alive_month_60"));
}

Survival expected_survival(const Candidate& candidate, bool under_cover, double age_months,
                           std::span<const PublishedSurvival> published,
                           const Parameters& parameters) {
  if (!inside(age_months, 0.1, 600)) refuse(candidate.name(), "species.age_outside", age_months);
  const Reference r = reference_of(candidate, under_cover, published, parameters);
  const auto at = [&](double share) {
    return share_alive(age_months, share, r.age_months, parameters);
  };
  return {.share = at(r.share),
          .low = at(r.low),
          .high = at(r.high),
          .age_months = age_months,
          .under_cover = under_cover,
          .from = r.from,
          .origin = r.origin,
          .reference_share = r.share,
          .reference_age_months = r.age_months,
          .beyond_published_age = age_months > std::max(r.age_months, 60.0),
          .source = r.source,
          .parameter = r.parameter};
}

}  // namespace wildling::species
