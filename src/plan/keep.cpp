#include "plan/keep.hpp"

#include <cmath>

#include <nlohmann/json.hpp>

#include "base/error.hpp"
#include "layout/assign.hpp"
#include "layout/code.hpp"
#include "plan/land.hpp"
#include "plan/message_json.hpp"
#include "plan/result_json.hpp"
#include "plan/workings_of.hpp"
#include "store/geometry.hpp"

namespace wildling::plan {
namespace {

using store::blob_of;
using store::ChangeSet;
using store::date_of;
using store::DerivedRows;
using store::Filter;
using store::flag_of;
using store::from;
using store::integer_of;
using store::is_null;
using store::real_of;
using store::Row;
using store::RowChange;
using store::RowSink;
using store::text_of;
using store::Value;

std::optional<Row> plan_row(const store::Store& store, std::optional<int> number) {
  Filter filter = Filter{}.by("number", true);
  if (number) filter = filter.with("number", from(*number));
  filter.at_most = 1;
  const auto rows = store.rows("plans", filter);
  return rows.empty() ? std::optional<Row>() : rows.front();
}

Row needed_plan_row(const store::Store& store, std::optional<int> number) {
  auto row = plan_row(store, number);
  if (!row) throw Error(ErrorKind::input, "", say("plan.no_plan"));
  return *row;
}

// The text without the plan's own number: what two plans with the same inputs share.
std::string body_of(PlanResult result) {
  result.head.number = 0;
  return result_text(result);
}

DerivedRows results_rows(const std::string& plan_uid, const PlanResult& result) {
  DerivedRows rows;
  rows.table = "plan_results";
  rows.columns = {"plan_uid", "name", "content"};
  rows.replaces = Filter{}.with("plan_uid", Value{plan_uid});
  rows.write = [plan_uid, text = result_text(result)](RowSink& sink) {
    sink.add(std::vector<Value>{plan_uid, std::string("result"), text});
  };
  return rows;
}

DerivedRows block_rows(const std::string& plan_uid, const PlanResult& result) {
  DerivedRows rows;
  rows.table = "plan_blocks";
  rows.columns = {"plan_uid", "block_uid", "block_code",   "grid",
                  "species",  "places",    "species_bytes"};
  rows.replaces = Filter{}.with("plan_uid", Value{plan_uid});
  nlohmann::json names = nlohmann::json::array();
  for (const SpeciesPart& species : result.species) names.push_back(species.name);
  rows.write = [plan_uid, &result, species = names.dump()](RowSink& sink) {
    for (const BlockPart& part : result.blocks) {
      if (part.layout_code.empty()) continue;
      const store::Blob bytes(part.layout_code.begin(), part.layout_code.end());
      sink.add(std::vector<Value>{plan_uid, part.block.uid, part.block.code,
                                  std::string("{\"in\":\"species_bytes\"}"), species,
                                  from(part.places), bytes});
    }
  };
  return rows;
}

DerivedRows workings_rows(const std::string& plan_uid, const PlanResult& result,
                          const Progress& progress) {
  DerivedRows rows;
  rows.table = "workings";
  rows.columns = {"plan_uid", "key",     "label",  "value", "unit",
                  "origin",   "formula", "source", "note",  "inputs"};
  rows.replaces = Filter{}.with("plan_uid", Value{plan_uid});
  rows.write = [plan_uid, &result, &progress](RowSink& sink) {
    std::size_t written = 0;
    for (const WorkingsNode& node : result.workings.nodes()) {
      if (++written % 1000 == 0) check_stop(progress);
      sink.add(std::vector<Value>{plan_uid, node.key, nlohmann::json(node.label).dump(),
                                  std::isnan(node.value) ? Value{} : from(node.value), node.unit,
                                  std::string(origin_name(node.origin)), node.formula, node.source,
                                  node.note, nlohmann::json(node.inputs).dump()});
    }
  };
  return rows;
}

void add_points(RowSink& sink, const PlanResult& result, const BlockPart& part,
                const ground::Frame& frame) {
  const layout::StoredLayout stored = layout::decode(part.layout_code);
  const ground::XyShape shape = ground::to_xy(part.block.shape, frame);
  const layout::Places places = layout::recompute(
      stored, shape, water_near(part.block, shape, frame, stored.grid.setback_water_m + 1));
  std::vector<Value> row(6);
  store::Blob point;
  row[1] = from(result.head.number);
  row[2] = part.block.code;
  for (std::size_t r = 0; r < places.rows.size(); ++r) {
    for (std::uint32_t k = 0; k < places.rows[r].count; ++k) {
      const std::size_t place = places.rows[r].first + k;
      const std::uint8_t species = stored.species[place];
      if (species == layout::kEmptyPlace) continue;
      const ground::LonLat at = frame.to_lonlat(places.at(place));
      store::encode_point({at.lon_deg, at.lat_deg}, point);
      row[0] = point;
      row[3] = from(static_cast<int>(r) + 1);
      row[4] = from(static_cast<int>(k) + 1);
      row[5] = result.species[species].name;
      sink.add(row);
    }
  }
}

// Seedlings of open blocks only: a draft must not look like a plan on somebody's map.
DerivedRows seedling_rows(const PlanResult& result, const Progress& progress) {
  DerivedRows rows;
  rows.table = "seedlings";
  rows.columns = {"geom", "plan_number", "block_code", "row", "number", "species"};
  rows.write = [&result, &progress](RowSink& sink) {
    for (const SitePart& site : result.sites) {
      const ground::Frame frame(site.origin);
      for (const BlockPart& part : result.blocks) {
        if (part.block.site != site.code || !part.open || part.layout_code.empty()) continue;
        check_stop(progress);
        add_points(sink, result, part, frame);
      }
    }
  };
  return rows;
}

bool has_draft(const PlanResult& result) {
  for (const BlockPart& part : result.blocks) {
    if (!part.open) return true;
  }
  return false;
}

// Cheap to tell: another seed, day, version or input makes another plan.
bool may_be_same(const Row& row, const PlanResult& result) {
  return text_of(row, "fingerprint") == result.head.fingerprint &&
         text_of(row, "seed") == result.head.seed &&
         text_of(row, "program_version") == result.head.program_version &&
         date_of(row, "today") == result.head.today;
}

RowChange new_plan(const std::string& uid, const PlanResult& result) {
  return RowChange::insert("plans",
                           {{"number", from(result.head.number)},
                            {"fingerprint", result.head.fingerprint},
                            {"seed", result.head.seed},
                            {"program_version", result.head.program_version},
                            {"today", from(result.head.today)},
                            {"draft", store::from_flag(has_draft(result))}},
                           uid);
}

}  // namespace

PlanResult compute_plan(const store::Store& store, PlanOptions options, const Progress& progress) {
  const Programme programme = load_programme(store);
  check_stop(progress);
  options.fingerprint = fingerprint(store, programme.parameters);
  return make_plan(programme, options, progress);
}

Kept commit_plan(store::Store& store, PlanResult result, const Actor& actor,
                 const Progress& progress, std::vector<DerivedRows> beside) {
  check_stop(progress);
  int number = 1;
  if (const auto row = plan_row(store, {})) {
    number = static_cast<int>(*integer_of(*row, "number")) + 1;
    if (may_be_same(*row, result) && body_of(load_plan(store)) == body_of(result))
      return {number - 1, true};
  }
  result.head.number = number;
  const std::string uid = store.new_uid();
  ChangeSet act;
  act.who = actor.who;
  act.why = "plan made";
  act.face = actor.face;
  act.rows.push_back(new_plan(uid, result));
  act.derived = {results_rows(uid, result), block_rows(uid, result),
                 workings_rows(uid, result, progress), seedling_rows(result, progress)};
  for (DerivedRows& rows : beside) act.derived.push_back(std::move(rows));
  check_stop(progress);
  store.apply(act);
  return {number, false};
}

Kept keep_plan(store::Store& store, PlanOptions options, const Actor& actor,
               const Progress& progress) {
  return commit_plan(store, compute_plan(store, std::move(options), progress), actor, progress);
}

std::string plan_text(const store::Store& store, std::optional<int> number) {
  const Row row = needed_plan_row(store, number);
  const auto results =
      store.rows("plan_results", Filter{}.with("plan_uid", Value{text_of(row, "uid")}));
  if (results.empty()) throw Error(ErrorKind::input, "", say("plan.no_plan"));
  return text_of(results.front(), "content");
}

PlanResult load_plan(const store::Store& store, std::optional<int> number) {
  PlanResult result = result_from(plan_text(store, number));
  const Row row = needed_plan_row(store, number);
  std::map<std::string, std::string> codes;
  for (const Row& block :
       store.rows("plan_blocks", Filter{}.with("plan_uid", Value{text_of(row, "uid")}))) {
    const store::Blob bytes = blob_of(block, "species_bytes");
    codes[text_of(block, "block_uid")] = std::string(bytes.begin(), bytes.end());
  }
  for (BlockPart& part : result.blocks) part.layout_code = codes[part.block.uid];
  return result;
}

bool is_stale(const store::Store& store, const PlanResult& plan) {
  return fingerprint(store, load_programme(store).parameters) != plan.head.fingerprint;
}

Workings load_workings(const store::Store& store, std::optional<int> number) {
  const Row plan = needed_plan_row(store, number);
  Workings workings;
  for (const Row& row :
       store.rows("workings", Filter{}.with("plan_uid", Value{text_of(plan, "uid")}))) {
    workings.add(node_from(row));
  }
  return workings;
}

}  // namespace wildling::plan
