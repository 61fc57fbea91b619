#include "nursery/words_of.hpp"

#include <cmath>

#include <fmt/format.h>

namespace wildling::nursery {
namespace {

std::int64_t integer(long long n) {
  return static_cast<std::int64_t>(n);
}

std::string month_list(const std::vector<int>& months) {
  std::string text;
  for (const int month : months) text += fmt::format("{}{}", text.empty() ? "" : ", ", month);
  return text;
}

Message answer(const Collection& c) {
  const auto& d = c.dates;
  const bool hurry = d && d->timing == Timing::hurry;
  switch (c.way) {
    case Way::none:
      return say(
          "nursery.answer.ready_suffice",
          {{"species", c.species}, {"ready", integer(c.ready)}, {"to_field", integer(c.to_field)}});
    case Way::seed:
      return say("nursery.answer.seed", {{"species", c.species},
                                         {"count", integer(c.count)},
                                         {"to_field", integer(c.to_field)},
                                         {"trees", integer(c.trees_to_visit)},
                                         {"collect_by", hurry ? d->collect_latest : d->collect_by},
                                         {"sow_by", hurry ? d->start_latest : d->start_by}});
    case Way::wildlings:
      return say("nursery.answer.wildlings",
                 {{"species", c.species},
                  {"count", integer(c.count)},
                  {"to_field", integer(c.to_field)},
                  {"trees", integer(c.trees_to_visit)},
                  {"collect_by", hurry ? d->collect_latest : d->collect_by}});
    case Way::cannot_tell:
      break;
  }
  return say("nursery.answer.cannot_tell",
             {{"species", c.species}, {"to_field", integer(c.to_field)}});
}

void say_when(Collection& c, const Order& order) {
  const Dates& d = *c.dates;
  if (d.timing == Timing::hurry) {
    c.notes.push_back(
        say("nursery.note.hurry", {{"by", d.collect_by}, {"latest", d.collect_latest}}));
  }
  if (c.way == Way::wildlings) {
    c.notes.push_back(say("nursery.note.carpet", {{"carpet", integer(c.carpet_at_least)}}));
    return;
  }
  switch (d.fruit) {
    case Fruit::fits:
      c.notes.push_back(say("nursery.note.fruit_fits",
                            {{"months", month_list(d.ripe_months)}, {"day", *d.go_collecting}}));
      break;
    case Fruit::any_month:
      c.notes.push_back(say("nursery.note.fruit_all_year"));
      break;
    case Fruit::mast_seen:
      c.notes.push_back(say("nursery.note.mast_seen"));
      break;
    default:
      if (!order.fruit_seen.value_or(false)) c.notes.push_back(say("nursery.note.fruit_unknown"));
  }
  const bool keeps = d.storage_known && *order.facts->seed_storage == species::Storage::orthodox;
  if (!keeps) {
    c.notes.push_back(
        say(d.storage_known ? "nursery.note.does_not_keep" : "nursery.note.keeping_unknown",
            {{"days", integer(d.days_to_sowing)}}));
  }
}

void say_weight(Collection& c) {
  if (c.fruit_kg) {
    c.notes.push_back(say("nursery.note.fruit_kg", {{"kg", *c.fruit_kg}}));
  } else if (c.seed_kg) {
    c.notes.push_back(
        say("nursery.note.seed_kg", {{"kg", *c.seed_kg}, {"per_kg", *c.seeds_per_kg}}));
  } else {
    c.notes.push_back(say("nursery.note.weigh_100"));
  }
}

}  // namespace

std::vector<Message> why_no_seed(const Order& order, const Dates& seed) {
  std::vector<Message> why;
  if (order.facts != nullptr && order.facts->propagation.size() == 1 &&
      order.facts->propagation[0] == "cutting") {
    why.push_back(say("nursery.note.cuttings_only", {{"species", order.species}}));
  }
  if (seed.timing == Timing::too_late) {
    why.push_back(say("nursery.note.too_late",
                      {{"species", order.species}, {"latest", seed.collect_latest}}));
  }
  if (seed.fruit == Fruit::mast) {
    why.push_back(say("nursery.note.mast_not_seen", {{"species", order.species}}));
  } else if (seed.fruit == Fruit::misses) {
    why.push_back(say("nursery.note.fruit_misses", {{"months", month_list(seed.ripe_months)},
                                                    {"from", seed.collect_from},
                                                    {"to", seed.collect_latest}}));
  } else if (order.fruit_seen == false) {
    why.push_back(say("nursery.note.no_fruit_seen", {{"species", order.species}}));
  }
  return why;
}

void put_words(Collection& c, const Order& order, const Parameters& parameters) {
  c.first_line = answer(c);
  if (c.way == Way::none) return;
  if (c.ready > 0) {
    c.notes.push_back(
        say("nursery.note.ready_counted",
            {{"ready", integer(c.ready)}, {"arriving", std::round(c.ready_arriving_mean)}}));
  }
  if (c.way == Way::cannot_tell) {
    c.notes.push_back(say("nursery.note.safe_act", {{"species", c.species}}));
  } else {
    c.notes.push_back(say("nursery.note.by_means", {{"by_means", integer(c.by_means)},
                                                    {"count", integer(c.count)},
                                                    {"percent", 100 * c.mean_yield}}));
    say_when(c, order);
    if (c.way == Way::seed) say_weight(c);
    if (c.lots > 1) {
      c.notes.push_back(
          say("nursery.note.lots", {{"lots", integer(c.lots)}, {"per_lot", integer(c.per_lot)}}));
    }
    const double least = parameters.value("nursery.mother_trees.least");
    if (order.mother_trees && *order.mother_trees < least) {
      c.notes.push_back(say("nursery.note.few_trees", {{"known", integer(*order.mother_trees)},
                                                       {"least", integer(c.trees_to_visit)}}));
    }
  }
  if (c.short_likely) {
    c.notes.push_back(c.stand_in.empty()
                          ? say("nursery.note.no_stand_in")
                          : say("nursery.note.stand_in", {{"stand_in", c.stand_in}}));
  }
}

void put_words(CollectionPlan& plan) {
  int open = 0;
  int collecting = 0;
  int short_of = 0;
  for (const Collection& c : plan.collections) {
    if (c.way == Way::cannot_tell) ++open;
    if (c.short_likely) ++short_of;
    if (c.way == Way::seed || c.way == Way::wildlings) ++collecting;
  }
  const double percent = 100 * plan.order_confidence;
  if (open > 0) {
    plan.first_line = say("nursery.plan.not_whole",
                          {{"open", integer(open)}, {"species", integer(plan.species_counted)}});
  } else if (collecting == 0) {
    plan.first_line = say("nursery.plan.all_ready", {{"percent", percent}});
  } else {
    plan.first_line = say("nursery.plan.collect", {{"collecting", integer(collecting)},
                                                   {"short", integer(short_of)},
                                                   {"species", integer(plan.species_counted)},
                                                   {"percent", percent}});
  }
  plan.notes.push_back(say("nursery.plan.split", {{"percent", percent},
                                                  {"species", integer(plan.species_counted)},
                                                  {"each", 100 * plan.species_confidence}}));
  if (plan.space.pots > 0) {
    plan.notes.push_back(say("nursery.plan.space", {{"pots", integer(plan.space.pots)},
                                                    {"bed", plan.space.bed_m2},
                                                    {"low", plan.space.water_low_l_day},
                                                    {"high", plan.space.water_high_l_day}}));
  }
}

}  // namespace wildling::nursery
