#pragma once
#include <optional>
#include <string>

#include "plan/chain.hpp"
#include "plan/result.hpp"
#include "plan/take.hpp"
#include "store/store.hpp"

namespace wildling::plan {

/// What keep_plan did.
struct Kept {
  int number = 0;
  bool same_as_before =
      false;  ///< the newest plan has the same bits: it stands, nothing was written
};

/// Reads the programme and makes the plan; writes nothing. The result has no number yet.
PlanResult compute_plan(const store::Store& store, PlanOptions options,
                        const Progress& progress = {});

/// Keeps a computed plan whole in one act, with workings, block bytes and the point layer of the
/// seedlings, and gives it its number. When the newest plan has the same bits it stands, and
/// nothing is written.
/// @param beside  rows that belong to the same act. @throws Cancelled when asked to stop before the
/// act is complete; then nothing of it stays
Kept commit_plan(store::Store& store, PlanResult result, const Actor& actor,
                 const Progress& progress = {}, std::vector<store::DerivedRows> beside = {});

/// compute_plan, then commit_plan. The same inputs, seed and day give the same result.
Kept keep_plan(store::Store& store, PlanOptions options, const Actor& actor,
               const Progress& progress = {});

/// The newest plan, or that number, with its layout bytes. @throws Error{input} when there is none
PlanResult load_plan(const store::Store& store, std::optional<int> number = {});

/// The stored JSON of the plan, byte for byte.
std::string plan_text(const store::Store& store, std::optional<int> number = {});

/// True when the programme has changed since the plan was made.
bool is_stale(const store::Store& store, const PlanResult& plan);

/// The workings of the plan. @throws as load_plan
Workings load_workings(const store::Store& store, std::optional<int> number = {});

}  // namespace wildling::plan
