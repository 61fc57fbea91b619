#include "tending/diary.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <tuple>

namespace wildling::tending {
namespace {

/// 97.5 % point of Student's t with n degrees of freedom (Fisher & Yates tables; beyond 30 the
/// normal's 1.96 and 2.4/n, within 0.002).
double t_975(int n) {
  constexpr std::array<double, 30> kT = {12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306,
                                         2.262,  2.228, 2.201, 2.179, 2.160, 2.145, 2.131, 2.120,
                                         2.110,  2.101, 2.093, 2.086, 2.080, 2.074, 2.069, 2.064,
                                         2.060,  2.056, 2.052, 2.048, 2.045, 2.042};
  return n <= 30 ? kT[static_cast<std::size_t>(n - 1)] : 1.96 + 2.4 / n;
}

struct Measured {
  double quantity = 0;
  double days = 0;
};

/// Standard error of sum(quantity) / sum(days) by leaving out one line at a time.
double jackknife_se(const std::vector<Measured>& lines, double quantity, double days) {
  const auto n = static_cast<double>(lines.size());
  double mean = 0;
  for (const Measured& line : lines) mean += (quantity - line.quantity) / (days - line.days) / n;
  double squares = 0;
  for (const Measured& line : lines) {
    const double d = (quantity - line.quantity) / (days - line.days) - mean;
    squares += d * d;
  }
  return std::sqrt((n - 1) / n * squares);
}

bool tends(Job job) {
  return job >= Job::ring && job != Job::firebreak;
}

}  // namespace

std::string_view rate_of(Job job) {
  switch (job) {
    case Job::mark_places:
      return "mark_places";
    case Job::dig_pits:
      return "pits";
    case Job::carry:
      return "carries";
    case Job::plant:
    case Job::refill:
      return "plant";
    case Job::pressing:
      return "pressing";
    case Job::climber_cutting:
      return "climber_cutting";
    default:
      return "slash";
  }
}

namespace {

/// The lines of one rate.
struct RateLines {
  std::vector<Measured> lines;
  Date first = {}, last = {};
};

std::map<std::string, RateLines> by_rate(std::span<const DiaryLine> lines,
                                         const Parameters& parameters) {
  const double day_hours = parameters.value("tending.diary.hours_per_day");
  const double width_m = parameters.value("tending.firebreak.width_m");
  std::map<std::string, RateLines> rates;
  for (const DiaryLine& line : lines) {
    const bool counts = line.quantity && *line.quantity >= 0 && line.hours > 0 && line.hours <= 24;
    if (!counts || line.job == Job::refill) continue;
    RateLines& all = rates[std::string(rate_of(line.job))];
    all.first = all.lines.empty() ? line.day : std::min(all.first, line.day);
    all.last = all.lines.empty() ? line.day : std::max(all.last, line.day);
    all.lines.push_back(
        {*line.quantity * (line.job == Job::firebreak ? width_m : 1), line.hours / day_hours});
  }
  return rates;
}

OwnRate own_rate(const std::string& name, const RateLines& all, const Parameters& parameters) {
  OwnRate own;
  own.rate = name;
  own.book = rate(name, parameters).per_day;
  own.lines = static_cast<int>(all.lines.size());
  double quantity = 0;
  for (const Measured& m : all.lines) {
    quantity += m.quantity;
    own.own_days += m.days;
  }
  const double book_days = parameters.value("tending.diary.book_days");
  own.own_quantity = quantity;
  own.own = quantity / own.own_days;
  own.used = (quantity + own.book * book_days) / (own.own_days + book_days);
  const auto length = static_cast<double>((all.last - all.first).count());
  own.replaces_book = own.own > 0 && length >= parameters.value("tending.diary.season_days") &&
                      own.own_days >= parameters.value("tending.diary.enough_days");
  if (own.replaces_book) own.used = own.own;
  if (own.lines >= 5) {
    const double half = t_975(own.lines - 1) * jackknife_se(all.lines, quantity, own.own_days);
    own.own_low = std::max(0.0, own.own - half);
    own.own_high = own.own + half;
  }
  return own;
}

}  // namespace

std::vector<OwnRate> own_rates(std::span<const DiaryLine> lines, const Parameters& parameters) {
  std::vector<OwnRate> rates;
  for (const auto& [name, all] : by_rate(lines, parameters))
    rates.push_back(own_rate(name, all, parameters));
  return rates;
}

Parameters with_own_rates(Parameters parameters, std::span<const OwnRate> rates) {
  for (const OwnRate& own : rates) {
    const std::string key = "tending.rate." + own.rate;
    const double ratio = own.used / own.book;
    const Origin origin = own.replaces_book ? Origin::measured : Origin::computed;
    for (const char* end : {"", ".slow", ".fast"}) {
      const Parameter& old = parameters.at(key + end);
      const double value =
          std::clamp(old.value * ratio, old.low.value_or(0), old.high.value_or(1e12));
      parameters.set(key + end, value, origin, "work diary", old.note);
    }
  }
  return parameters;
}

namespace {

/// Why a line cannot be paid yet; empty when it can.
std::optional<Message> fault_of(const DiaryLine& line, double hours_of_day,
                                const std::map<std::string, double>& wages,
                                const std::map<std::string, BlockFacts>& blocks) {
  if (!(line.hours > 0) || line.hours > 24)
    return say("tending.slip.hours", {{"hours", line.hours}});
  if (hours_of_day > 24) {
    return say("tending.slip.hours_of_day",
               {{"who", line.who}, {"day", line.day}, {"hours", hours_of_day}});
  }
  if (!wages.contains(line.who) && !wages.contains(""))
    return say("tending.slip.no_wage", {{"who", line.who}});
  const auto block = blocks.find(line.block);
  if (block == blocks.end()) return say("tending.slip.block_unknown", {{"block", line.block}});
  if (!block->second.consent) return say("tending.slip.no_consent", {{"block", line.block}});
  if (tends(line.job) && (!block->second.planted_on || line.day < *block->second.planted_on)) {
    return say("tending.slip.before_planting", {{"block", line.block}, {"day", line.day}});
  }
  return {};
}

}  // namespace

PayList pay_list(std::span<const DiaryLine> lines, Date from, Date to,
                 const std::map<std::string, double>& wages,
                 const std::map<std::string, BlockFacts>& blocks, const Parameters& parameters) {
  const double day_hours = parameters.value("tending.diary.hours_per_day");
  std::map<std::pair<std::string, Date>, double> hours_of_day;
  for (const DiaryLine& line : lines) hours_of_day[{line.who, line.day}] += line.hours;
  std::set<std::tuple<std::string, Date, std::string, Job>> seen;
  std::map<std::string, PayLine> people;
  PayList list;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const DiaryLine& line = lines[i];
    if (line.day < from || line.day > to) continue;
    auto fault = fault_of(line, hours_of_day.at({line.who, line.day}), wages, blocks);
    if (!fault && !seen.emplace(line.who, line.day, line.block, line.job).second) {
      fault = say("tending.slip.twice", {{"who", line.who}, {"day", line.day}});
    }
    if (fault) {
      list.set_aside.push_back(i);
      list.findings.push_back({Severity::set_aside, line.where, *fault});
      continue;
    }
    const auto own = wages.find(line.who);
    const double wage = own != wages.end() ? own->second : wages.at("");
    const double days = line.hours / day_hours;
    PayLine& person = people[line.who];
    person.who = line.who;
    person.hours += line.hours;
    person.days += days;
    person.amount += days * wage;
    ++person.lines;
    list.by_block[line.block] += days * wage;
    list.by_job[std::string(job_name(line.job))] += days * wage;
    list.days += days;
    list.amount += days * wage;
    (line.sex == DiaryLine::Sex::woman ? list.women_days
     : line.sex == DiaryLine::Sex::man ? list.men_days
                                       : list.not_said_days) += days;
  }
  for (auto& [who, person] : people) list.people.push_back(std::move(person));
  return list;
}

}  // namespace wildling::tending
