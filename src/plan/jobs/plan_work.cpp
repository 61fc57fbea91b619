#include <nlohmann/json.hpp>

#include "plan/jobs/work.hpp"
#include "plan/keep.hpp"

namespace wildling::plan {
namespace {

// While it computes another program may write for a while: a plan of minutes must not be lost.
constexpr auto kPatience = std::chrono::minutes(10);

Outcome outcome_of(int number, bool same) {
  Outcome outcome;
  outcome.json = nlohmann::json{{"number", number}, {"same_as_before", same}}.dump();
  outcome.row_kept = !same;
  return outcome;
}

int next_number(const store::Store& store) {
  store::Filter filter = store::Filter{}.by("number", true).only({"number"});
  filter.at_most = 1;
  const auto rows = store.rows("plans", filter);
  return rows.empty() ? 1 : static_cast<int>(*store::integer_of(rows.front(), "number")) + 1;
}

}  // namespace

JobWork plan_work(Access& access, const PlanOptions& options, const Actor& actor) {
  JobWork work;
  work.kind = "plan";
  work.asked = nlohmann::json{{"seed", std::to_string(options.seed.value)},
                              {"today", iso_date(options.today)}}
                   .dump();
  work.actor = actor;
  work.changes_programme = true;
  work.run = [&access, options, actor](const Progress& progress, const Ending& ending) {
    PlanResult result;
    access.read(
        [&](const store::Store& store) { result = compute_plan(store, options, progress); });
    progress.say(1.0, say("plan.step.keep"));
    Outcome outcome;
    access.write(
        [&](store::Store& store) {
          // Nobody else writes between here and the end of the act: the number is the plan's.
          const Outcome expected = outcome_of(next_number(store), false);
          const Kept kept =
              commit_plan(store, std::move(result), actor, progress, {ending(expected.json)});
          outcome = outcome_of(kept.number, kept.same_as_before);
        },
        kPatience, progress.stop);
    return outcome;
  };
  return work;
}

}  // namespace wildling::plan
