#include "plan/weather/today.hpp"

#include <algorithm>

#include "plan/weather/fire_today.hpp"
#include "plan/weather/heat_today.hpp"
#include "plan/weather/log_lines.hpp"
#include "plan/weather/waiting_cost.hpp"
#include "plan/weather/water_today.hpp"
#include "plan/weather/words_of.hpp"

namespace wildling::plan::weather {
namespace {

using climate::PlantVerdict;
using climate::SoilSeen;

// "B1, B2, B3 and 4 others"
Message where_line(const std::vector<const BlockAdvice*>& blocks) {
  constexpr std::size_t kNamed = 6;
  std::string names;
  for (std::size_t i = 0; i < std::min(kNamed, blocks.size()); ++i)
    names += (i == 0 ? "" : ", ") + blocks[i]->block->code;
  const auto others = static_cast<std::int64_t>(blocks.size() - std::min(kNamed, blocks.size()));
  return say("weather.today.where", {{"blocks", names}, {"others", others}});
}

Message years_line(const Scene& scene, SoilSeen soil, const climate::Outlook& outlook) {
  const climate::OutlookDelay& now = outlook.delays.front();
  if (now.judged == 0) return from_gauge(scene, say("weather.years.none"));
  const std::string prefix = outlook_prefix(soil);
  const bool few = now.judged < scene.parameters().value("climate.window.years_for_plain_words");
  Message line =
      say(few ? "weather.years.few" : "weather.years.enough", {{"soil", soil_name(soil)},
                                                               {"good", std::int64_t{now.good}},
                                                               {"of", std::int64_t{now.judged}}});
  line.opens = {{"good", prefix + "after/0/good_years"}, {"of", prefix + "after/0/judged_years"}};
  if (few) {
    line.arguments["low"] = 100 * now.share_low;
    line.arguments["high"] = 100 * now.share_high;
  }
  return from_gauge(scene, std::move(line));
}

// Wilson's limits as nodes, in per cent.
void add_limits(Workings& w, SoilSeen soil, Message& line) {
  if (!line.arguments.contains("low")) return;
  for (const bool low : {true, false}) {
    const std::string name = low ? "low" : "high";
    line.opens[name] =
        computed(w, outlook_prefix(soil) + "percent_" + name, say("weather.node.share_" + name),
                 "%", "weather.per_cent", {outlook_prefix(soil) + "after/0/share_" + name});
  }
}

Table block_table(const Verdicts& verdicts) {
  Table table{"blocks",
              say("weather.today.caption"),
              {{"block", say("field.block"), 0},
               {"site", say("weather.column.site"), 0},
               {"verdict", say("weather.column.verdict"), 0},
               {"good_years", say("weather.column.good_years"), 0},
               {"of_years", say("weather.column.of_years"), 0},
               {"closed", say("weather.column.closed"), 0},
               {"why", say("weather.column.why"), 0}},
              {}};
  for (const BlockAdvice& one : verdicts.blocks) {
    table.rows.push_back(
        {cell(one.block->code),
         cell(one.block->site),
         {say("weather.verdict." + verdict_name(one.verdict)), one.plant_key},
         one.of.value_or(0) > 0 ? cell(*one.good, one.good_key) : Cell{},
         one.of.value_or(0) > 0 ? cell(*one.of, one.of_key) : Cell{},
         cell(static_cast<std::int64_t>(one.reasons.size())),
         one.reasons.empty() ? cell(say("weather.today.all_open")) : cell(one.reasons.front())});
  }
  return table;
}

void add_parts(Reply& reply, const Scene& scene, const Verdicts& all) {
  Workings& w = reply.workings;
  reply.parts.push_back(part_of("weather.heading.why", reason_lines(all)));
  std::vector<Message> rain = {log_age_line(w, scene)};
  if (scene.book) {
    rain.push_back(useful_rain_line(w, scene));
    rain.push_back(fortnight_line(w, scene));
  }
  for (Message& line : season_lines(w, scene)) rain.push_back(std::move(line));
  for (Message& caveat : gauge_caveats(scene)) rain.push_back(std::move(caveat));
  reply.parts.push_back(part_of("weather.heading.rain", std::move(rain)));
  std::vector<Message> years = years_lines(w, scene, all);
  if (!years.empty()) reply.parts.push_back(part_of("weather.heading.years", std::move(years)));
  std::vector<Message> settle = settle_lines(w, scene, all);
  if (!settle.empty())
    reply.parts.push_back(part_of("weather.heading.until_then", std::move(settle)));
  reply.tables.push_back(block_table(all));
  std::vector<Message> waiting = waiting_cost(reply, scene, all);
  if (!waiting.empty())
    reply.parts.push_back(part_of("weather.heading.waiting", std::move(waiting)));
}

void add_day(Reply& reply, const Scene& scene) {
  Workings& w = reply.workings;
  const FireToday fire = fire_today(scene);
  reply.parts.push_back(part_of("weather.heading.fire", fire_lines(w, scene, fire)));
  const HeatToday heat = heat_today(scene);
  reply.parts.push_back(part_of("weather.heading.heat", heat_lines(w, scene, heat)));
  reply.parts.push_back(part_of("weather.heading.kinder", kinder_lines(w, scene, heat)));
  if (!heat.air) return;
  reply.tables.push_back(hours_table(w, heat));
  if (heat.plan.start_hour) reply.tables.push_back(new_workers_table(w, heat));
}

}  // namespace

Message today_answer(const Verdicts& all) {
  const auto of = static_cast<std::int64_t>(all.blocks.size());
  if (of == 0) return say("plan.no_block");
  const int plant = all.count(PlantVerdict::plant);
  if (plant > 0)
    return opening(say("weather.today.plant", {{"plant", std::int64_t{plant}}, {"of", of}}),
                   {{"plant", "weather/today/plant"}, {"of", "weather/today/blocks"}});
  if (all.count(PlantVerdict::no_advice) == static_cast<int>(of)) {
    const BlockAdvice& first = all.blocks.front();
    for (const Message& reason : first.reasons) {
      if (reason.key == "climate.log_old" || reason.key == "weather.no_log_advice") return reason;
    }
    return say("weather.today.no_advice");
  }
  if (all.count(PlantVerdict::not_this_season) == static_cast<int>(of))
    return say("weather.today.not_this_season");
  return say("weather.today.wait");
}

std::vector<Message> reason_lines(const Verdicts& all) {
  std::vector<std::pair<Message, std::vector<const BlockAdvice*>>> groups;
  for (const BlockAdvice& one : all.blocks) {
    const Message reason =
        one.reasons.empty() ? say("weather.today.all_open") : one.reasons.front();
    const auto found = std::find_if(groups.begin(), groups.end(),
                                    [&](const auto& group) { return group.first == reason; });
    if (found == groups.end())
      groups.push_back({reason, {&one}});
    else
      found->second.push_back(&one);
  }
  std::vector<Message> lines;
  for (const auto& [reason, blocks] : groups) {
    lines.push_back(where_line(blocks));
    lines.push_back(reason);
  }
  return lines;
}

std::vector<Message> years_lines(Workings& w, const Scene& scene, const Verdicts& all) {
  std::vector<Message> lines;
  bool wet = false;
  for (const BlockAdvice& one : all.blocks) wet = wet || one.wet_ground;
  for (const auto& entry : all.outlooks) {
    const climate::SoilSeen soil = entry.first;
    const climate::Outlook& outlook = entry.second;
    if (outlook.refused) continue;
    const bool used = std::any_of(all.blocks.begin(), all.blocks.end(), [&](const auto& one) {
      return !one.wet_ground && one.soil == soil;
    });
    if (!used) continue;
    Message line = years_line(scene, soil, outlook);
    add_limits(w, soil, line);
    lines.push_back(std::move(line));
  }
  if (!lines.empty()) {
    lines.push_back(say("climate.outlook_not_survival"));
    lines.push_back(hindcast_line(w, scene));
  }
  if (wet) lines.push_back(say("weather.wet_ground"));
  return lines;
}

std::vector<Message> settle_lines(Workings& w, const Scene& scene, const Verdicts& all) {
  Keys open;
  for (const BlockAdvice& one : all.blocks) {
    if (one.settled_by_a_look)
      open.push_back(leaf(w, "weather/look/" + one.block->code,
                          say("weather.node.to_look_at", {{"block", one.block->code}}),
                          {1, "blocks", Origin::chosen, "", "only unanswered gates are closed"}));
  }
  if (open.empty()) {
    const bool cannot_tell =
        std::any_of(all.outlooks.begin(), all.outlooks.end(),
                    [](const auto& one) { return one.second.refused.has_value(); });
    return cannot_tell ? std::vector<Message>{say("climate.safe_act_today")}
                       : std::vector<Message>{};
  }
  const Parameters& p = scene.parameters();
  const std::string blocks = computed(w, "weather/look/blocks", say("weather.node.look_blocks"),
                                      "blocks", "weather.sum", open);
  const std::string hours = computed(w, "weather/look/hours", say("weather.node.look_hours"),
                                     "person-hours", "weather.product",
                                     {blocks, parameter(w, p, "weather.look.people"),
                                      parameter(w, p, "weather.look.hours_per_block")});
  const Message look = opening(
      say("weather.settle", {{"people", static_cast<std::int64_t>(p.value("weather.look.people"))},
                             {"hours", value_of(w, hours)},
                             {"blocks", static_cast<std::int64_t>(open.size())}}),
      {{"people", "parameter/weather.look.people"}, {"hours", hours}, {"blocks", blocks}});
  return {say("climate.safe_act_today"), look};
}

Reply today_reply(const store::Store& store, const Entries& entries, Date today, const Progress&) {
  const Scene scene = weather::scene(store, entries, today);
  Reply reply;
  reply.name = "today";
  add_log_age(reply.workings, scene);
  const Verdicts all = verdicts(scene, blocks_of(scene, entries), reply.workings);
  reply.answer = today_answer(all);
  add_parts(reply, scene, all);
  add_day(reply, scene);
  if (scene.book) reply.charts.push_back(water_chart(scene, 60));
  return reply;
}

}  // namespace wildling::plan::weather
