#include "plan/field/year_context.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/workings_build.hpp"
#include "plan/field_work.hpp"
#include "plan/keep.hpp"
#include "plan/season.hpp"

namespace wildling::plan {
namespace {

struct Days {
  Date first = {}, last = {};
};

std::map<std::string, Days> planted_in_diary(const YearBook& book) {
  std::map<std::string, Days> days;
  for (const tending::DiaryLine& line : book.diary) {
    if (line.job != tending::Job::plant) continue;
    const auto [at, fresh] = days.try_emplace(line.block, Days{line.day, line.day});
    at->second.first = std::min(at->second.first, line.day);
    at->second.last = std::max(at->second.last, line.day);
  }
  return days;
}

}  // namespace

Year load_year(const store::Store& store, Date today) {
  Year year;
  year.plan = load_plan(store);
  year.programme = load_programme(store);
  year.stale = fingerprint(store, year.programme.parameters) != year.plan.head.fingerprint;
  year.normals = normals_of(year.programme);
  year.book = read_year_book(store);
  year.own = tending::own_rates(year.book.diary, year.programme.parameters);
  year.rates = tending::with_own_rates(year.programme.parameters, year.own);
  year.today = today;
  return year;
}

std::array<double, 3> planted_by_group(const BlockPart& part,
                                       const std::vector<SpeciesPart>& species) {
  std::array<double, 3> sums{};
  for (std::size_t i = 0; i < part.counts.size() && i < species.size(); ++i) {
    const auto group = species::parse_group(species[i].group).value_or(species::Group::late);
    sums[static_cast<std::size_t>(group)] += part.counts[i];
  }
  return sums;
}

std::vector<tending::BlockCare> planted_blocks(const Year& year) {
  const PlantingDays days = planting_days(year.plan.window, year.programme, year.plan.head.today);
  const auto diary = planted_in_diary(year.book);
  std::vector<tending::BlockCare> blocks;
  for (const BlockPart& part : year.plan.blocks) {
    if (!part.open || part.planted == 0) continue;
    tending::BlockCare care;
    care.block = part.block.code;
    care.area_ha = part.area_ha;
    care.cover = part.block.cover;
    if (part.block.slope_known) care.slope_deg = part.block.slope_deg;
    care.planted_by_group = planted_by_group(part, year.plan.species);
    care.row_spacing_m = year.programme.parameters.value("layout.spacing");
    care.planting_first = days.first;
    care.planting_last = days.last;
    if (const auto found = diary.find(part.block.code); found != diary.end()) {
      care.planting_first = found->second.first;
      care.planting_last = found->second.last;
    }
    care.firebreak_m = firebreak_m(part, year.programme, year.plan.blocks);
    blocks.push_back(std::move(care));
  }
  return blocks;
}

Reply new_reply(const std::string& name, const Year& year) {
  Reply reply;
  reply.name = name;
  if (year.stale) {
    reply.findings.push_back(
        {Severity::note, "",
         say("year.plan_old", {{"number", static_cast<std::int64_t>(year.plan.head.number)}})});
  }
  return reply;
}

std::optional<Table> rates_table(const Year& year, Workings& workings) {
  if (year.own.empty()) return {};
  Table table;
  table.name = "rates";
  table.caption = say("year.rates.caption");
  table.columns = {column("work"),           column("book_per_day", 1),
                   column("own_per_day", 1), column("used_per_day", 1),
                   column("own_days", 1),    column("lines")};
  WorkingsBuilder build(workings);
  for (const tending::OwnRate& own : year.own) {
    const std::string at = "year/rate/" + own.rate + "/";
    const auto label = [&](const char* what) {
      return say(std::string("year.label.rate_") + what, {{"rate", own.rate}});
    };
    const Parameter& book = year.programme.parameters.at("tending.rate." + own.rate);
    const std::string book_key = build.leaf(at + "book", label("book"), own.book, "per day",
                                            book.origin, book.source, book.note);
    const std::string quantity =
        build.leaf(at + "quantity", label("quantity"), own.own_quantity, "", Origin::measured);
    const std::string days =
        build.leaf(at + "days", label("days"), own.own_days, "person-days", Origin::measured);
    const std::string alone = build.computed(at + "own", label("own"), own.own, "per day",
                                             "tending.own_rate", {quantity, days});
    const std::string used =
        own.replaces_book
            ? build.computed(at + "used", label("used"), own.used, "per day", "tending.own_rate",
                             {quantity, days})
            : build.computed(at + "used", label("used"), own.used, "per day", "tending.shrunk_rate",
                             {quantity, days, book_key,
                              add_parameter(workings, year.programme.parameters.at(
                                                          "tending.diary.book_days"))});
    table.rows.push_back({cell(say("year.rate_name", {{"rate", own.rate}})),
                          cell(own.book, book_key), cell(own.own, alone), cell(own.used, used),
                          cell(own.own_days, days), cell(std::int64_t{own.lines})});
  }
  return table;
}

Message rates_sentence(const Year& year) {
  std::int64_t alone = 0;
  for (const tending::OwnRate& own : year.own) alone += own.replaces_book ? 1 : 0;
  if (year.own.empty()) return say("year.rates.book");
  return say("year.rates.own",
             {{"rates", static_cast<std::int64_t>(year.own.size())}, {"alone", alone}});
}

Date month_start(Date day) {
  return make_date(year_of(day), month_of(day), 1);
}

double rounded(double value) {
  return std::round(value);
}

Column column(const std::string& name, int decimals) {
  return {name, say("year.column." + name), decimals};
}

Cell job_cell(std::string_view job) {
  return cell(say("tending.job." + std::string(job)));
}

}  // namespace wildling::plan
