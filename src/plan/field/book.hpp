#pragma once
/// The field book: what came back on paper, read from the programme file into plain structs.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "plan/programme.hpp"
#include "plan/result.hpp"
#include "store/store.hpp"
#include "tending/diary.hpp"
#include "tending/slips.hpp"

namespace wildling::plan {

/// One line of a smother walk.
struct WalkNote {
  std::string block = {};  ///< code
  Date day = {};
  ground::Cover cover = ground::Cover::running_grass;
  std::optional<int> picture = {};  ///< 1 to 4
  std::optional<double> cover_m = {}, tree_m = {};
  std::optional<double> climbed_share = {}, cured_share = {};
  std::string animal_signs = {}, note = {};
};

struct WageNote {
  std::string worker = {};  ///< empty = everybody without a wage of their own
  double per_day = 0;
  Date from = {};
};

/// A return slip with what the office did with it.
struct SlipNote {
  tending::Slip slip = {};
  std::string uid = {};
  std::int64_t row_version = 0;
  std::optional<int> plan_number = {};
  std::string leader = {};
  std::optional<int> checked = {};
  bool kept = false;  ///< as stored; the ledger says it anew
  std::string finding = {};
  std::string note = {};
};

/// Who goes where on a day.
struct CrewOrder {
  std::string leader = {};
  Date day = {};
  std::string block = {};
  tending::Job job = tending::Job::ring;
  std::optional<int> people = {};
  std::string meeting_place = {}, meeting_hour = {}, help = {}, note = {};
};

struct ToolCount {
  Date day = {};
  std::string block = {};  ///< empty = all
  std::string tool = {};
  std::optional<double> needed = {}, there = {};
};

struct FieldBook {
  Programme programme = {};
  std::optional<PlanResult> plan = {};             ///< the newest; empty = none yet
  std::vector<WalkNote> walks = {};                ///< by day
  std::vector<tending::DiaryLine> diary = {};      ///< by day
  std::vector<WageNote> wages = {};                ///< by day
  std::vector<tending::Dispatch> dispatches = {};  ///< by day
  std::vector<SlipNote> slips = {};                ///< by day, then as typed
  std::vector<CrewOrder> orders = {};
  std::vector<ToolCount> tools = {};
  std::int64_t troubles = 0;
};

/// @throws Error as the store does
FieldBook load_field_book(const store::Store& store);

/// Only programme and newest plan, for sheets that need no more.
FieldBook load_land(const store::Store& store);

/// The block with this code, or null.
const ground::Block* block_of(const Programme& programme, const std::string& code);
/// The plan's part about a block, or null.
const BlockPart* part_of(const FieldBook& book, const std::string& code);
/// "B1, B2, B3 ..." for sentences that must say what there is; at most 12 codes.
std::string block_list(const Programme& programme);

}  // namespace wildling::plan
