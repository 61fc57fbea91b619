#include "plan/chain.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "base/parallel.hpp"
#include "layout/assign.hpp"
#include "layout/code.hpp"
#include "layout/layout_workings.hpp"
#include "plan/chain_workings.hpp"
#include "plan/field_work.hpp"
#include "plan/land.hpp"
#include "plan/season.hpp"
#include "plan/species_mix.hpp"

namespace wildling::plan {
namespace {

std::vector<SpeciesPart> species_parts(const Programme& programme, const Land& land) {
  std::vector<SpeciesPart> parts;
  for (std::size_t i = 0; i < programme.candidates.size(); ++i) {
    const species::Candidate& candidate = programme.candidates[i];
    SpeciesPart part;
    part.name = candidate.name();
    part.local_name = candidate.species.local_names.empty() ? candidate.stock.name_as_written
                                                            : candidate.species.local_names.front();
    if (candidate.species.group) part.group = species::group_name(*candidate.species.group);
    part.ready = candidate.stock.seedlings_ready;
    part.can_raise = candidate.stock.can_raise;
    for (const BlockPart& block : land.blocks) {
      (block.open ? part.planted : part.draft) += block.counts[i];
    }
    parts.push_back(std::move(part));
  }
  return parts;
}

// Species bytes of every block, in parallel: each depends on its own index only.
std::vector<layout::Assignment> assign_all(Land& land, Seed seed, const Progress& progress) {
  std::vector<layout::Assignment> assignments(land.blocks.size());
  parallel_for(
      land.blocks.size(), 1, 0,
      [&](std::size_t begin, std::size_t end) {
        for (std::size_t b = begin; b < end; ++b) {
          if (land.laid[b].places.size() == 0) continue;
          assignments[b] = layout::assign(land.laid[b].places, land.blocks[b].counts, seed, b);
          land.blocks[b].like_pairs = assignments[b].like_pairs;
          land.blocks[b].layout_code = layout::encode(land.laid[b].places, assignments[b].species);
        }
      },
      progress.stop);
  return assignments;
}

void add_price(PlanResult& result, const Programme& programme) {
  for (std::size_t i = 0; i < result.species.size(); ++i) {
    const auto price = programme.candidates[i].stock.price_per_seedling;
    if (!price) continue;
    result.money.seedlings += *price * result.species[i].planted;
    result.money.seedlings_known = true;
  }
  result.money.total = result.money.seedlings + result.money.wages + result.money.materials;
}

void check_programme(const Programme& programme) {
  if (programme.blocks.empty()) throw Error(ErrorKind::input, "", say("plan.no_block"));
  if (programme.candidates.empty()) throw Error(ErrorKind::input, "", say("plan.no_species"));
}

bool all_ready(const std::vector<SpeciesPart>& species) {
  return std::all_of(species.begin(), species.end(),
                     [](const SpeciesPart& s) { return s.planted <= s.ready.value_or(0); });
}

struct Mixes {
  std::optional<SolvedMix> open, draft;
};

// Open blocks first; what is left of the stock is for drafts, whose failure is no failure of the
// plan.
Mixes choose_mixes(const Programme& programme, Land& land, PlanResult& result,
                   const Progress& progress) {
  Mixes mixes;
  std::vector<species::Candidate> candidates = programme.candidates;
  Grounds open = grounds_of(land, programme, true);
  if (!open.needs.empty()) {
    mixes.open = solve_mix(std::move(open), candidates, false, programme.parameters, progress);
    share_out(*mixes.open, programme, land);
    candidates = stock_left(candidates, mixes.open->choice);
  }
  Grounds draft = grounds_of(land, programme, false);
  if (draft.needs.empty()) return mixes;
  try {
    mixes.draft = solve_mix(std::move(draft), candidates, true, programme.parameters, progress);
    share_out(*mixes.draft, programme, land);
    if (!mixes.draft->granted.empty()) result.draft_problem = {say("plan.draft_granted")};
    for (const Message& message : mixes.draft->granted) result.draft_problem.push_back(message);
  } catch (const Error& error) {
    if (!mixes.open || error.kind() != ErrorKind::infeasible) throw;
    result.draft_problem = {say("plan.draft_no_mix"), error.message()};
  }
  return mixes;
}

void put_mix(PlanResult& result, const Mixes& mixes) {
  for (const bool open : {true, false}) {
    const auto& mix = open ? mixes.open : mixes.draft;
    if (!mix) continue;
    const auto parts = ground_parts(*mix, open);
    result.grounds.insert(result.grounds.end(), parts.begin(), parts.end());
  }
  const SolvedMix* leading = mixes.open ? &*mixes.open : mixes.draft ? &*mixes.draft : nullptr;
  if (leading == nullptr) return;
  result.mix_gap = leading->choice.gap;
  result.mix_repeatable = leading->choice.repeatable;
  result.mix_notes = leading->eased;
  result.mix_notes.insert(result.mix_notes.end(), leading->choice.notes.begin(),
                          leading->choice.notes.end());
  result.target_age_months = leading->demands.age_months;
}

}  // namespace

PlanResult make_plan(const Programme& programme, const PlanOptions& options,
                     const Progress& progress) {
  check_programme(programme);
  PlanResult result;
  result.head = {0,
                 programme.name,
                 programme.invented_figures,
                 options.fingerprint,
                 std::to_string(options.seed.value),
                 options.program_version,
                 options.today};
  progress.say(0.0, say("plan.step.land"));
  Land land = lay_land(programme, progress);
  progress.say(0.2, say("plan.step.weather"));
  result.window = window_part(programme, options.today);
  check_stop(progress);
  progress.say(0.3, say("plan.step.mix"));
  const Mixes mixes = choose_mixes(programme, land, result, progress);
  for (BlockPart& part : land.blocks) part.counts.resize(programme.candidates.size());
  put_mix(result, mixes);
  progress.say(0.6, say("plan.step.places"));
  const auto assignments = assign_all(land, options.seed, progress);
  result.species = species_parts(programme, land);
  progress.say(0.8, say("plan.step.nursery"));
  choose_season(result.window, all_ready(result.species), programme.parameters, options.today);
  const PlantingDays days = planting_days(result.window, programme, options.today);
  if (days.assumed)
    result.window.caveats.push_back(say("plan.days_assumed", {{"day", days.first}}));
  const nursery::CollectionPlan collection =
      collect(programme, result.species, days, options.today);
  result.collections = collect_parts(collection, result.species);
  result.order_confidence = collection.order_confidence;
  result.nursery_notes = collection.notes;
  result.nursery_notes.insert(result.nursery_notes.begin(), collection.first_line);
  check_stop(progress);
  progress.say(0.9, say("plan.step.tending"));
  const auto care = tend(programme, land, days);
  check_stop(progress);
  if (care) put_care(result, *care);
  add_price(result, programme);
  result.sites = land.sites;
  result.blocks = land.blocks;
  check_stop(progress);
  progress.say(0.95, say("plan.step.workings"));
  const SolvedMix* leading = mixes.open ? &*mixes.open : mixes.draft ? &*mixes.draft : nullptr;
  // A draft that had to be granted something has no proof to show.
  if (leading != nullptr && !leading->granted.empty()) leading = nullptr;
  add_workings(result, programme, land, assignments, leading, collection, care ? &*care : nullptr,
               progress);
  progress.say(1.0, say("plan.step.done"));
  return result;
}

}  // namespace wildling::plan
