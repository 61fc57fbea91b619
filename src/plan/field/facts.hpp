#pragma once
/// What the field book says about each block: planted when and with what, cut when, how high the
/// cover stood, and the account of every seedling.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "plan/field/book.hpp"
#include "tending/smother.hpp"

namespace wildling::plan {

/// The book as it was on a day: nothing that is dated later.
FieldBook book_until(FieldBook book, Date day);

/// All slips settled in order of their days. A slip with a species that the programme does not have
/// is set aside before anything else of it is looked at.
/// @param slips  of the book, in the order of FieldBook::slips
struct SettledBook {
  std::vector<tending::Slip> slips = {};
  std::map<std::string, tending::SlipBlock> blocks = {};
  tending::Ledger ledger = {};
};

SettledBook settle_book(const FieldBook& book);

/// Per block: consent by today's answer, and the first planting day by accepted slips or the diary.
std::map<std::string, tending::BlockFacts> block_facts(const FieldBook& book);

/// A block with planting on record.
struct PlantedBlock {
  tending::BlockCare care = {};
  bool counted = false;    ///< numbers from accepted slips; false: those of the plan
  double alive_share = 1;  ///< expected by the survival curves at its age
};

/// In the order of the programme. Empty without a plan.
std::vector<PlantedBlock> planted_blocks(const FieldBook& book, Date today);

/// Care of a block of the plan, planted as planned: for blocks that are not planted yet too.
tending::BlockCare planned_care(const FieldBook& book, const BlockPart& part);

/// Share expected alive of trees of the plan's species after some months, weighed by numbers.
/// @param counts  per candidate of the programme
double expected_alive(const Programme& programme, const std::vector<double>& counts,
                      bool under_cover, double months);

/// Last day up to `day` on which the diary or a slip reports that the block's cover was cut.
std::optional<Date> last_cut(const FieldBook& book, const std::string& block, Date day);

/// Walks as the due list reads them: a picture becomes a height by the trees' height, and a cut
/// after the walk starts the cover again from its stubble.
std::vector<tending::WalkLine> walk_lines(const FieldBook& book,
                                          const std::vector<PlantedBlock>& planted);

/// Height of the cover on a picture, as a share of the trees' height.
double picture_share(int picture, const Parameters& parameters);

/// The book's rates with those of the diary laid over.
std::vector<tending::OwnRate> rates_of(const FieldBook& book);

}  // namespace wildling::plan
