#include "tending/norms.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace wildling::tending {
namespace {

constexpr std::array<std::string_view, kJobs> kNames = {
    "clear", "mark_places", "dig_pits", "carry",           "plant",     "ring",
    "line",  "whole",       "pressing", "climber_cutting", "firebreak", "refill"};

}  // namespace

std::string_view job_name(Job job) {
  return kNames[static_cast<std::size_t>(job)];
}

std::optional<Job> parse_job(std::string_view name) {
  const auto found = std::find(kNames.begin(), kNames.end(), name);
  if (found == kNames.end()) return {};
  return static_cast<Job>(found - kNames.begin());
}

double ring_share(double stems_per_ha, double diameter_m) {
  return std::min(1.0, stems_per_ha * std::numbers::pi * diameter_m * diameter_m / 4 / 10000);
}

double line_share(double width_m, double row_spacing_m) {
  return std::min(1.0, width_m / row_spacing_m);
}

Rate rate(std::string_view name, const Parameters& parameters) {
  const std::string key = "tending.rate." + std::string(name);
  return {parameters.value(key), parameters.value(key + ".slow"), parameters.value(key + ".fast")};
}

PersonDays& PersonDays::operator+=(const PersonDays& other) {
  used += other.used;
  low += other.low;
  high += other.high;
  return *this;
}

PersonDays person_days(double quantity, const Rate& rate) {
  return {quantity / rate.per_day, quantity / rate.fast_per_day, quantity / rate.slow_per_day};
}

PersonDays operator*(PersonDays days, double factor) {
  return {days.used * factor, days.low * factor, days.high * factor};
}

double slope_factor(std::optional<double> slope_deg, const Parameters& parameters) {
  if (!slope_deg) return 1;
  const double over = std::max(0.0, *slope_deg - parameters.value("tending.slope.free_deg"));
  return std::min(1 + over * parameters.value("tending.slope.per_deg"),
                  parameters.value("tending.slope.most"));
}

double seedlings_per_carry(const Parameters& parameters) {
  return parameters.value("tending.carry.load_kg") / parameters.value("tending.carry.seedling_kg");
}

double fertiliser_kg(double trees, double grams_each) {
  return trees * grams_each / 1000;
}

}  // namespace wildling::tending
