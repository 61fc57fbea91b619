#pragma once
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "tending/diary.hpp"

namespace wildling::tending {

/// What left the nursery for a block.
struct Dispatch {
  std::string block, species;
  Date day = {};
  long long count = 0;
  std::string where;  ///< dispatch note, for findings
};

/// One line of a return slip: a row and a species.
struct SlipLine {
  int row = 0;  ///< 0: the slip does not say which
  std::string species;
  long long planted = 0;
};

/// A return slip as typed back.
struct Slip {
  std::string number;  ///< printed on the sheet
  std::string block;
  Date day = {};
  double hours = 0;
  int people = 0;
  std::vector<SlipLine> lines;
  std::map<std::string, long long> dead, returned;  ///< leftovers by species
  int faults = 0;                                   ///< of the quality check, 1 in 50
  std::optional<Job> tending_round;                 ///< a tending round is logged on it
  std::optional<Message> fault = {};                ///< found when it was read: set aside for this
};

/// What the office knows about a block.
struct SlipBlock {
  BlockFacts facts;
  std::map<int, int> places_in_row;  ///< empty: rows are not known
};

/// The account of one species in one block. It closes when open() is 0.
struct Account {
  long long dispatched = 0, planted = 0, dead = 0, returned = 0;

  [[nodiscard]] long long open() const { return dispatched - planted - dead - returned; }
};

struct Ledger {
  std::map<std::string, std::map<std::string, Account>>
      accounts;  ///< block, species; accepted slips only
  std::map<std::string, std::map<int, long long>> planted_in_row;  ///< block, row
  std::vector<std::size_t> accepted, set_aside;                    ///< indices of slips
  Findings findings;
  bool closed = false;  ///< every account is closed and no slip is set aside
};

/// Takes slips in order of the list. A slip that breaks a rule is set aside whole with a finding,
/// nothing is lost and nothing of it is counted: the block is unknown or has no consent; a negative
/// number; hours not in (0, 24]; people below 1; more planted, dead and returned of a species than
/// was dispatched to the block up to that day; more planted in a row than it has places (a refill
/// is a cohort of its own); a tending round logged before planting; the slip's number was typed
/// already. An open account at the end is a finding that names block, species and number.
Ledger settle(std::span<const Dispatch> dispatches, std::span<const Slip> slips,
              const std::map<std::string, SlipBlock>& blocks);

}  // namespace wildling::tending
