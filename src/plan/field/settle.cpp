#include <algorithm>

#include "plan/field/facts.hpp"
#include "plan/field/nodes.hpp"
#include "plan/field/replies.hpp"

namespace wildling::plan {
namespace {

using tending::Account;

struct Sums {
  Account all = {};
  std::int64_t open_accounts = 0;
};

Sums sums_of(const tending::Ledger& ledger) {
  Sums sums;
  for (const auto& [block, by_species] : ledger.accounts) {
    for (const auto& [species, account] : by_species) {
      sums.all.dispatched += account.dispatched;
      sums.all.planted += account.planted;
      sums.all.dead += account.dead;
      sums.all.returned += account.returned;
      if (account.open() != 0) ++sums.open_accounts;
    }
  }
  return sums;
}

/// Nodes of one account. @return key of what is open; the others end in /sent, /planted ...
std::string account_nodes(FieldNodes& nodes, const std::string& at, const std::string& name,
                          const std::map<std::string, Argument>& what, const Account& account) {
  const std::string label = "fieldbook.label." + name;
  const auto leaf = [&](const char* part, long long value, const char* source) {
    return nodes.leaf(at + part, say(label + part, what), static_cast<double>(value), "seedlings",
                      Origin::measured, source);
  };
  const std::string sent = leaf("sent", account.dispatched, "dispatch notes");
  const std::string planted = leaf("planted", account.planted, "return slips");
  const std::string dead = leaf("dead", account.dead, "return slips");
  const std::string returned = leaf("returned", account.returned, "return slips");
  return nodes.node(at + "open", say(label + "open", what), static_cast<double>(account.open()),
                    "seedlings", "field.open", {sent, planted, dead, returned});
}

std::vector<Cell> account_cells(const std::string& at, const Account& account) {
  return {cell(account.dispatched, at + "sent"), cell(account.planted, at + "planted"),
          cell(account.dead, at + "dead"), cell(account.returned, at + "returned"),
          cell(account.open(), at + "open")};
}

Table ledger_table(const tending::Ledger& ledger, FieldNodes& nodes) {
  Table table;
  table.name = "ledger";
  table.caption = say("fieldbook.settle.ledger");
  table.columns = {{"block", say("fieldbook.column.block"), 0},
                   {"species", say("fieldbook.column.species"), 0},
                   {"sent", say("fieldbook.column.sent"), 0},
                   {"planted", say("fieldbook.column.planted"), 0},
                   {"dead", say("fieldbook.column.dead"), 0},
                   {"returned", say("fieldbook.column.returned"), 0},
                   {"open", say("fieldbook.column.open"), 0}};
  for (const auto& [block, by_species] : ledger.accounts) {
    for (const auto& [species, account] : by_species) {
      std::string at = "field/ledger/";
      at.append(block).append("/").append(species).append("/");
      account_nodes(nodes, at, "seedlings_", {{"block", block}, {"species", species}}, account);
      std::vector<Cell> row = {cell(block), cell(species)};
      for (Cell& one : account_cells(at, account)) row.push_back(std::move(one));
      table.rows.push_back(std::move(row));
    }
  }
  return table;
}

Table aside_table(const FieldBook& book, const SettledBook& settled) {
  Table table;
  table.name = "aside";
  table.caption = say("fieldbook.settle.aside");
  table.columns = {{"slip", say("fieldbook.column.slip"), 0},
                   {"block", say("fieldbook.column.block"), 0},
                   {"day", say("fieldbook.column.day"), 0},
                   {"why", say("fieldbook.column.why"), 0},
                   {"settles", say("fieldbook.column.settles"), 0}};
  const tending::Ledger& ledger = settled.ledger;
  for (const std::size_t i : ledger.set_aside) {
    const tending::Slip& slip = book.slips[i].slip;
    const auto finding =
        std::find_if(ledger.findings.begin(), ledger.findings.end(), [&](const Finding& f) {
          return f.severity == Severity::set_aside && f.where == slip.number;
        });
    const bool sent = finding != ledger.findings.end() &&
                      finding->message.key == "tending.slip.more_than_dispatched";
    const bool consent =
        finding != ledger.findings.end() && finding->message.key == "tending.slip.no_consent";
    const char* how = sent      ? "fieldbook.settle.by_dispatch"
                      : consent ? "fieldbook.settle.by_consent"
                                : "fieldbook.settle.by_writing";
    table.rows.push_back({cell(slip.number), cell(slip.block), cell(std::optional<Date>(slip.day)),
                          finding == ledger.findings.end() ? Cell{} : cell(finding->message),
                          cell(say(how, {{"number", slip.number}}))});
  }
  return table;
}

Table rows_table(const SettledBook& settled, FieldNodes& nodes) {
  Table table;
  table.name = "rows";
  table.caption = say("fieldbook.settle.rows");
  table.columns = {{"block", say("fieldbook.column.block"), 0},
                   {"row", say("fieldbook.column.row"), 0},
                   {"places", say("fieldbook.column.places"), 0},
                   {"planted", say("fieldbook.column.planted"), 0},
                   {"left", say("fieldbook.column.left"), 0}};
  for (const auto& [block, rows] : settled.ledger.planted_in_row) {
    const auto facts = settled.blocks.find(block);
    for (const auto& [row, planted] : rows) {
      if (row == 0 || facts == settled.blocks.end()) continue;
      const auto places = facts->second.places_in_row.find(row);
      if (places == facts->second.places_in_row.end()) continue;
      const std::string at = "field/rows/" + block + "/" + std::to_string(row) + "/";
      const std::map<std::string, Argument> what = {{"block", block}, {"row", std::int64_t{row}}};
      const std::string of = nodes.leaf(at + "places", say("fieldbook.label.row_places", what),
                                        places->second, "places", Origin::chosen, "plan");
      const std::string done =
          nodes.leaf(at + "planted", say("fieldbook.label.row_planted", what),
                     static_cast<double>(planted), "trees", Origin::measured, "return slips");
      const double left = places->second - static_cast<double>(planted);
      const std::string key = nodes.node(at + "left", say("fieldbook.label.row_left", what), left,
                                         "places", "field.left", {of, done});
      table.rows.push_back({cell(block), cell(row), cell(places->second, of), cell(planted, done),
                            cell(static_cast<std::int64_t>(left), key)});
    }
  }
  return table;
}

Message settle_answer(const FieldBook& book, const SettledBook& settled, const Sums& sums,
                      FieldNodes& nodes) {
  if (book.slips.empty() && book.dispatches.empty()) return say("fieldbook.settle.nothing");
  const std::string at = "field/ledger/";
  account_nodes(nodes, at, "all_seedlings_", {}, sums.all);
  const std::map<std::string, Argument> arguments = {
      {"sent", static_cast<std::int64_t>(sums.all.dispatched)},
      {"planted", static_cast<std::int64_t>(sums.all.planted)},
      {"dead", static_cast<std::int64_t>(sums.all.dead)},
      {"returned", static_cast<std::int64_t>(sums.all.returned)},
      {"open", static_cast<std::int64_t>(sums.all.open())},
      {"accounts", sums.open_accounts},
      {"aside", static_cast<std::int64_t>(settled.ledger.set_aside.size())}};
  return opening(
      say(settled.ledger.closed ? "fieldbook.settle.closed" : "fieldbook.settle.open", arguments),
      {{"sent", at + "sent"},
       {"planted", at + "planted"},
       {"dead", at + "dead"},
       {"returned", at + "returned"},
       {"open", at + "open"}});
}

}  // namespace

Reply settle_reply(const FieldBook& book) {
  Reply reply;
  reply.name = "settle";
  FieldNodes nodes(reply.workings);
  const SettledBook settled = settle_book(book);
  const Sums sums = sums_of(settled.ledger);
  reply.answer = settle_answer(book, settled, sums, nodes);
  reply.findings = settled.ledger.findings;
  std::int64_t faults = 0, checked = 0;
  for (const std::size_t i : settled.ledger.accepted) {
    faults += book.slips[i].slip.faults;
    checked += book.slips[i].checked.value_or(0);
  }
  if (checked > 0) {
    LetterPart part{say("fieldbook.settle.quality"), {}};
    const std::string f = nodes.leaf("field/faults", say("fieldbook.label.faults"),
                                     static_cast<double>(faults), "faults", Origin::measured);
    const std::string c = nodes.leaf("field/checked", say("fieldbook.label.checked"),
                                     static_cast<double>(checked), "plants", Origin::measured);
    part.sentences.push_back(
        opening(say("fieldbook.settle.faults", {{"faults", faults}, {"checked", checked}}),
                {{"faults", f}, {"checked", c}}));
    reply.parts.push_back(std::move(part));
  }
  if (!settled.ledger.set_aside.empty()) reply.tables.push_back(aside_table(book, settled));
  Table ledger = ledger_table(settled.ledger, nodes);
  if (!ledger.rows.empty()) reply.tables.push_back(std::move(ledger));
  Table rows = rows_table(settled, nodes);
  if (!rows.rows.empty()) reply.tables.push_back(std::move(rows));
  return reply;
}

}  // namespace wildling::plan
