#include "ground/advice.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace wildling::ground {
namespace {

bool holds_trees_down(Cover cover) {
  return cover == Cover::running_grass || cover == Cover::tussock_grass || cover == Cover::fern ||
         cover == Cover::climbers;
}

void refuse_while_closed(const Gates& gates, Advice& advice) {
  advice.reasons = judge(gates).reasons;
  for (const Message& reason : advice.reasons) {
    advice.would_change.push_back(say(reason.key + "_next"));
  }
}

void decide_by_natural_trees(double natural, Cover cover, double slow, Advice& advice) {
  const double enough = advice.enough_natural_per_ha;
  if (natural >= enough) {
    advice.method = holds_trees_down(cover) ? Method::assist : Method::protect;
    advice.reasons.push_back(
        say("ground.advice.enough_natural", {{"natural", natural}, {"enough", enough}}));
    advice.reasons.push_back(say(holds_trees_down(cover) ? "ground.advice.cover_holds_down"
                                                         : "ground.advice.cover_lets_grow"));
    advice.would_change.push_back(say("ground.advice.change_if_fewer", {{"enough", enough}}));
    return;
  }
  advice.method = Method::plant;
  advice.reasons.push_back(
      say("ground.advice.too_few_natural",
          {{"natural", natural}, {"enough", enough}, {"missing", enough - natural}}));
  if (natural >= slow) {
    advice.reasons.push_back(say("ground.advice.slow_regrowth_possible", {{"slow", slow}}));
  } else {
    advice.reasons.push_back(say("ground.advice.nature_alone_fails", {{"slow", slow}}));
  }
  advice.would_change.push_back(say("ground.advice.change_if_more", {{"enough", enough}}));
}

}  // namespace

std::string_view method_name(Method method) {
  constexpr std::array<std::string_view, 4> kNames = {"protect", "assist", "plant", "not_yet"};
  return kNames[static_cast<std::size_t>(method)];
}

Advice advise(const Gates& gates, Cover cover, const Parameters& parameters) {
  Advice advice;
  advice.enough_natural_per_ha = parameters.value("ground.method.enough_natural_per_ha");
  if (gates.natural_trees_counted.answer == Answer::yes && gates.natural_trees_per_ha) {
    advice.missing_per_ha =
        std::max(0.0, advice.enough_natural_per_ha - *gates.natural_trees_per_ha);
  }
  if (!judge(gates).open) {
    refuse_while_closed(gates, advice);
    return advice;
  }
  decide_by_natural_trees(*gates.natural_trees_per_ha, cover,
                          parameters.value("ground.method.slow_regrowth_per_ha"), advice);
  return advice;
}

}  // namespace wildling::ground
