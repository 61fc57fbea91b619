#include "tending/slips.hpp"

#include <algorithm>
#include <set>

namespace wildling::tending {
namespace {

std::int64_t integer(long long n) {
  return static_cast<std::int64_t>(n);
}

/// What a slip takes of each species.
std::map<std::string, Account> taken_by(const Slip& slip) {
  std::map<std::string, Account> taken;
  for (const SlipLine& line : slip.lines) taken[line.species].planted += line.planted;
  for (const auto& [species, count] : slip.dead) taken[species].dead += count;
  for (const auto& [species, count] : slip.returned) taken[species].returned += count;
  return taken;
}

bool has_negative(const Slip& slip) {
  const auto negative = [](const auto& pair) { return pair.second < 0; };
  return std::any_of(slip.lines.begin(), slip.lines.end(),
                     [](const SlipLine& l) { return l.planted < 0; }) ||
         std::any_of(slip.dead.begin(), slip.dead.end(), negative) ||
         std::any_of(slip.returned.begin(), slip.returned.end(), negative);
}

std::optional<Message> fault_of_numbers(const Slip& slip) {
  if (has_negative(slip)) return say("tending.slip.negative");
  if (!(slip.hours > 0) || slip.hours > 24)
    return say("tending.slip.hours", {{"hours", slip.hours}});
  if (slip.people < 1) return say("tending.slip.no_people");
  return {};
}

std::optional<Message> fault_of_block(const Slip& slip,
                                      const std::map<std::string, SlipBlock>& blocks) {
  const auto block = blocks.find(slip.block);
  if (block == blocks.end()) return say("tending.slip.block_unknown", {{"block", slip.block}});
  if (!block->second.facts.consent) return say("tending.slip.no_consent", {{"block", slip.block}});
  const auto& planted_on = block->second.facts.planted_on;
  if (slip.tending_round && (!planted_on || slip.day < *planted_on)) {
    return say("tending.slip.before_planting", {{"block", slip.block}, {"day", slip.day}});
  }
  return {};
}

std::optional<Message> fault_of_rows(const Slip& slip, const SlipBlock& block,
                                     const Ledger& ledger) {
  if (block.places_in_row.empty()) return {};
  std::map<int, long long> in_row;
  for (const SlipLine& line : slip.lines) in_row[line.row] += line.planted;
  const auto before = ledger.planted_in_row.find(slip.block);
  for (const auto& [row, count] : in_row) {
    if (row == 0) continue;  // the slip does not say which rows
    const auto places = block.places_in_row.find(row);
    if (places == block.places_in_row.end())
      return say("tending.slip.row_unknown", {{"row", integer(row)}});
    long long sum = count;
    const bool refill = slip.tending_round == Job::refill;
    if (!refill && before != ledger.planted_in_row.end() && before->second.contains(row))
      sum += before->second.at(row);
    if (sum > places->second) {
      return say(
          "tending.slip.row_full",
          {{"row", integer(row)}, {"planted", integer(sum)}, {"places", integer(places->second)}});
    }
  }
  return {};
}

std::optional<Message> fault_of_balance(const Slip& slip, std::span<const Dispatch> dispatches,
                                        const Ledger& ledger) {
  for (const auto& [species, taken] : taken_by(slip)) {
    long long dispatched = 0;
    for (const Dispatch& d : dispatches) {
      if (d.block == slip.block && d.species == species && d.day <= slip.day) dispatched += d.count;
    }
    long long before = 0;
    const auto block = ledger.accounts.find(slip.block);
    if (block != ledger.accounts.end() && block->second.contains(species)) {
      const Account& account = block->second.at(species);
      before = account.planted + account.dead + account.returned;
    }
    const long long sum = before + taken.planted + taken.dead + taken.returned;
    if (sum > dispatched) {
      return say("tending.slip.more_than_dispatched", {{"species", species},
                                                       {"block", slip.block},
                                                       {"count", integer(sum)},
                                                       {"dispatched", integer(dispatched)}});
    }
  }
  return {};
}

void book(const Slip& slip, Ledger& ledger) {
  for (const auto& [species, taken] : taken_by(slip)) {
    Account& account = ledger.accounts[slip.block][species];
    account.planted += taken.planted;
    account.dead += taken.dead;
    account.returned += taken.returned;
  }
  if (slip.tending_round == Job::refill) return;
  for (const SlipLine& line : slip.lines)
    ledger.planted_in_row[slip.block][line.row] += line.planted;
}

void find_open_accounts(Ledger& ledger) {
  ledger.closed = ledger.set_aside.empty();
  for (const auto& [block, by_species] : ledger.accounts) {
    for (const auto& [species, account] : by_species) {
      if (account.open() == 0) continue;
      ledger.closed = false;
      ledger.findings.push_back(
          {Severity::note, block,
           say("tending.slip.open", {{"species", species},
                                     {"block", block},
                                     {"dispatched", integer(account.dispatched)},
                                     {"planted", integer(account.planted)},
                                     {"dead", integer(account.dead)},
                                     {"returned", integer(account.returned)},
                                     {"open", integer(account.open())}})});
    }
  }
}

}  // namespace

Ledger settle(std::span<const Dispatch> dispatches, std::span<const Slip> slips,
              const std::map<std::string, SlipBlock>& blocks) {
  Ledger ledger;
  std::set<std::string> numbers;
  for (const Dispatch& d : dispatches) {
    if (d.count < 0) {
      ledger.findings.push_back({Severity::set_aside, d.where, say("tending.slip.negative")});
      continue;
    }
    ledger.accounts[d.block][d.species].dispatched += d.count;
  }
  for (std::size_t i = 0; i < slips.size(); ++i) {
    const Slip& slip = slips[i];
    auto fault = slip.fault;
    if (!fault) fault = fault_of_numbers(slip);
    if (!fault) fault = fault_of_block(slip, blocks);
    if (!fault && numbers.contains(slip.number))
      fault = say("tending.slip.number_twice", {{"number", slip.number}});
    if (!fault) fault = fault_of_rows(slip, blocks.at(slip.block), ledger);
    if (!fault) fault = fault_of_balance(slip, dispatches, ledger);
    if (fault) {
      ledger.set_aside.push_back(i);
      ledger.findings.push_back({Severity::set_aside, slip.number, *fault});
      continue;
    }
    numbers.insert(slip.number);
    ledger.accepted.push_back(i);
    book(slip, ledger);
  }
  find_open_accounts(ledger);
  return ledger;
}

}  // namespace wildling::tending
