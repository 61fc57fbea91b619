#pragma once
/// The files that leave the office, filled from a kept plan. What may leave is decided by the room
/// `export`: lists that somebody would act on are written for open blocks only.
#include <string>
#include <vector>

#include "base/parameters.hpp"
#include "base/words.hpp"
#include "export/laid_block.hpp"
#include "plan/fill_parts.hpp"
#include "plan/result.hpp"

namespace wildling::plan {

/// Blocks with their places drawn again, and the views of them that the writers take. The views
/// point into this object: it may be moved, not copied.
class LaidPlan {
 public:
  /// @throws Error{input} when a kept layout does not fit its block any more
  LaidPlan(const PlanResult& plan, const Parameters& parameters);
  LaidPlan(const LaidPlan&) = delete;
  LaidPlan& operator=(const LaidPlan&) = delete;
  LaidPlan(LaidPlan&&) noexcept = default;
  LaidPlan& operator=(LaidPlan&&) noexcept = default;
  ~LaidPlan() = default;

  /// All blocks, in the plan's order.
  [[nodiscard]] const std::vector<exports::LaidBlock>& blocks() const { return views_; }

  /// Open blocks on which something is planted.
  [[nodiscard]] std::vector<exports::LaidBlock> to_plant() const;

 private:
  struct Held {
    ground::Frame frame;
    std::optional<BlockLayout> laid;
    std::optional<layout::Baseline> line;
  };

  std::vector<Held> held_;
  std::vector<exports::LaidBlock> views_;
};

/// Office: species, local_name, group, ready, can_raise, planted, draft.
exports::Table species_table(const PlanResult& plan);

/// What to collect, for the open blocks that are planted; the number of trees to visit, never their
/// places.
exports::Table seed_table(const PlanResult& plan);

/// Works of open blocks: block, job, round, from, due, quantity, unit, person_days with limits,
/// wages, materials.
exports::Table work_table(const PlanResult& plan);

/// Office: planting weeks with their people.
exports::Table weeks_table(const PlanResult& plan);

/// Office: sums by job, month and block, the seedlings, and the total.
exports::Table money_table(const PlanResult& plan);

/// Writes blocks.csv, species.csv, weeks.csv, money.csv, pegs_corners.gpx and layers.gpkg, and,
/// when a block is open and planted, planting.csv, rows.csv, seed.csv and work.csv. Each file is
/// whole or not there. The same plan gives the same bytes. The folder is made when it is missing.
/// @return names of the files, without folder
/// @throws Error{io}; Error{usage} when a file exists and `overwrite` is false: then nothing was
///         written; Error{input} as LaidPlan
std::vector<std::string> write_tables(const PlanResult& plan, const Parameters& parameters,
                                      const std::string& folder, const Words& words,
                                      bool overwrite);

}  // namespace wildling::plan
