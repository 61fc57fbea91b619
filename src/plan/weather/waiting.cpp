#include "plan/weather/waiting.hpp"

#include <algorithm>

#include "plan/weather/log_lines.hpp"
#include "plan/weather/today.hpp"
#include "plan/weather/waiting_cost.hpp"

namespace wildling::plan {
namespace {

using namespace weather;
using climate::PlantVerdict;
using climate::SoilSeen;

constexpr std::size_t kMostReasons = 6;  // groups of blocks; more do not fit one page

std::vector<const ground::Block*> wanted_blocks(const Scene& scene,
                                                const std::vector<std::string>& names) {
  if (names.empty()) return blocks_of(scene, {});
  std::vector<const ground::Block*> blocks;
  for (const std::string& name : names) {
    for (const ground::Block* block : blocks_of(scene, {{"block", {name}}})) {
      if (std::find(blocks.begin(), blocks.end(), block) == blocks.end()) blocks.push_back(block);
    }
  }
  return blocks;
}

// What the spade said at each block where somebody poked.
void add_spade(WaitingPage& page, const Scene& scene, const Verdicts& all) {
  for (const SoilSeen soil : {SoilSeen::dry, SoilSeen::moist_to_bottom, SoilSeen::not_looked}) {
    std::string names;
    std::string who;
    for (const BlockAdvice& one : all.blocks) {
      if (one.soil != soil || one.wet_ground) continue;
      names += (names.empty() ? "" : ", ") + one.block->code;
      const auto look = scene.looks.find(one.block->uid);
      if (look != scene.looks.end()) who = look->second.soil.who;
    }
    if (names.empty()) continue;
    const char* key = soil == SoilSeen::dry               ? "weather.waiting.spade_dry"
                      : soil == SoilSeen::moist_to_bottom ? "weather.waiting.spade_moist"
                                                          : "weather.waiting.spade_none";
    page.looked_at.push_back({say(key, {{"blocks", names}, {"who", who}}),
                              soil == SoilSeen::not_looked ? Origin::assumed : Origin::measured});
  }
}

void add_looked_at(WaitingPage& page, Reply& reply, const Scene& scene, const Verdicts& all) {
  add_spade(page, scene, all);
  if (!scene.book) {
    page.looked_at.push_back({say("weather.no_log_advice"), Origin::assumed});
    return;
  }
  const Origin origin = scene.book->station.origin;
  page.looked_at.push_back({log_age_line(reply.workings, scene), origin});
  page.looked_at.push_back({useful_rain_line(reply.workings, scene), origin});
  page.looked_at.push_back({fortnight_line(reply.workings, scene), origin});
  for (const Message& line : years_lines(reply.workings, scene, all))
    page.looked_at.push_back({line, Origin::computed});
}

Verdicts only_waiting(Verdicts all) {
  std::erase_if(all.blocks,
                [](const BlockAdvice& one) { return one.verdict == PlantVerdict::plant; });
  return all;
}

}  // namespace

WaitingPage waiting_page(const store::Store& store, Date day,
                         const std::vector<std::string>& blocks) {
  const Scene scene = weather::scene(store, {}, day);
  Reply reply;
  add_log_age(reply.workings, scene);
  const Verdicts all = only_waiting(verdicts(scene, wanted_blocks(scene, blocks), reply.workings));
  if (all.blocks.empty())
    throw Error(ErrorKind::input, iso_date(day), say("weather.waiting.nobody_waited"));
  WaitingPage page;
  page.stamp = {scene.programme.name, 0, day, scene.programme.invented_figures};
  page.day = day;
  for (const BlockAdvice& one : all.blocks) page.blocks.push_back(one.block->code);
  page.answer = say("weather.waiting.answer");
  page.why = reason_lines(all);
  if (page.why.size() > 2 * kMostReasons) page.why.resize(2 * kMostReasons);
  add_looked_at(page, reply, scene, all);
  page.safe_act = waiting_cost(reply, scene, all);
  page.settles = settle_lines(reply.workings, scene, all);
  const auto days = static_cast<int>(scene.parameters().value("weather.look_again_days"));
  page.look_again = day + std::chrono::days(days);
  return page;
}

}  // namespace wildling::plan
