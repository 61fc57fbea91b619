#pragma once
/// tending: what the planted trees need until they stand above what competes with them, and what
/// that takes: rounds, planting work, firebreaks, refill, person-days, money, and the paper that
/// comes back from the field. Inputs: blocks (ground/), monthly rain of the station (climate/),
/// numbers planted by group (species/), norms of data/parameters/tending.csv, each with its source
/// or marked assumed.
#include <array>
#include <optional>
#include <vector>

#include "base/date.hpp"
#include "base/parameters.hpp"
#include "climate/normals.hpp"
#include "ground/block.hpp"
#include "species/species.hpp"

namespace wildling::tending {

/// How one kind of competing cover grows back after a cut.
struct CoverRule {
  double full_height_m = 1.4;     ///< H: left alone
  double cut_height_m = 0.1;      ///< h0: right after a round
  double growth_per_month = 1.3;  ///< r: logistic rate in a month with rain enough
};

/// From tending.cover.NAME.*.
CoverRule cover_rule(ground::Cover cover, const Parameters& parameters);

/// Share of full growth in each calendar month, January first: rain over tending.wet_month_mm, at
/// most 1. A month without a figure counts as wet, so that rounds fall early rather than late.
std::array<double, 12> wetness(const std::array<climate::MonthNormal, 12>& normals,
                               const Parameters& parameters);

/// Wet months (months of full growth) from `from` to `to`; 0 when to <= from. A day counts
/// 12/365.25 of a month.
double wet_months(Date from, Date to, const std::array<double, 12>& wetness);

/// Height after `months` wet months from h0: H / (1 + (H/h0 - 1) exp(-r months)), the logistic
/// curve.
/// @param rule  0 < cut_height_m <= full_height_m
double height_after(const CoverRule& rule, double months);

/// Wet months after which the cover has reached `height_m`: the inverse. 0 at or below h0; empty at
/// or above H.
std::optional<double> months_to(const CoverRule& rule, double height_m);

/// First day on or after `from` on which that many wet months have passed; empty when `until` comes
/// first.
std::optional<Date> day_after(Date from, double months, const std::array<double, 12>& wetness,
                              Date until);

/// The site's own growth rate from heights measured on smother walks, each with the wet months
/// since the last cut: least squares of logit(h/H) through the cut height, shrunk to the book with
/// the weight of tending.cover.book_walks walks. Heights at or above H count as 0.98 H.
/// @return the book's rate when nothing was measured
struct WalkHeight {
  double wet_months = 0;  ///< > 0
  double height_m = 0;    ///< > 0
};

double own_growth_per_month(const CoverRule& book, const std::vector<WalkHeight>& walks,
                            const Parameters& parameters);

/// Height of planted trees of a group, straight growth from tending.tree.height_at_planting_m.
double tree_height_m(species::Group group, Date planted, Date day, const Parameters& parameters);

/// The slowest group with at least tending.slowest_share of the planted; rounds follow it.
/// @param planted_by_group  pioneer, early, late
species::Group slowest_group(const std::array<double, 3>& planted_by_group,
                             const Parameters& parameters);

}  // namespace wildling::tending
