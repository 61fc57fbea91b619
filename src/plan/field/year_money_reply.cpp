#include <algorithm>
#include <cmath>

#include "base/workings_build.hpp"
#include "plan/field/year_money.hpp"
#include "plan/field/year_replies.hpp"

namespace wildling::plan {
namespace {

using Sentences = std::vector<Message>;

Date day_of_month_index(int month) {
  return make_date(month / 12, static_cast<unsigned>(month % 12) + 1, 1);
}

std::string plain(const std::string& what) {
  return "year/money/plain/" + what;
}

std::string at_month(const std::string& run, int month) {
  return "year/money/" + run + "/" + tending::month_text(month) + "/";
}

const tending::CashMonth& dearest(const tending::CashTable& table) {
  return *std::max_element(table.months.begin(), table.months.end(),
                           [](const auto& a, const auto& b) { return a.out < b.out; });
}

Message money_line(const MoneyQuestion& question, const MoneyAnswer& answer) {
  const tending::CashTable& table = answer.runs.front().table;
  const Date last = day_of_month_index(table.months.back().month);
  if (!question.opening) {
    const tending::CashMonth& most = dearest(table);
    return opening(say("year.money.no_opening", {{"need", rounded(table.out)},
                                                 {"last", last},
                                                 {"most", rounded(most.out)},
                                                 {"month", day_of_month_index(most.month)}}),
                   {{"need", plain("out")}, {"most", at_month("plain", most.month) + "out"}});
  }
  if (table.runs_out) {
    return opening(say("year.money.runs_out", {{"month", day_of_month_index(*table.runs_out)},
                                               {"missing", rounded(table.most_missing)},
                                               {"last", last}}),
                   {{"month", plain("runs_out")}, {"missing", plain("missing")}});
  }
  return opening(
      say("year.money.lasts", {{"last", last}, {"left", rounded(table.months.back().balance)}}),
      {{"left", at_month("plain", table.months.back().month) + "balance"}});
}

Message bad_line(const MoneyQuestion& question, const MoneyAnswer& answer, const MoneyRun& run) {
  const double more = run.table.out - answer.runs.front().table.out;
  const std::string at = "year/money/" + run.name + "/";
  const char* key = !question.opening    ? "year.money.bad_need"
                    : run.table.runs_out ? "year.money.bad_runs_out"
                                         : "year.money.bad_lasts";
  Message line =
      opening(say(key, {{"run", run.name}, {"more", rounded(more)}}), {{"more", at + "more"}});
  if (question.opening && run.table.runs_out) {
    line.arguments["month"] = day_of_month_index(*run.table.runs_out);
    line.opens["month"] = at + "runs_out";
  }
  return line;
}

/// What is needed in the first twelve months, with its node.
Message first_year_line(Workings& workings, const tending::CashTable& table) {
  std::vector<std::string> keys;
  double need = 0;
  for (const tending::CashMonth& month : table.months) {
    if (keys.size() == 12) break;
    need += month.out;
    keys.push_back(at_month("plain", month.month) + "out");
  }
  const std::string key = WorkingsBuilder(workings).computed(
      "year/need/first_year", say("year.label.first_year"), need, "money", "plan.sum", keys);
  return opening(say("year.money.first_year", {{"need", rounded(need)}}), {{"need", key}});
}

Sentences doubts(const Year& year, const MoneyQuestion& question, const MoneyAnswer& answer) {
  Sentences list;
  if (question.hoped > 0)
    list.push_back(say("year.money.hoped", {{"amount", rounded(question.hoped)}}));
  if (answer.works_before > 0)
    list.push_back(say("year.money.works_before",
                       {{"works", answer.works_before}, {"start", question.start}}));
  if (question.unpriced_species > 0)
    list.push_back(
        say("year.money.unpriced", {{"species", std::int64_t{question.unpriced_species}}}));
  if (step_on(year.book.prices, "wage", question.dear_from) == nullptr) {
    const Parameter& wage = year.rates.at("tending.wage_per_day");
    list.push_back(
        opening(say("year.money.wage",
                    {{"wage", wage.value}, {"origin", std::string(origin_name(wage.origin))}}),
                {{"wage", "parameter/tending.wage_per_day"}}));
  }
  std::string missing;
  for (const char* item : {"trip", "month"}) {
    if (step_on(year.book.prices, item, question.dear_from) == nullptr)
      missing += missing.empty() ? item : "_both";
  }
  if (!missing.empty())
    list.push_back(
        say("year.money.no_price", {{"items", missing == "trip_both" ? "both" : missing}}));
  list.push_back(rates_sentence(year));
  return list;
}

LetterPart money_part(const Year& year, const MoneyQuestion& question, const MoneyAnswer& answer,
                      Workings& workings) {
  LetterPart part{say("year.heading.money"), {}};
  part.sentences.push_back(first_year_line(workings, answer.runs.front().table));
  part.sentences.push_back(
      say("year.money.bad_window", {{"from", question.hard_from}, {"dear", question.dear_from}}));
  for (std::size_t i = 1; i < answer.runs.size(); ++i)
    part.sentences.push_back(bad_line(question, answer, answer.runs[i]));
  const Sentences more = doubts(year, question, answer);
  part.sentences.insert(part.sentences.end(), more.begin(), more.end());
  return part;
}

Table months_table(const MoneyQuestion& question, const MoneyAnswer& answer, Workings& workings) {
  const tending::CashTable& table = answer.runs.front().table;
  Table shown;
  shown.name = "months";
  shown.caption = say(question.opening ? "year.months.caption" : "year.months.caption_need",
                      {{"start", question.start}});
  shown.columns = {column("month"), column("out"), column("in"),
                   column(question.opening ? "balance" : "need_so_far")};
  for (const tending::CashMonth& month : table.months) {
    const std::string at = at_month("plain", month.month);
    const std::string text = tending::month_text(month.month);
    Cell last = cell(month.balance, at + "balance");
    if (!question.opening)
      last = cell(0 - month.balance,
                  WorkingsBuilder(workings).computed(
                      at + "need",
                      say("year.label.run_need", {{"run", std::string("plain")}, {"month", text}}),
                      0 - month.balance, "money", "year.negated", {at + "balance"}));
    shown.rows.push_back(
        {cell(text), cell(month.out, at + "out"), cell(month.in, at + "in"), std::move(last)});
  }
  return shown;
}

Table blocks_table(const MoneyAnswer& answer) {
  Table shown;
  shown.name = "month_by_block";
  shown.caption = say("year.month_by_block.caption");
  shown.columns = {column("month"), column("block"),     column("person_days", 1),
                   column("wages"), column("materials"), column("seedlings"),
                   column("total")};
  for (const MonthOfBlock& one : answer.by_block) {
    const std::string month = tending::month_text(one.month);
    const std::string at = "year/month/" + month + "/" + one.block + "/";
    shown.rows.push_back({cell(month), cell(one.block), cell(one.days, at + "days"),
                          cell(one.wages, at + "wages"), cell(one.materials, at + "materials"),
                          cell(one.seedlings, at + "seedlings"), cell(one.total(), at + "total")});
  }
  return shown;
}

Table runs_table(const MoneyQuestion& question, const MoneyAnswer& answer) {
  Table shown;
  shown.name = "bad_years";
  shown.caption =
      say("year.bad_years.caption", {{"from", question.hard_from}, {"dear", question.dear_from}});
  shown.columns = {column("year_kind"), column("out"), column("more"), column("runs_out"),
                   column("most_missing")};
  for (const MoneyRun& run : answer.runs) {
    const std::string at = "year/money/" + run.name + "/";
    const bool first = run.name == "plain";
    std::vector<Cell> row = {cell(say("year.run", {{"run", run.name}})),
                             cell(run.table.out, at + "out"), Cell{}, Cell{}, Cell{}};
    if (!first) row[2] = cell(run.table.out - answer.runs.front().table.out, at + "more");
    if (!question.opening) {
      row[3] = cell(say("year.cannot_tell"));
    } else if (run.table.runs_out) {
      row[3] = {tending::month_text(*run.table.runs_out), at + "runs_out"};
    } else {
      row[3] = cell(say("year.lasts"));
    }
    if (question.opening) row[4] = cell(run.table.most_missing, at + "missing");
    shown.rows.push_back(std::move(row));
  }
  return shown;
}

Chart balance_chart(const MoneyQuestion& question, const MoneyAnswer& answer) {
  Chart chart;
  chart.name = "balance";
  Message finding = money_line(question, answer);
  chart.caption = std::move(finding);
  chart.x_label = say("year.axis.month");
  chart.y_label = say("year.axis.balance");
  chart.x_is_day = true;
  const std::map<std::string, Ink> inks = {{"plain", Ink::ink},
                                           {"drought", Ink::straw},
                                           {"fire", Ink::clay},
                                           {"wage_rise", Ink::smoke},
                                           {"rain_days", Ink::water}};
  for (const MoneyRun& run : answer.runs) {
    Curve curve;
    curve.label = say("year.run", {{"run", run.name}});
    curve.ink = inks.at(run.name);
    for (const tending::CashMonth& month : run.table.months) {
      const Date end = day_of_month_index(month.month + 1) - std::chrono::days(1);
      curve.x.push_back(static_cast<double>(end.time_since_epoch().count()));
      curve.y.push_back(month.balance);
    }
    chart.curves.push_back(std::move(curve));
  }
  return chart;
}

Message tree_line(const AliveAt& at) {
  Message line = opening(say("year.tree.cost", {{"years", at.years},
                                                {"cost", rounded(at.cost.per_alive)},
                                                {"planted", rounded(at.cost.per_planted)},
                                                {"alive", rounded(at.cost.alive)},
                                                {"low", rounded(at.alive_low)},
                                                {"high", rounded(at.alive_high)},
                                                {"assumed", at.assumed_species},
                                                {"species", at.species}}),
                         {{"cost", at.key + "cost"},
                          {"planted", at.key + "cost_planted"},
                          {"alive", at.key + "alive"},
                          {"low", at.key + "alive_low"},
                          {"high", at.key + "alive_high"}});
  return line;
}

Table trees_table(const std::vector<AliveAt>& ages, const Workings& workings) {
  Table shown;
  shown.name = "cost_per_tree";
  shown.caption = say("year.cost_per_tree.caption");
  shown.columns = {column("years"),     column("spent"),      column("alive"),
                   column("alive_low"), column("alive_high"), column("cost_alive"),
                   column("cost_low"),  column("cost_high"),  column("cost_planted")};
  for (const AliveAt& at : ages) {
    const auto from = [&](const char* what) {
      const WorkingsNode* node = workings.find(at.key + what);
      return node == nullptr ? Cell{} : cell(node->value, node->key);
    };
    shown.rows.push_back({cell(static_cast<std::int64_t>(at.years)), from("spent"), from("alive"),
                          from("alive_low"), from("alive_high"), from("cost"), from("cost_low"),
                          from("cost_high"), from("cost_planted")});
  }
  return shown;
}

bool cuts_cover(tending::Job job) {
  return job == tending::Job::ring || job == tending::Job::line || job == tending::Job::whole ||
         job == tending::Job::climber_cutting;
}

/// Cost, days and consequences of each job.
Table jobs_table(const Year& year, const MoneyQuestion& question,
                 const std::vector<tending::Dropped>& jobs, Workings& workings) {
  Table shown;
  shown.name = "jobs";
  shown.caption = say("year.jobs.caption", {{"years", question.years}});
  shown.columns = {column("job"),
                   column("works"),
                   column("person_days", 1),
                   column("person_days_book", 1),
                   column("saves"),
                   column("share_percent", 1),
                   column("trees_below"),
                   column("places_empty")};
  const tending::CarePlan book =
      tending::care(question.care.inputs, question.years, year.normals, year.programme.parameters);
  WorkingsBuilder build(workings);
  std::vector<std::string> costs;
  double all = 0;
  for (const tending::Dropped& job : jobs) {
    costs.push_back("year/job/" + std::string(tending::job_name(job.job)) + "/cost");
    all += job.saves;
  }
  const std::string all_key =
      build.computed("year/job/all", say("year.label.jobs_all"), all, "money", "plan.sum", costs);
  for (const tending::Dropped& job : jobs) {
    const std::string name(tending::job_name(job.job));
    const std::string at = "year/job/" + name + "/";
    const double percent = all > 0 ? 100 * job.saves / all : 0;
    const std::string share =
        build.computed(at + "share", say("year.label.job_share", {{"job", name}}), percent, "%",
                       "year.percent", {at + "cost", all_key});
    std::vector<Cell> row = {job_cell(name),
                             cell(static_cast<std::int64_t>(job.works)),
                             cell(job.person_days, at + "days"),
                             Cell{},
                             cell(job.saves, at + "cost"),
                             cell(percent, share),
                             Cell{},
                             Cell{}};
    const auto in_book = book.by_job.find(name);
    if (in_book != book.by_job.end()) {
      const std::string key =
          build.leaf(at + "days_book", say("year.label.job_days_book", {{"job", name}}),
                     in_book->second.days.used, "person-days", Origin::documented,
                     "docs/tending.md: the same works at the book's rates");
      row[3] = cell(in_book->second.days.used, key);
    }
    if (cuts_cover(job.job)) row[6] = cell(job.trees_overtopped, "year/uncut/trees");
    if (job.trees_not_refilled > 0) row[7] = cell(job.trees_not_refilled, at + "places");
    shown.rows.push_back(std::move(row));
  }
  return shown;
}

LetterPart jobs_part(const std::vector<tending::Dropped>& jobs) {
  LetterPart part{say("year.heading.jobs"), {}};
  std::vector<const tending::Dropped*> dear;
  for (const tending::Dropped& job : jobs) dear.push_back(&job);
  std::stable_sort(dear.begin(), dear.end(),
                   [](const auto* a, const auto* b) { return a->saves > b->saves; });
  for (std::size_t i = 0; i < std::min<std::size_t>(4, dear.size()); ++i) {
    const tending::Dropped& job = *dear[i];
    const std::string name(tending::job_name(job.job));
    const std::string at = "year/job/" + name + "/";
    const char* key = cuts_cover(job.job)               ? "year.job.saves_trees"
                      : job.job == tending::Job::refill ? "year.job.saves_places"
                                                        : "year.job.saves";
    Message line = opening(say(key, {{"job", name},
                                     {"saves", rounded(job.saves)},
                                     {"works", static_cast<std::int64_t>(job.works)}}),
                           {{"saves", at + "cost"}});
    if (cuts_cover(job.job)) {
      line.arguments["trees"] = rounded(job.trees_overtopped);
      line.opens["trees"] = "year/uncut/trees";
    } else if (job.job == tending::Job::refill) {
      line.arguments["places"] = rounded(job.trees_not_refilled);
      line.opens["places"] = at + "places";
    }
    part.sentences.push_back(std::move(line));
  }
  part.sentences.push_back(say("year.job.deaths"));
  return part;
}

}  // namespace

Reply money_reply(const Year& year, double years) {
  Reply reply = new_reply("money", year);
  const MoneyQuestion question = money_question(year, years);
  const MoneyAnswer answer = money_answer(question, year.rates);
  add_money_nodes(reply.workings, year, question, answer);
  reply.answer = money_line(question, answer);
  reply.parts.push_back(money_part(year, question, answer, reply.workings));
  std::vector<AliveAt> ages;
  for (const double age : {3.0, 5.0}) {
    if (age <= years) ages.push_back(alive_at(reply.workings, year, question, age));
  }
  LetterPart trees{say("year.heading.trees"), {}};
  for (const AliveAt& at : ages) trees.sentences.push_back(tree_line(at));
  trees.sentences.push_back(say("year.tree.note"));
  reply.parts.push_back(std::move(trees));
  const auto jobs = jobs_dropped(reply.workings, year, question);
  reply.parts.push_back(jobs_part(jobs));
  reply.tables = {months_table(question, answer, reply.workings), runs_table(question, answer),
                  jobs_table(year, question, jobs, reply.workings),
                  trees_table(ages, reply.workings), blocks_table(answer)};
  if (auto rates = rates_table(year, reply.workings)) reply.tables.push_back(std::move(*rates));
  reply.charts = {balance_chart(question, answer)};
  return reply;
}

}  // namespace wildling::plan
