#include "plan/chain_workings.hpp"

#include <cmath>
#include <numeric>

#include "base/workings_build.hpp"
#include "climate/climate_workings.hpp"
#include "climate/planting_window.hpp"
#include "ground/ground_workings.hpp"
#include "layout/layout_workings.hpp"
#include "mix/mix.hpp"
#include "nursery/nursery_workings.hpp"
#include "plan/chain.hpp"
#include "plan/field/nodes.hpp"
#include "plan/field/year_context.hpp"
#include "plan/letter_workings.hpp"
#include "plan/season.hpp"
#include "plan/weather/figures.hpp"
#include "species/survival.hpp"
#include "tending/tending_workings.hpp"

namespace wildling::plan {
namespace {

double sum(std::span<const double> inputs) {
  return std::accumulate(inputs.begin(), inputs.end(), 0.0);
}

// price 1, number 1, price 2, number 2 ...
double sum_of_products(std::span<const double> inputs) {
  double total = 0;
  for (std::size_t i = 0; i + 1 < inputs.size(); i += 2) total += inputs[i] * inputs[i + 1];
  return total;
}

double root_of_squares(std::span<const double> inputs) {
  double total = 0;
  for (const double value : inputs) total = std::hypot(total, value);
  return total;
}

const Formulas kFormulas = {
    {"plan.sum", "total = a + b + ...", "arithmetic", sum},
    {"plan.sum_of_products", "total = price x number, over all", "arithmetic", sum_of_products},
    {"plan.root_of_squares", "error = square root of the sum of squared errors",
     "independent errors add in squares", root_of_squares}};

using Builder = WorkingsBuilder;

std::string block_area(Builder& builder, const BlockPart& part) {
  const std::string& code = part.block.code;
  return builder.leaf("block/" + code + "/area", say("plan.node.block_area", {{"block", code}}),
                      part.area_ha, "ha", Origin::measured,
                      "boundary walked; geodesic on WGS 84 (Karney 2013)");
}

void land_nodes(Builder& builder, const PlanResult& result) {
  std::vector<std::string> areas;
  for (const BlockPart& part : result.blocks) areas.push_back(block_area(builder, part));
  double total = 0;
  for (const BlockPart& part : result.blocks) total += part.area_ha;
  builder.computed("programme/area", say("plan.node.area"), total, "ha", "plan.sum", areas);
}

std::string count_key(const std::string& block, const std::string& species) {
  return "block/" + block + "/planted/" + species;
}

// Numbers of seedlings by block and species are decisions; their sums are computed.
void planted_nodes(Builder& builder, const PlanResult& result) {
  std::vector<std::vector<std::string>> by_species(result.species.size());
  std::vector<std::string> blocks;
  double all = 0;
  for (const BlockPart& part : result.blocks) {
    std::vector<std::string> inputs;
    for (std::size_t i = 0; i < part.counts.size(); ++i) {
      if (part.counts[i] == 0) continue;
      inputs.push_back(builder.leaf(
          count_key(part.block.code, result.species[i].name),
          say("plan.node.block_species",
              {{"block", part.block.code}, {"species", result.species[i].name}}),
          part.counts[i], "seedlings", Origin::chosen, "shared out of the chosen mix"));
      if (part.open) by_species[i].push_back(inputs.back());
    }
    const auto key =
        builder.computed("block/" + part.block.code + "/planted",
                         say("plan.node.block_planted", {{"block", part.block.code}}),
                         static_cast<double>(part.planted), "seedlings", "plan.sum", inputs);
    if (!part.open) continue;
    blocks.push_back(key);
    all += static_cast<double>(part.planted);
  }
  builder.computed("programme/planted", say("plan.node.planted"), all, "seedlings", "plan.sum",
                   blocks);
  for (std::size_t i = 0; i < result.species.size(); ++i) {
    builder.computed("species/" + result.species[i].name + "/planted",
                     say("plan.node.species_planted", {{"species", result.species[i].name}}),
                     result.species[i].planted, "seedlings", "plan.sum", by_species[i]);
  }
}

std::string seedling_money(Builder& builder, const PlanResult& result, const Programme& programme) {
  std::vector<std::string> inputs;
  for (std::size_t i = 0; i < result.species.size(); ++i) {
    const auto& stock = programme.candidates[i].stock;
    if (!stock.price_per_seedling) continue;
    inputs.push_back(builder.leaf("species/" + result.species[i].name + "/price",
                                  say("plan.node.price", {{"species", result.species[i].name}}),
                                  *stock.price_per_seedling, "money/seedling", Origin::told,
                                  stock.source));
    inputs.push_back("species/" + result.species[i].name + "/planted");
  }
  return builder.computed("money/seedlings", say("plan.node.money_seedlings"),
                          result.money.seedlings, "money", "plan.sum_of_products", inputs);
}

void money_nodes(Builder& builder, const PlanResult& result, const Programme& programme,
                 bool cared_for) {
  std::vector<std::string> inputs = {seedling_money(builder, result, programme)};
  if (cared_for) inputs.push_back("tending/total/cost");
  builder.computed("money/total", say("plan.node.money_total"), result.money.total, "money",
                   "plan.sum", inputs);
}

void site_nodes(Builder& builder, const PlanResult& result) {
  for (const BlockPart& part : result.blocks) {
    builder.leaf(
        "block/" + part.block.code + "/area_error",
        say("plan.node.block_area_error", {{"block", part.block.code}}), part.area_sd_ha, "ha",
        Origin::assumed, "",
        "standard deviation for independent errors of the walked points; see docs/ground.md");
  }
  for (const SitePart& site : result.sites) {
    std::vector<std::string> areas, errors;
    for (const BlockPart& part : result.blocks) {
      if (part.block.site != site.code) continue;
      areas.push_back("block/" + part.block.code + "/area");
      errors.push_back("block/" + part.block.code + "/area_error");
    }
    builder.computed("site/" + site.code + "/area",
                     say("plan.node.site_area", {{"site", site.code}}), site.area_ha, "ha",
                     "plan.sum", areas);
    builder.computed("site/" + site.code + "/area_error",
                     say("plan.node.site_area_error", {{"site", site.code}}), site.area_sd_ha, "ha",
                     "plan.root_of_squares", errors);
  }
}

}  // namespace

void add_workings(PlanResult& result, const Programme& programme, const Land& land,
                  const std::vector<layout::Assignment>& assignments, const SolvedMix* mix,
                  const nursery::CollectionPlan& collection, const tending::CarePlan* care,
                  const Progress& progress) {
  Builder builder(result.workings);
  land_nodes(builder, result);
  site_nodes(builder, result);
  planted_nodes(builder, result);
  check_stop(progress);
  if (care != nullptr) tending::add_workings(result.workings, *care, programme.parameters);
  money_nodes(builder, result, programme, care != nullptr);
  for (std::size_t b = 0; b < land.blocks.size(); ++b) {
    check_stop(progress);
    if (land.laid[b].places.size() == 0) continue;
    result.workings.append(
        layout::layout_workings(land.blocks[b].block.code, land.laid[b].places, assignments[b]));
  }
  if (mix != nullptr) {
    mix::add_workings(result.workings, mix->grounds.needs, programme.candidates, mix->survival,
                      mix->demands, mix->choice, programme.parameters);
  }
  for (const BlockPart& part : result.blocks) {
    check_stop(progress);
    result.workings.append(ground::block_workings(part.block, programme.parameters));
  }
  if (programme.weather) {
    climate::add_normals_workings(result.workings, *programme.weather, normals_of(programme),
                                  programme.parameters);
    climate::add_window_workings(
        result.workings, *programme.weather,
        climate::planting_windows(*programme.weather, programme.parameters), programme.parameters);
  }
  nursery::add_workings(result.workings, collection, programme.parameters);
  for (const char* key : {"plan.years", "mix.age"})
    add_parameter(result.workings, programme.parameters.at(key));
  add_letter_workings(result);
}

Formulas all_formulas() {
  Formulas all = kFormulas;
  for (const Formulas* room : {&letter_formulas(), &layout::formulas(), &mix::formulas(),
                               &species::formulas(), &nursery::formulas(), &tending::formulas(),
                               &ground::formulas(), &climate::formulas(), &year_formulas()}) {
    all.insert(all.end(), room->begin(), room->end());
  }
  const Formulas weather = weather::weather_formulas();
  all.insert(all.end(), weather.begin(), weather.end());
  for (Formula& formula : field_book_formulas()) all.push_back(std::move(formula));
  return all;
}

}  // namespace wildling::plan
