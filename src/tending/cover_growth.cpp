#include "tending/cover_growth.hpp"

#include <algorithm>
#include <cmath>

#include "base/exact_math.hpp"

namespace wildling::tending {
namespace {

constexpr double kMonthsPerDay = 12 / 365.25;

double logit(double share) {
  return exact_log(share / (1 - share));
}

}  // namespace

CoverRule cover_rule(ground::Cover cover, const Parameters& parameters) {
  const std::string key = "tending.cover." + std::string(ground::cover_name(cover)) + ".";
  return {parameters.value(key + "full_height_m"), parameters.value("tending.cover.cut_height_m"),
          parameters.value(key + "growth_per_month")};
}

std::array<double, 12> wetness(const std::array<climate::MonthNormal, 12>& normals,
                               const Parameters& parameters) {
  const double wet_mm = parameters.value("tending.wet_month_mm");
  std::array<double, 12> shares{};
  for (std::size_t i = 0; i < 12; ++i) {
    const double rain = normals[i].rain_mean_mm;
    shares[i] =
        normals[i].years > 0 && std::isfinite(rain) ? std::clamp(rain / wet_mm, 0.0, 1.0) : 1.0;
  }
  return shares;
}

double wet_months(Date from, Date to, const std::array<double, 12>& wetness) {
  double sum = 0;
  for (Date day = from; day < to; day += std::chrono::days(1))
    sum += kMonthsPerDay * wetness[month_of(day) - 1];
  return sum;
}

double height_after(const CoverRule& rule, double months) {
  const double lead = rule.full_height_m / rule.cut_height_m - 1;
  return rule.full_height_m / (1 + lead * exact_exp(-rule.growth_per_month * months));
}

std::optional<double> months_to(const CoverRule& rule, double height_m) {
  if (height_m <= rule.cut_height_m) return 0;
  if (height_m >= rule.full_height_m) return {};
  const double share = height_m / rule.full_height_m;
  const double start = rule.cut_height_m / rule.full_height_m;
  return (logit(share) - logit(start)) / rule.growth_per_month;
}

std::optional<Date> day_after(Date from, double months, const std::array<double, 12>& wetness,
                              Date until) {
  double sum = 0;
  for (Date day = from; day <= until; day += std::chrono::days(1)) {
    if (sum >= months) return day;
    sum += kMonthsPerDay * wetness[month_of(day) - 1];
  }
  return {};
}

double own_growth_per_month(const CoverRule& book, const std::vector<WalkHeight>& walks,
                            const Parameters& parameters) {
  const double start = logit(std::clamp(book.cut_height_m / book.full_height_m, 0.001, 0.98));
  double squares = 0;
  double products = 0;
  double months_mean = 0;
  for (const WalkHeight& walk : walks) {
    const double share = std::clamp(walk.height_m / book.full_height_m, 0.001, 0.98);
    squares += walk.wet_months * walk.wet_months;
    products += walk.wet_months * (logit(share) - start);
    months_mean += walk.wet_months / static_cast<double>(walks.size());
  }
  if (!(squares > 0)) return book.growth_per_month;
  const double book_squares =
      parameters.value("tending.cover.book_walks") * months_mean * months_mean;
  const double rate = (products + book_squares * book.growth_per_month) / (squares + book_squares);
  return std::max(0.05, rate);
}

double tree_height_m(species::Group group, Date planted, Date day, const Parameters& parameters) {
  const double years = std::max(0.0, static_cast<double>((day - planted).count()) / 365.25);
  const std::string key = "tending.tree.growth." + std::string(species::group_name(group));
  return parameters.value("tending.tree.height_at_planting_m") + years * parameters.value(key);
}

species::Group slowest_group(const std::array<double, 3>& planted_by_group,
                             const Parameters& parameters) {
  const double all = planted_by_group[0] + planted_by_group[1] + planted_by_group[2];
  const double least = parameters.value("tending.slowest_share") * all;
  if (planted_by_group[2] > 0 && planted_by_group[2] >= least) return species::Group::late;
  if (planted_by_group[1] > 0 && planted_by_group[1] >= least) return species::Group::early;
  return all > 0 && planted_by_group[0] > 0 ? species::Group::pioneer : species::Group::late;
}

}  // namespace wildling::tending
