#include "plan/letter.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace wildling::plan {
namespace {

std::int64_t whole(double value) {
  return static_cast<std::int64_t>(std::llround(value));
}

double one_decimal(double value) {
  return std::round(value * 10) / 10;
}

void add_all(std::vector<Message>& to, const std::vector<Message>& from) {
  to.insert(to.end(), from.begin(), from.end());
}

LetterPart where_part(const PlanResult& plan, const Totals& sum) {
  LetterPart part{say("plan.heading.where"), {}};
  part.sentences.push_back(
      opening(say("plan.letter.area", {{"sites", static_cast<std::int64_t>(plan.sites.size())},
                                       {"blocks", std::int64_t{sum.blocks}},
                                       {"area", one_decimal(sum.area_ha)},
                                       {"error", one_decimal(1.96 * sum.area_sd_ha)}}),
              {{"area", "programme/area"}, {"error", "letter/area_error"}}));
  part.sentences.push_back(opening(say("plan.letter.open", {{"open", std::int64_t{sum.open_blocks}},
                                                            {"area", one_decimal(sum.open_ha)}}),
                                   {{"area", "letter/area_open"}}));
  return part;
}

// Sentences of the weather room with the nodes their numbers come from.
Message opened(Message sentence) {
  if (sentence.key == "climate.window_found")
    return opening(std::move(sentence),
                   {{"good", "climate/window/good_years"}, {"of", "climate/window/of_years"}});
  if (sentence.key == "climate.killing_assumed")
    return opening(std::move(sentence), {{"holds_mm", "climate/window/ball_holds"},
                                         {"share_mm", "climate/window/killing_below"}});
  return sentence;
}

LetterPart when_part(const PlanResult& plan) {
  const WindowPart& window = plan.window;
  LetterPart part{say("plan.heading.when"), {opened(window.first_line)}};
  if (window.first) {
    part.sentences.push_back(
        say("plan.letter.window_days", {{"first", *window.first}, {"last", *window.last}}));
  }
  if (window.open_until)
    part.sentences.push_back(say("plan.letter.open_until", {{"last", *window.open_until}}));
  add_all(part.sentences, window.refused);
  for (const Message& caveat : window.caveats) part.sentences.push_back(opened(caveat));
  return part;
}

// Seedlings of a species on open blocks, or on drafts when nothing is open.
int shown_count(const SpeciesPart& species, bool any_open) {
  return any_open ? species.planted : species.draft;
}

std::vector<const SpeciesPart*> most_planted(const PlanResult& plan, bool any_open) {
  std::vector<const SpeciesPart*> list;
  for (const SpeciesPart& species : plan.species) {
    if (shown_count(species, any_open) > 0) list.push_back(&species);
  }
  std::stable_sort(list.begin(), list.end(), [&](const auto* a, const auto* b) {
    return shown_count(*a, any_open) > shown_count(*b, any_open);
  });
  return list;
}

LetterPart what_part(const PlanResult& plan, const Totals& sum) {
  LetterPart part{say("plan.heading.what"), {}};
  std::int64_t pioneers = 0;
  for (const SpeciesPart& species : plan.species)
    pioneers += species.group == "pioneer" ? species.planted : 0;
  if (sum.planted > 0) {
    part.sentences.push_back(
        opening(say("plan.letter.mix", {{"planted", sum.planted},
                                        {"species", std::int64_t{sum.species}},
                                        {"pioneers", pioneers},
                                        {"percent", whole(100.0 * static_cast<double>(pioneers) /
                                                          static_cast<double>(sum.planted))}}),
                {{"planted", "programme/planted"},
                 {"pioneers", "letter/pioneers"},
                 {"percent", "letter/pioneer_percent"}}));
  }
  const auto list = most_planted(plan, sum.planted > 0);
  for (std::size_t i = 0; i < std::min<std::size_t>(3, list.size()); ++i) {
    Message line = say("plan.letter.species",
                       {{"name", list[i]->name},
                        {"local", list[i]->local_name},
                        {"count", std::int64_t{shown_count(*list[i], sum.planted > 0)}}});
    if (sum.planted > 0) line.opens = {{"count", "species/" + list[i]->name + "/planted"}};
    part.sentences.push_back(std::move(line));
  }
  for (const GroundPart& ground : plan.grounds) {
    if (sum.planted > 0 && !ground.open) continue;  // drafts stand in the tables
    Message line =
        say("plan.letter.living", {{"ground", ground.ground_type},
                                   {"state", std::string(ground.open ? "open" : "draft")},
                                   {"living", whole(ground.expected_living)},
                                   {"low", whole(ground.living_low)},
                                   {"high", whole(ground.living_high)},
                                   {"needed", whole(ground.needed_living)},
                                   {"months", whole(plan.target_age_months)}});
    if (ground.open)
      line.opens = {{"living", "mix/" + ground.ground_type + "/living"},
                    {"low", "mix/" + ground.ground_type + "/living_low"},
                    {"high", "mix/" + ground.ground_type + "/living_high"},
                    {"needed", "mix/" + ground.ground_type + "/needed"},
                    {"months", "parameter/mix.age"}};
    part.sentences.push_back(std::move(line));
  }
  return part;
}

LetterPart seed_part(const PlanResult& plan, const Totals& sum) {
  LetterPart part{say("plan.heading.seed"), {}};
  if (plan.collections.empty()) {
    part.sentences.push_back(say("plan.letter.no_seed"));
    return part;
  }
  std::int64_t late = 0;
  for (const CollectPart& collect : plan.collections) late += collect.timing == "too_late" ? 1 : 0;
  part.sentences.push_back(
      opening(say("plan.letter.seed", {{"ready", sum.ready},
                                       {"collect", sum.to_collect},
                                       {"percent", whole(100 * plan.order_confidence)}}),
              {{"ready", "letter/ready"},
               {"collect", "letter/to_collect"},
               {"percent", "nursery/order_confidence"}}));
  if (late > 0) part.sentences.push_back(say("plan.letter.late", {{"species", late}}));
  return part;
}

LetterPart who_part(const PlanResult& plan, const Totals& sum) {
  LetterPart part{say("plan.heading.who"), {}};
  if (plan.works.empty()) {
    part.sentences.push_back(say("plan.letter.no_work"));
    return part;
  }
  part.sentences.push_back(
      opening(say("plan.letter.people", {{"people", std::int64_t{sum.peak_people}},
                                         {"days", whole(plan.money.person_days)},
                                         {"years", plan.money.years}}),
              {{"people", "letter/people"},
               {"days", "tending/total/days"},
               {"years", "parameter/plan.years"}}));
  part.sentences.push_back(
      opening(say("plan.letter.money", {{"total", whole(plan.money.total)},
                                        {"seedlings", whole(plan.money.seedlings)},
                                        {"wages", whole(plan.money.wages)},
                                        {"materials", whole(plan.money.materials)}}),
              {{"total", "money/total"},
               {"seedlings", "money/seedlings"},
               {"wages", "letter/wages"},
               {"materials", "letter/materials"}}));
  return part;
}

LetterPart hold_part(const PlanResult& plan) {
  LetterPart part{say("plan.heading.hold"), {}};
  for (const Hold& hold : holds(plan)) {
    part.sentences.push_back(say("plan.letter.hold", {{"where", hold.where}}));
    add_all(part.sentences, hold.reasons);
  }
  add_all(part.sentences, plan.draft_problem);
  return part;
}

LetterPart next_part(const PlanResult& plan) {
  LetterPart part{say("plan.heading.next"), {}};
  const auto acts = next_acts(plan);
  for (std::size_t i = 0; i < std::min<std::size_t>(5, acts.size()); ++i) {
    Message line = acts[i].what;
    line.arguments["day"] = acts[i].day;
    part.sentences.push_back(line);
  }
  if (acts.empty()) part.sentences.push_back(say("plan.letter.nothing_due"));
  return part;
}

}  // namespace

Totals totals(const PlanResult& plan) {
  Totals sum;
  for (const BlockPart& part : plan.blocks) {
    sum.area_ha += part.area_ha;
    (part.open ? sum.open_ha : sum.hold_ha) += part.area_ha;
    sum.open_blocks += part.open ? 1 : 0;
    (part.open ? sum.planted : sum.draft) += part.planted;
  }
  sum.blocks = static_cast<int>(plan.blocks.size());
  for (const SitePart& site : plan.sites)
    sum.area_sd_ha = std::hypot(sum.area_sd_ha, site.area_sd_ha);
  for (const SpeciesPart& species : plan.species) sum.species += species.planted > 0 ? 1 : 0;
  for (const CollectPart& collect : plan.collections) {
    sum.ready += std::min(collect.ready, collect.to_field);
    sum.to_collect += collect.count;
  }
  for (const WeekPart& week : plan.weeks) sum.peak_people = std::max(sum.peak_people, week.people);
  return sum;
}

Message answer(const PlanResult& plan) {
  const Totals sum = totals(plan);
  if (sum.open_blocks == 0)
    return say("plan.answer.all_on_hold", {{"blocks", std::int64_t{sum.blocks}}});
  if (sum.planted == 0)
    return say("plan.answer.nothing_to_plant", {{"open", std::int64_t{sum.open_blocks}}});
  if (!plan.window.first) {
    return opening(say("plan.answer.no_window",
                       {{"planted", sum.planted}, {"area", one_decimal(sum.open_ha)}}),
                   {{"planted", "programme/planted"}, {"area", "letter/area_open"}});
  }
  return opening(say("plan.answer.plant", {{"planted", sum.planted},
                                           {"area", one_decimal(sum.open_ha)},
                                           {"first", *plan.window.first},
                                           {"last", *plan.window.last}}),
                 {{"planted", "programme/planted"}, {"area", "letter/area_open"}});
}

std::vector<Hold> holds(const PlanResult& plan) {
  std::vector<Hold> list;
  for (const SitePart& site : plan.sites) {
    Hold hold;
    std::vector<std::string> codes;
    for (const BlockPart& part : plan.blocks) {
      if (part.open || part.block.site != site.code) continue;
      codes.push_back(part.block.code);
      for (const Message& reason : part.reasons) {
        if (std::find(hold.reasons.begin(), hold.reasons.end(), reason) == hold.reasons.end())
          hold.reasons.push_back(reason);
      }
    }
    if (codes.empty()) continue;
    hold.where =
        site.code + " (" + codes.front() + (codes.size() > 1 ? "–" + codes.back() : "") + ")";
    list.push_back(std::move(hold));
  }
  return list;
}

std::vector<Act> next_acts(const PlanResult& plan) {
  std::map<Date, std::pair<int, std::string>> collect, sow;
  for (const CollectPart& part : plan.collections) {
    if (part.count == 0 || part.timing == "too_late") continue;
    const auto put = [&](auto& days, const std::optional<Date>& day) {
      if (!day || *day < plan.head.today) return;
      auto& entry = days[*day];
      if (entry.first++ == 0)
        entry.second = part.local_name.empty() ? part.species : part.local_name;
    };
    put(collect, part.collect_by);
    put(sow, part.sow_by);
  }
  std::vector<Act> acts;
  for (const auto& [day, entry] : collect) {
    acts.push_back({day, say("plan.act.collect",
                             {{"species", std::int64_t{entry.first}}, {"name", entry.second}})});
  }
  for (const auto& [day, entry] : sow) {
    acts.push_back({day, say("plan.act.sow",
                             {{"species", std::int64_t{entry.first}}, {"name", entry.second}})});
  }
  std::map<std::pair<Date, std::string>, int> jobs;
  for (const WorkPart& work : plan.works) {
    if (work.due >= plan.head.today) ++jobs[{work.due, work.job}];
  }
  for (const auto& [key, blocks] : jobs) {
    acts.push_back(
        {key.first, say("plan.act.work", {{"job", key.second}, {"blocks", std::int64_t{blocks}}})});
  }
  std::stable_sort(acts.begin(), acts.end(),
                   [](const Act& a, const Act& b) { return a.day < b.day; });
  return acts;
}

std::vector<LetterPart> letter(const PlanResult& plan) {
  const Totals sum = totals(plan);
  std::vector<LetterPart> parts;
  parts.push_back({say("plan.heading.answer", {{"programme", plan.head.programme},
                                               {"number", std::int64_t{plan.head.number}}}),
                   {answer(plan)}});
  if (plan.head.invented_figures) parts.back().sentences.push_back(say("plan.letter.invented"));
  if (sum.open_blocks < sum.blocks) parts.push_back(hold_part(plan));
  parts.push_back(where_part(plan, sum));
  parts.push_back(when_part(plan));
  parts.push_back(what_part(plan, sum));
  parts.push_back(seed_part(plan, sum));
  parts.push_back(who_part(plan, sum));
  parts.push_back(next_part(plan));
  LetterPart assumed{say("plan.heading.assumed"), plan.mix_notes};
  if (!assumed.sentences.empty()) {
    if (assumed.sentences.size() > 4) assumed.sentences.resize(4);
    parts.push_back(std::move(assumed));
  }
  return parts;
}

}  // namespace wildling::plan
