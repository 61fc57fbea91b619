#include <cmath>

#include <fmt/format.h>

#include "climate/advice_workings.hpp"
#include "climate/chain_workings.hpp"
#include "climate/normals.hpp"
#include "plan/weather/log_lines.hpp"
#include "plan/weather/replies.hpp"
#include "plan/weather/verdicts.hpp"

namespace wildling::plan::weather {
namespace {

Table delay_table(Workings& w, const Scene& scene, const climate::Outlook& outlook) {
  Table table{"delays",
              from_gauge(scene, say("weather.spells.delays")),
              {{"days", say("weather.column.wait_days"), 0},
               {"good_years", say("weather.column.good_years"), 0},
               {"of_years", say("weather.column.of_years"), 0},
               {"share_low_pct", say("weather.column.share_low"), 0},
               {"share_high_pct", say("weather.column.share_high"), 0},
               {"invented_good", say("weather.column.invented_good"), 0},
               {"invented", say("weather.column.invented"), 0}},
              {}};
  for (const climate::OutlookDelay& delay : outlook.delays) {
    const std::string key = fmt::format("climate/outlook/after/{}/", delay.days);
    const auto count = [&](const char* name, int of, int n) {
      if (of == 0) return Cell{};
      return cell(n, w.find(key + name) == nullptr ? std::string() : key + name);
    };
    const auto limit = [&](const char* name) {
      if (delay.judged == 0) return Cell{};
      return cell_of(
          w, computed(w, key + "percent_" + name, say(std::string("weather.node.share_") + name),
                      "%", "weather.per_cent", {key + "share_" + name}));
    };
    table.rows.push_back({cell(delay.days), count("good_years", delay.judged, delay.good),
                          count("judged_years", 1, delay.judged), limit("low"), limit("high"),
                          count("simulated_good", delay.simulated, delay.simulated_good),
                          count("simulated", delay.simulated, delay.simulated)});
  }
  return table;
}

Table spell_table(const Scene& scene) {
  Table table{"dry_spells",
              from_gauge(scene, say("weather.spells.caption")),
              {{"least_days", say("weather.column.least_days"), 0},
               {"spells", say("weather.column.spells"), 0},
               {"longest_days", say("weather.column.longest"), 0},
               {"longest_first", say("weather.column.longest_first"), 0}},
              {}};
  const double wet = scene.parameters().value("climate.rain.wet_day_mm");
  for (const int least : {7, 10, 14, 21}) {
    const auto spells = climate::dry_spells(scene.book->daily, wet, least);
    const climate::Spell* longest = nullptr;
    for (const climate::Spell& spell : spells) {
      if (longest == nullptr || spell.days > longest->days) longest = &spell;
    }
    table.rows.push_back({cell(least), cell(static_cast<std::int64_t>(spells.size())),
                          longest == nullptr ? Cell{} : cell(longest->days),
                          longest == nullptr ? Cell{} : cell(longest->first)});
  }
  return table;
}

Table chain_table(const Workings& w, const climate::RainChain& chain) {
  const unsigned histories = 1U << static_cast<unsigned>(chain.order);
  Table table{
      "chain", say("weather.spells.chain"), {{"month", say("weather.column.month"), 0}}, {}};
  for (unsigned h = 0; h < histories; ++h) {
    const std::string name = climate::history_name(h, chain.order);
    table.columns.push_back(
        {"wet_after_" + name, say("weather.column.wet_after", {{"history", name}}), 2});
  }
  for (unsigned month = 1; month <= 12; ++month) {
    std::vector<Cell> row = {cell(say("weather.month", {{"month", make_date(2001, month, 1)}}))};
    for (unsigned h = 0; h < histories; ++h) {
      row.push_back(cell_of(
          w, fmt::format("climate/chain/wet/{}/{}", month, climate::history_name(h, chain.order))));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

std::vector<Message> chain_lines(Reply& reply, const Scene& scene) {
  const climate::ChainChoice choice = climate::choose_chain(scene.book->daily, scene.parameters());
  if (choice.refused) return {*choice.refused};
  climate::add_chain_workings(reply.workings, *scene.book, choice, scene.parameters());
  reply.tables.push_back(chain_table(reply.workings, choice.best));
  return {opening(say("weather.spells.order", {{"order", std::int64_t{choice.best.order}},
                                               {"harmonics", std::int64_t{choice.best.harmonics}}}),
                  {{"order", "climate/chain/order"}, {"harmonics", "climate/chain/harmonics"}})};
}

Message first_answer(const climate::Outlook& outlook) {
  const climate::OutlookDelay& now = outlook.delays.front();
  if (now.judged == 0) return say("climate.outlook_no_years");
  return opening(outlook.first_line, {{"good", "climate/outlook/after/0/good_years"},
                                      {"of", "climate/outlook/after/0/judged_years"}});
}

}  // namespace

Reply spells_reply(const store::Store& store, const Entries& entries, Date today, const Progress&) {
  const Scene scene = weather::scene(store, entries, today);
  log_of(scene);
  Reply reply;
  reply.name = "spells";
  climate::OutlookSettings settings;
  settings.simulations = static_cast<int>(scene.parameters().value("weather.simulations"));
  settings.seed = Seed{static_cast<std::uint64_t>(whole_of(entries, "seed").value_or(1))};
  const climate::Outlook outlook = climate::planting_outlook(
      *scene.book, today, climate::SoilSeen::not_looked, settings, scene.parameters());
  std::vector<Message> lines;
  if (outlook.refused) {
    add_log_age(reply.workings, scene);
    reply.answer = *outlook.refused;
    if (reply.answer.key == "climate.log_old") reply.answer.opens = {{"days", "weather/log/age"}};
    lines.push_back(say("climate.safe_act_today"));
  } else {
    climate::add_outlook_workings(reply.workings, *scene.book, outlook,
                                  climate::SoilSeen::not_looked, scene.parameters());
    reply.answer = first_answer(outlook);
    reply.tables.push_back(delay_table(reply.workings, scene, outlook));
    for (const Message& caveat : outlook.caveats) lines.push_back(caveat);
    lines.push_back(say("weather.spells.from_balance"));
  }
  reply.tables.push_back(spell_table(scene));
  for (Message& line : chain_lines(reply, scene)) lines.push_back(std::move(line));
  lines.push_back(say("weather.spells.definition"));
  for (Message& caveat : gauge_caveats(scene)) lines.push_back(std::move(caveat));
  reply.parts = {part_of("weather.heading.how", std::move(lines))};
  return reply;
}

}  // namespace wildling::plan::weather
