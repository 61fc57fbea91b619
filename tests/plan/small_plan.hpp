#pragma once
#include <algorithm>

#include "layout/assign.hpp"
#include "layout/code.hpp"
#include "plan/land.hpp"
#include "plan/result.hpp"
#include "species/library.hpp"

/// An invented plan: three blocks of 0.36 ha of two sites, B3 on hold, five species of the library.
namespace wildling::plan {

inline ground::Block invented_block(const std::string& code, const std::string& site, double lon) {
  constexpr double kSide = 0.00054;  // degrees, about 60 m
  ground::Block block;
  block.uid = code;
  block.code = code;
  block.site = site;
  block.ground_type = "slope";
  block.shape.parts = {
      {{{lon, -1}, {lon + kSide, -1}, {lon + kSide, -1 + kSide}, {lon, -1 + kSide}}, {}}};
  block.vertex_error_m = 3;
  block.slope_known = true;
  block.slope_deg = 20;
  block.gates.consent.answer = ground::Answer::yes;
  block.gates.fire_and_cattle.answer = ground::Answer::yes;
  block.gates.natural_trees_counted.answer = ground::Answer::yes;
  block.gates.natural_trees_per_ha = 100;
  block.gates.drained_peat.answer = ground::Answer::no;
  return block;
}

inline Programme invented_programme() {
  Programme programme;
  programme.name = "Invented hill";
  programme.invented_figures = true;
  programme.parameters = Parameters::shipped();
  programme.blocks = {invented_block("B1", "East", 110), invented_block("B2", "East", 110.00054),
                      invented_block("B3", "West", 109.99)};
  programme.blocks[1].slope_deg = 5;
  programme.blocks[2].gates.consent = {};
  programme.blocks[0].water_lines = {{{{109.9999, -1.0005}, {109.9999, -0.999}}}};
  return programme;
}

inline std::vector<SpeciesPart> five_species() {
  static const species::Library library = species::Library::shipped();
  std::vector<SpeciesPart> parts;
  for (std::size_t i = 0; i < 5; ++i) {
    SpeciesPart part;
    part.name = library.all().at(i).scientific_name;
    if (library.all()[i].group) part.group = species::group_name(*library.all()[i].group);
    parts.push_back(part);
  }
  return parts;
}

/// Species 0 is planted nowhere; a tenth of the places stays empty.
inline void plant(BlockPart& part, const LaidLand& laid, std::uint64_t index) {
  const auto fifth = static_cast<int>(part.places * 9 / 10 / 4);
  part.counts = {0, fifth, fifth, fifth, fifth};
  const layout::Assignment assigned = layout::assign(laid.places, part.counts, Seed{7}, index);
  part.planted = assigned.planted;
  part.empty = assigned.empty;
  part.layout_code = layout::encode(laid.places, assigned.species);
}

inline PlanResult small_plan(const Programme& programme = invented_programme()) {
  Land land = lay_land(programme, {});
  PlanResult plan;
  plan.head.number = 4;
  plan.head.programme = programme.name;
  plan.head.invented_figures = true;
  plan.head.fingerprint = std::string(64, 'a');
  plan.head.seed = "7";
  plan.head.program_version = "1.0";
  plan.head.today = make_date(2026, 12, 5);
  plan.window.first_line = say("plan.window_no_log");
  plan.species = five_species();
  for (std::size_t b = 0; b < land.blocks.size(); ++b) {
    BlockPart& part = land.blocks[b];
    plant(part, land.laid[b], b);
    for (std::size_t i = 0; i < part.counts.size(); ++i)
      (part.open ? plan.species[i].planted : plan.species[i].draft) += part.counts[i];
  }
  const Date due = make_date(2027, 1, 20);
  plan.works = {{"B1", "dig_pits", due, due, 0, 900, "pits", 18, 12, 24, 0, 0, {}},
                {"B1", "plant", due, due, 0, 900, "seedlings", 9, 6, 12, 0, 0, {}},
                {"B1", "ring", due, due, 1, 900, "rings", 5, 4, 6, 0, 0, {}}};
  plan.sites = land.sites;
  plan.blocks = land.blocks;
  return plan;
}

}  // namespace wildling::plan
