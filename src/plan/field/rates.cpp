#include "plan/field/facts.hpp"
#include "plan/field/nodes.hpp"
#include "plan/field/replies.hpp"
#include "tending/field_workings.hpp"

namespace wildling::plan {
namespace {

Table rates_table(const std::vector<tending::OwnRate>& rates, FieldNodes& nodes,
                  const Parameters& parameters) {
  Table table;
  table.name = "rates";
  table.caption = say("fieldbook.rates.caption");
  table.columns = {{"work", say("fieldbook.column.work"), 0},
                   {"unit", say("fieldbook.column.unit"), 0},
                   {"book", say("fieldbook.column.book"), 0},
                   {"own", say("fieldbook.column.own"), 1},
                   {"own_low", say("fieldbook.column.own_low"), 1},
                   {"own_high", say("fieldbook.column.own_high"), 1},
                   {"own_days", say("fieldbook.column.person_days"), 1},
                   {"lines", say("fieldbook.column.lines"), 0},
                   {"used", say("fieldbook.column.used"), 1},
                   {"which", say("fieldbook.column.which"), 0}};
  for (const tending::OwnRate& own : rates) {
    const std::string at = "tending/diary/" + own.rate + "/";
    const std::string source = "work diary, lines left out one at a time";
    const auto limit = [&](const char* name, const std::optional<double>& value) {
      if (!value) return Cell{};
      return cell(*value, nodes.leaf(at + name, say(std::string("fieldbook.label.") + name), *value,
                                     "per day", Origin::measured, source));
    };
    table.rows.push_back(
        {cell(say("fieldbook.rate." + own.rate)),
         cell(parameters.at("tending.rate." + own.rate).unit),
         cell(own.book, nodes.parameter(parameters, "tending.rate." + own.rate)),
         cell(own.own, at + "diary_own"), limit("own_low", own.own_low),
         limit("own_high", own.own_high), cell(own.own_days, at + "diary_days"), cell(own.lines),
         cell(own.used, at + "diary_used"),
         cell(say(own.replaces_book ? "fieldbook.rates.own" : "fieldbook.rates.shrunk"))});
  }
  return table;
}

}  // namespace

Reply rates_reply(const FieldBook& book) {
  Reply reply;
  reply.name = "rates";
  FieldNodes nodes(reply.workings);
  const Parameters& parameters = book.programme.parameters;
  const std::vector<tending::OwnRate> rates = rates_of(book);
  if (rates.empty()) {
    reply.answer = say("fieldbook.rates.none");
    return reply;
  }
  tending::add_workings(reply.workings, rates, parameters);
  std::int64_t replaced = 0;
  for (const tending::OwnRate& own : rates) replaced += own.replaces_book ? 1 : 0;
  reply.answer = say("fieldbook.rates.answer",
                     {{"rates", static_cast<std::int64_t>(rates.size())}, {"replaced", replaced}});
  LetterPart part{say("fieldbook.rates.heading"), {}};
  const auto parameter = [&](const char* key) { return nodes.parameter(parameters, key); };
  part.sentences.push_back(opening(
      say("fieldbook.rates.shrinkage", {{"weight", parameters.value("tending.diary.book_days")}}),
      {{"weight", parameter("tending.diary.book_days")}}));
  part.sentences.push_back(opening(
      say("fieldbook.rates.season", {{"days", parameters.value("tending.diary.season_days")},
                                     {"enough", parameters.value("tending.diary.enough_days")}}),
      {{"days", parameter("tending.diary.season_days")},
       {"enough", parameter("tending.diary.enough_days")}}));
  reply.parts.push_back(std::move(part));
  reply.tables.push_back(rates_table(rates, nodes, parameters));
  return reply;
}

}  // namespace wildling::plan
