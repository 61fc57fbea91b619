#include "plan/export_files.hpp"

#include <algorithm>
#include <filesystem>

#include "base/error.hpp"
#include "base/parallel.hpp"
#include "export/geopackage.hpp"
#include "export/gpx.hpp"

namespace wildling::plan {
namespace {

std::string made_at(const PlanResult& plan) {
  return iso_date(plan.head.today) + "T00:00:00.000Z";
}

std::string title_of(const PlanResult& plan, const Words& words) {
  return words.text("plan.sheet.file_title", {{"programme", plan.head.programme},
                                              {"number", std::int64_t{plan.head.number}}});
}

std::vector<std::string> names_of(const PlanResult& plan) {
  std::vector<std::string> names;
  for (const SpeciesPart& part : plan.species) names.push_back(part.name);
  return names;
}

/// What is to be written: tables by file name.
std::vector<std::pair<std::string, exports::Table>> tables_of(const PlanResult& plan,
                                                              const LaidPlan& laid) {
  std::vector<std::pair<std::string, exports::Table>> tables;
  tables.emplace_back("blocks.csv", exports::blocks_table(laid.blocks()));
  tables.emplace_back("species.csv", species_table(plan));
  const auto planted = laid.to_plant();
  if (!planted.empty()) {
    tables.emplace_back("planting.csv", exports::planting_table(planted, names_of(plan)));
    tables.emplace_back("rows.csv", exports::rows_table(planted));
    tables.emplace_back("seed.csv", seed_table(plan));
    tables.emplace_back("work.csv", work_table(plan));
  }
  tables.emplace_back("weeks.csv", weeks_table(plan));
  tables.emplace_back("money.csv", money_table(plan));
  return tables;
}

void make_folder(const std::string& folder) {
  std::error_code failed;
  std::filesystem::create_directories(folder, failed);
  if (failed)
    throw Error(ErrorKind::io, folder, say("plan.sheet.no_folder", {{"reason", failed.message()}}));
}

void refuse_existing(const std::filesystem::path& folder, const std::vector<std::string>& names) {
  for (const std::string& name : names) {
    std::error_code ignored;
    if (std::filesystem::exists(folder / name, ignored))
      throw Error(ErrorKind::usage, (folder / name).string(), say("plan.sheet.file_exists"));
  }
}

}  // namespace

LaidPlan::LaidPlan(const PlanResult& plan, const Parameters& parameters) {
  const double tolerance_m = parameters.value("layout.corner_tolerance");
  const std::optional<double> declination_deg = declination_of(parameters);
  for (const BlockPart& part : plan.blocks) held_.push_back({frame_of(plan, part), {}, {}});
  parallel_for(held_.size(), 1, 0, [&](std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i) {
      const BlockPart& part = plan.blocks[i];
      Held& held = held_[i];
      held.laid = layout_of(part, held.frame);
      if (held.laid && to_be_planted(part))
        held.line = layout::baseline(held.laid->shape, held.laid->water, held.laid->places,
                                     tolerance_m, declination_deg);
    }
  });
  for (std::size_t i = 0; i < held_.size(); ++i) {
    const BlockPart& part = plan.blocks[i];
    exports::LaidBlock view;
    view.code = part.block.code;
    view.site = part.block.site;
    view.ground_type = part.block.ground_type;
    view.shape = part.block.shape;
    view.gate = {part.open, part.reasons};
    view.frame = &held_[i].frame;
    if (held_[i].laid) {
      view.places = &held_[i].laid->places;
      view.species = held_[i].laid->species;
    }
    if (held_[i].line) view.baseline = &*held_[i].line;
    views_.push_back(std::move(view));
  }
}

std::vector<exports::LaidBlock> LaidPlan::to_plant() const {
  std::vector<exports::LaidBlock> planted = exports::open_only(views_);
  planted.erase(std::remove_if(planted.begin(), planted.end(),
                               [](const auto& block) { return exports::planted_on(block) == 0; }),
                planted.end());
  return planted;
}

std::vector<std::string> write_tables(const PlanResult& plan, const Parameters& parameters,
                                      const std::string& folder, const Words& words,
                                      bool overwrite) {
  const LaidPlan laid(plan, parameters);
  const auto tables = tables_of(plan, laid);
  std::vector<std::string> names;
  for (const auto& [name, table] : tables) names.push_back(name);
  names.insert(names.end(), {"pegs_corners.gpx", "layers.gpkg"});
  make_folder(folder);
  const std::filesystem::path place(folder);
  if (!overwrite) refuse_existing(place, names);
  const exports::GateBook gates = exports::gates_of(laid.blocks());
  const exports::ExportRules rules;
  for (const auto& [name, table] : tables)
    exports::write_csv((place / name).string(), table, gates, rules, words, overwrite);
  exports::write_gpx((place / "pegs_corners.gpx").string(), laid.blocks(),
                     parameters.value("layout.corner_tolerance"), title_of(plan, words),
                     made_at(plan), words, overwrite);
  exports::GeoPackageCopy copy;
  copy.blocks = laid.blocks();
  copy.species = names_of(plan);
  copy.title = title_of(plan, words);
  copy.made_at_utc = made_at(plan);
  copy.tables = {species_table(plan)};
  exports::write_geopackage((place / "layers.gpkg").string(), copy, rules, words, overwrite);
  return names;
}

}  // namespace wildling::plan
