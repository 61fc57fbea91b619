#include "plan/field/pay.hpp"

#include <algorithm>
#include <set>

#include "plan/field/facts.hpp"
#include "plan/field/nodes.hpp"

namespace wildling::plan {
namespace {

using std::chrono::days;
using Sex = tending::DiaryLine::Sex;

/// Wages that hold on a day, by name; "" = everybody else.
std::map<std::string, double> wages_on(const FieldBook& book, Date day) {
  std::map<std::string, double> wages;
  const Parameter& shipped = book.programme.parameters.at("tending.wage_per_day");
  if (shipped.origin != Origin::assumed) wages[""] = shipped.value;
  for (const WageNote& note : book.wages) {
    if (note.from <= day) wages[note.worker] = note.per_day;
  }
  return wages;
}

double wage_of(const std::map<std::string, double>& wages, const std::string& who) {
  const auto own = wages.find(who);
  return own != wages.end() ? own->second : wages.at("");
}

/// First days of stretches with one set of wages, from `from` on.
std::vector<Date> stretches(const FieldBook& book, Date from, Date to) {
  std::set<Date> begins = {from};
  for (const WageNote& note : book.wages) {
    if (note.from > from && note.from <= to) begins.insert(note.from);
  }
  return {begins.begin(), begins.end()};
}

/// Hours by wage, under one name of a person, block or job.
using HoursByWage = std::map<double, double>;

std::map<std::string, HoursByWage> grouped(
    const PaidPeriod& period, const std::function<std::string(const tending::DiaryLine&)>& name) {
  std::map<std::string, HoursByWage> groups;
  for (const PaidLine& paid : period.lines) groups[name(paid.line)][paid.wage] += paid.line.hours;
  return groups;
}

double amount_of(const HoursByWage& hours, double day_hours) {
  double sum = 0;
  for (const auto& [wage, h] : hours) sum += h / day_hours * wage;
  return sum;
}

double hours_of(const HoursByWage& hours) {
  double sum = 0;
  for (const auto& [wage, h] : hours) sum += h;
  return sum;
}

/// Node of the pay of one group below `at`. @return its key
std::string pay_node(FieldNodes& nodes, const std::string& at, const Message& label,
                     const HoursByWage& hours, const Parameters& parameters) {
  const double day_hours = parameters.value("tending.diary.hours_per_day");
  std::vector<std::string> inputs = {nodes.parameter(parameters, "tending.diary.hours_per_day")};
  int n = 0;
  for (const auto& [wage, h] : hours) {
    const std::string part = at + "/" + std::to_string(++n);
    inputs.push_back(nodes.leaf(part + "/hours", say("fieldbook.label.hours"), h, "h",
                                Origin::measured, "work diary"));
    inputs.push_back(nodes.leaf(part + "/wage", say("fieldbook.label.wage"), wage, "money/day",
                                Origin::told, "wages entered in the field book"));
  }
  return nodes.node(at + "/amount", label, amount_of(hours, day_hours), "money", "field.pay",
                    std::move(inputs));
}

Message job_words(const std::string& job) {
  return say("tending.job." + job);
}

Table people_table(const PaidPeriod& period, FieldNodes& nodes, const Parameters& parameters) {
  const double day_hours = parameters.value("tending.diary.hours_per_day");
  Table table;
  table.name = "people";
  table.caption = say("fieldbook.pay.people", {{"from", period.from}, {"to", period.to}});
  table.columns = {{"who", say("fieldbook.column.who"), 0},
                   {"hours", say("fieldbook.column.hours"), 1},
                   {"days", say("fieldbook.column.person_days"), 2},
                   {"amount", say("fieldbook.column.amount"), 0}};
  const auto groups = grouped(period, [](const tending::DiaryLine& line) { return line.who; });
  int n = 0;
  for (const auto& [who, hours] : groups) {
    const std::string at = "field/pay/person/" + std::to_string(++n);
    const std::string amount =
        pay_node(nodes, at, say("fieldbook.label.pay_of", {{"name", who}}), hours, parameters);
    const double h = hours_of(hours);
    const std::string hours_key =
        nodes.leaf(at + "/hours", say("fieldbook.label.hours_of", {{"name", who}}), h, "h",
                   Origin::measured, "work diary");
    const std::string days_key = nodes.node(
        at + "/days", say("fieldbook.label.days_of", {{"name", who}}), h / day_hours, "person-days",
        "field.days", {hours_key, nodes.parameter(parameters, "tending.diary.hours_per_day")});
    table.rows.push_back({cell(who), cell(h, hours_key), cell(h / day_hours, days_key),
                          cell(amount_of(hours, day_hours), amount)});
  }
  return table;
}

Table sums_table(const PaidPeriod& period, const std::string& name, const Message& caption,
                 FieldNodes& nodes, const Parameters& parameters,
                 const std::function<std::string(const tending::DiaryLine&)>& key_of) {
  const double day_hours = parameters.value("tending.diary.hours_per_day");
  Table table;
  table.name = name;
  table.caption = caption;
  table.columns = {{name, say("fieldbook.column." + name), 0},
                   {"days", say("fieldbook.column.person_days"), 2},
                   {"amount", say("fieldbook.column.amount"), 0}};
  for (const auto& [key, hours] : grouped(period, key_of)) {
    const std::string at = "field/pay/" + name + "/" + key;
    const Message label = say("fieldbook.label.pay_of_" + name, {{"name", key}});
    const std::string amount = pay_node(nodes, at, label, hours, parameters);
    const double h = hours_of(hours);
    const std::string days_key =
        nodes.node(at + "/days", say("fieldbook.label.days_of_" + name, {{"name", key}}),
                   h / day_hours, "person-days", "field.days",
                   {nodes.leaf(at + "/hours", say("fieldbook.label.hours"), h, "h",
                               Origin::measured, "work diary"),
                    nodes.parameter(parameters, "tending.diary.hours_per_day")});
    table.rows.push_back({name == "job" ? cell(job_words(key)) : cell(key),
                          cell(h / day_hours, days_key),
                          cell(amount_of(hours, day_hours), amount)});
  }
  return table;
}

Table aside_table(const PaidPeriod& period) {
  Table table;
  table.name = "aside";
  table.caption = say("fieldbook.pay.aside");
  table.columns = {
      {"who", say("fieldbook.column.who"), 0},     {"day", say("fieldbook.column.day"), 0},
      {"block", say("fieldbook.column.block"), 0}, {"job", say("fieldbook.column.job"), 0},
      {"hours", say("fieldbook.column.hours"), 1}, {"why", say("fieldbook.column.why"), 0}};
  for (std::size_t i = 0; i < period.aside.size(); ++i) {
    const tending::DiaryLine& line = period.aside[i];
    table.rows.push_back({cell(line.who), cell(std::optional<Date>(line.day)), cell(line.block),
                          cell(job_words(std::string(tending::job_name(line.job)))),
                          cell(line.hours), cell(period.findings[i].message)});
  }
  return table;
}

double days_by(const PaidPeriod& period, Sex sex, double day_hours) {
  double hours = 0;
  for (const PaidLine& paid : period.lines) hours += paid.line.sex == sex ? paid.line.hours : 0;
  return hours / day_hours;
}

Message women_and_men(const PaidPeriod& period, FieldNodes& nodes, const Parameters& parameters) {
  const double day_hours = parameters.value("tending.diary.hours_per_day");
  std::map<std::string, Argument> arguments;
  std::map<std::string, std::string> opens;
  const std::pair<Sex, const char*> sexes[] = {
      {Sex::woman, "women"}, {Sex::man, "men"}, {Sex::not_said, "not_said"}};
  for (const auto& [sex, name] : sexes) {
    const double d = days_by(period, sex, day_hours);
    const std::string at = std::string("field/pay/sex/") + name;
    arguments[name] = d;
    opens[name] = nodes.node(at, say(std::string("fieldbook.label.days_of_") + name), d,
                             "person-days", "field.days",
                             {nodes.leaf(at + "/hours", say("fieldbook.label.hours"), d * day_hours,
                                         "h", Origin::measured, "work diary"),
                              nodes.parameter(parameters, "tending.diary.hours_per_day")});
  }
  return opening(say("fieldbook.pay.women_men", std::move(arguments)), std::move(opens));
}

Message pay_answer(const PaidPeriod& period, FieldNodes& nodes, const Parameters& parameters) {
  if (period.lines.empty() && period.aside.empty())
    return say("fieldbook.pay.none", {{"from", period.from}, {"to", period.to}});
  const auto all = grouped(period, [](const tending::DiaryLine&) { return std::string("all"); });
  const HoursByWage hours = all.empty() ? HoursByWage{} : all.begin()->second;
  std::set<std::string> people;
  for (const PaidLine& paid : period.lines) people.insert(paid.line.who);
  const std::string key =
      pay_node(nodes, "field/pay/all", say("fieldbook.label.pay_of_all"), hours, parameters);
  return opening(say("fieldbook.pay.answer",
                     {{"amount", amount_of(hours, parameters.value("tending.diary.hours_per_day"))},
                      {"people", static_cast<std::int64_t>(people.size())},
                      {"from", period.from},
                      {"to", period.to},
                      {"aside", static_cast<std::int64_t>(period.aside.size())}}),
                 {{"amount", key}});
}

}  // namespace

PaidPeriod paid_period(const FieldBook& book, Date from, Date to) {
  PaidPeriod period;
  period.from = from;
  period.to = to;
  const auto facts = block_facts(book);
  const std::vector<Date> begins = stretches(book, from, to);
  for (std::size_t s = 0; s < begins.size(); ++s) {
    const Date last = s + 1 < begins.size() ? begins[s + 1] - days(1) : to;
    const auto wages = wages_on(book, begins[s]);
    const tending::PayList list =
        tending::pay_list(book.diary, begins[s], last, wages, facts, book.programme.parameters);
    const std::set<std::size_t> aside(list.set_aside.begin(), list.set_aside.end());
    for (std::size_t i = 0; i < book.diary.size(); ++i) {
      const tending::DiaryLine& line = book.diary[i];
      if (line.day < begins[s] || line.day > last) continue;
      if (aside.contains(i)) {
        period.aside.push_back(line);
      } else {
        period.lines.push_back({line, wage_of(wages, line.who)});
      }
    }
    period.findings.insert(period.findings.end(), list.findings.begin(), list.findings.end());
  }
  return period;
}

PayList pay_sheet(const FieldBook& book, Date first, const std::vector<std::string>& blocks) {
  const PaidPeriod period = paid_period(book, first, first + days(6));
  const double day_hours = book.programme.parameters.value("tending.diary.hours_per_day");
  PayList list;
  list.first = first;
  list.currency = "Rp";
  list.blank_lines = 2;
  list.hours_total = list.pay_total = list.women_days = list.men_days = 0;
  std::map<std::string, PayLine> people;
  std::set<std::string> seen;
  for (const PaidLine& paid : period.lines) {
    const bool wished =
        blocks.empty() || std::find(blocks.begin(), blocks.end(), paid.line.block) != blocks.end();
    if (!wished) continue;
    seen.insert(paid.line.block);
    PayLine& line = people[paid.line.who];
    line.name = paid.line.who;
    line.hours.resize(static_cast<std::size_t>(list.days));
    std::optional<double>& hours =
        line.hours[static_cast<std::size_t>((paid.line.day - first).count())];
    hours = hours.value_or(0) + paid.line.hours;
    line.hours_total = line.hours_total.value_or(0) + paid.line.hours;
    line.pay_per_day = paid.wage;
    const double amount = paid.line.hours / day_hours * paid.wage;
    line.pay = line.pay.value_or(0) + amount;
    *list.hours_total += paid.line.hours;
    *list.pay_total += amount;
    if (paid.line.sex == Sex::woman) *list.women_days += paid.line.hours / day_hours;
    if (paid.line.sex == Sex::man) *list.men_days += paid.line.hours / day_hours;
  }
  for (auto& [who, line] : people) list.lines.push_back(std::move(line));
  list.blocks.assign(seen.begin(), seen.end());
  for (std::size_t i = 0; i < period.aside.size(); ++i) {
    list.notes.push_back(say("fieldbook.pay.not_paid", {{"where", period.findings[i].where}}));
    list.notes.push_back(period.findings[i].message);
  }
  return list;
}

Reply pay_reply(const FieldBook& book, Date from, Date to) {
  if (to < from)
    throw Error(ErrorKind::usage, "--to",
                say("fieldbook.pay.turned", {{"from", from}, {"to", to}}));
  const Parameters& parameters = book.programme.parameters;
  const PaidPeriod period = paid_period(book, from, to);
  Reply reply;
  reply.name = "pay";
  FieldNodes nodes(reply.workings);
  reply.answer = pay_answer(period, nodes, parameters);
  reply.findings = period.findings;
  if (period.lines.empty() && period.aside.empty()) return reply;
  LetterPart part{say("fieldbook.pay.heading"), {}};
  part.sentences.push_back(women_and_men(period, nodes, parameters));
  part.sentences.push_back(opening(
      say("fieldbook.pay.day", {{"hours", parameters.value("tending.diary.hours_per_day")}}),
      {{"hours", nodes.parameter(parameters, "tending.diary.hours_per_day")}}));
  if (wages_on(book, to).empty()) part.sentences.push_back(say("fieldbook.pay.no_wage"));
  reply.parts.push_back(std::move(part));
  reply.tables.push_back(people_table(period, nodes, parameters));
  reply.tables.push_back(sums_table(period, "block", say("fieldbook.pay.by_block"), nodes,
                                    parameters, [](const auto& line) { return line.block; }));
  reply.tables.push_back(
      sums_table(period, "job", say("fieldbook.pay.by_job"), nodes, parameters,
                 [](const auto& line) { return std::string(tending::job_name(line.job)); }));
  if (!period.aside.empty()) reply.tables.push_back(aside_table(period));
  return reply;
}

}  // namespace wildling::plan
