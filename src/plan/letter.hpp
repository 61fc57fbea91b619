#pragma once
#include <string>
#include <vector>

#include "plan/result.hpp"

namespace wildling::plan {

/// A part of the letter that a manager reads: heading and sentences.
struct LetterPart {
  Message heading = {};
  std::vector<Message> sentences = {};
};

/// The plan as a letter of one screen: the answer first, then why, where, what, when, how many,
/// who, how much, what is on hold, what is assumed, next acts. Every number in it is one of the
/// result.
std::vector<LetterPart> letter(const PlanResult& plan);

/// The first sentence alone.
Message answer(const PlanResult& plan);

/// Day and deed, earliest first, from the plan's today on.
struct Act {
  Date day = {};
  Message what = {};
};

std::vector<Act> next_acts(const PlanResult& plan);

/// Sums the letter, the page and the paper all use.
struct Totals {
  double area_ha = 0, open_ha = 0, hold_ha = 0, area_sd_ha = 0;
  int blocks = 0, open_blocks = 0, species = 0, peak_people = 0;
  std::int64_t planted = 0, draft = 0, ready = 0, to_collect = 0;
};

Totals totals(const PlanResult& plan);

/// Blocks on hold grouped by site with their reasons, each reason once.
struct Hold {
  std::string where = {};  ///< "Twin Hills (B21 to B32)"
  std::vector<Message> reasons = {};
};

std::vector<Hold> holds(const PlanResult& plan);

}  // namespace wildling::plan
