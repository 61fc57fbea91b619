#include "plan/take.hpp"

#include <cmath>
#include <map>
#include <set>

#include <nlohmann/json.hpp>

#include "ground/divide.hpp"
#include "plan/act.hpp"
#include "plan/geometry.hpp"
#include "plan/programme.hpp"

namespace wildling::plan {
namespace {

using store::blob_of;
using store::ChangeSet;
using store::date_of;
using store::Filter;
using store::flag_of;
using store::from;
using store::integer_of;
using store::is_null;
using store::real_of;
using store::Row;
using store::RowChange;
using store::text_of;
using store::Value;

RowChange setting(const std::string& key, const std::string& value) {
  return RowChange::insert("settings", {{"key", key}, {"value", value}});
}

// A site's name is its code; a second one of the same name gets a number.
std::string free_code(const std::string& wanted, std::set<std::string>& taken) {
  std::string code = wanted;
  for (int n = 2; !taken.insert(code).second; ++n) code = wanted + " " + std::to_string(n);
  return code;
}

int next_block_number(const Programme& programme) {
  int most = 0;
  for (const ground::Block& block : programme.blocks) {
    if (block.code.size() > 1 && block.code[0] == 'B')
      most = std::max(most, std::atoi(block.code.c_str() + 1));
  }
  return most + 1;
}

void remember_flooded(store::Store& store, ChangeSet& act, std::vector<std::string> types) {
  if (types.empty()) return;
  std::string list;
  for (const std::string& type : types) list += (list.empty() ? "" : ";") + type;
  const auto rows =
      store.rows("settings", Filter{}.with("key", Value{std::string("flooded_ground")}));
  if (rows.empty()) {
    act.rows.push_back(setting("flooded_ground", list));
  } else {
    act.rows.push_back(RowChange::update("settings", text_of(rows.front(), "uid"),
                                         *integer_of(rows.front(), "row_version"),
                                         {{"value", list}}));
  }
}

Row block_row(const NewSite& site, const ground::Shape& piece, const std::string& site_uid,
              int number) {
  return {{"code", "B" + std::to_string(number)},
          {"site_uid", site_uid},
          {"ground_type", text_or_null(site.ground_type)},
          {"cover", std::string(ground::cover_name(site.cover))},
          {"slope_deg", from(site.slope_deg)},
          {"vertex_error_m", from(site.vertex_error_m)},
          {"geom", store::encode(to_geometry(piece))}};
}

// Cells of the file's line that the library does not have from elsewhere, by column.
std::string own_fields(const species::Species& species) {
  nlohmann::json fields = nlohmann::json::object();
  for (const auto& [column, basis] : species.bases) {
    if (basis.origin == Origin::told)
      fields[column] = {{"text", basis.text}, {"source", basis.source}};
  }
  return fields.dump();
}

Row candidate_row(const species::Candidate& candidate) {
  const auto survival = [](const std::optional<species::OwnSurvival>& own) {
    return own ? from(own->alive_pct) : Value{};
  };
  return {
      {"scientific_name", candidate.species.scientific_name},
      {"name_as_written", candidate.stock.name_as_written},
      {"use_it", store::from_flag(candidate.use)},
      {"successional_group", candidate.species.group
                                 ? Value{std::string(species::group_name(*candidate.species.group))}
                                 : Value{}},
      {"seedlings_ready", from(candidate.stock.seedlings_ready)},
      {"can_raise", from(candidate.stock.can_raise)},
      {"mother_trees", from(candidate.stock.mother_trees)},
      {"price_per_seedling", from(candidate.stock.price_per_seedling)},
      {"nursery", text_or_null(candidate.stock.nursery)},
      {"survival_open_pct", survival(candidate.own_open)},
      {"survival_shade_pct", survival(candidate.own_cover)},
      {"fields", own_fields(candidate.species)}};
}

std::string answer_name(ground::Answer answer) {
  if (answer == ground::Answer::yes) return "yes";
  return answer == ground::Answer::no ? "no" : "not_asked";
}

using GateRows = std::map<std::pair<std::string, std::string>, Row>;

void put_gate(ChangeSet& act, const GateRows& there, const std::string& block,
              const std::string& gate, ground::Answer answer, const std::optional<double>& trees,
              const GateUpdate& update) {
  Row values = {{"block_uid", block},
                {"gate", gate},
                {"answer", answer_name(answer)},
                {"natural_trees_per_ha", from(trees)},
                {"answered_by", text_or_null(update.who)},
                {"day", from(update.day)},
                {"note", text_or_null(update.note)}};
  const auto found = there.find({block, gate});
  if (found == there.end()) {
    act.rows.push_back(RowChange::insert("gate_answers", std::move(values)));
    return;
  }
  act.rows.push_back(RowChange::update("gate_answers", text_of(found->second, "uid"),
                                       *integer_of(found->second, "row_version"),
                                       std::move(values)));
}

}  // namespace

void start_programme(store::Store& store, const std::string& name, std::optional<double> spacing_m,
                     const Actor& actor) {
  ChangeSet act = act_of(actor, "new programme");
  act.rows.push_back(setting("name", name));
  // A name that says "(invented)" marks a demonstration, whose every page says so.
  act.rows.push_back(
      setting("invented", name.find("(invented)") == std::string::npos ? "no" : "yes"));
  if (spacing_m) {
    Parameters parameters = Parameters::shipped();
    for (const char* key : {"layout.spacing"}) {
      parameters.set(key, *spacing_m, Origin::told, actor.who, "");
      act.rows.push_back(RowChange::insert("parameter_overrides", {{"key", std::string(key)},
                                                                   {"value", from(*spacing_m)},
                                                                   {"origin", std::string("told")},
                                                                   {"source", actor.who}}));
    }
  }
  store.apply(act);
}

std::vector<std::string> take_sites(store::Store& store, const std::vector<NewSite>& sites,
                                    const TakenFile& file, const Actor& actor) {
  const Programme programme = load_programme(store);
  ChangeSet act = act_of(actor, "boundary taken in");
  attach(act, "boundary", file);
  std::set<std::string> taken;
  for (const auto& entry : programme.site_uids) taken.insert(entry.first);
  std::vector<std::string> flooded = programme.flooded_ground;
  std::vector<std::string> codes;
  int number = next_block_number(programme);
  for (const NewSite& site : sites) {
    const std::string uid = store.new_uid();
    act.rows.push_back(RowChange::insert("sites",
                                         {{"code", free_code(site.name, taken)},
                                          {"name", site.name},
                                          {"vertex_error_m", from(site.vertex_error_m)},
                                          {"geom", store::encode(to_geometry(site.shape))}},
                                         uid));
    for (const ground::Shape& piece :
         ground::divide(site.shape, programme.parameters.value("plan.block_most_ha"),
                        programme.parameters.value("plan.block_least_ha"))) {
      act.rows.push_back(RowChange::insert("blocks", block_row(site, piece, uid, number)));
      codes.push_back("B" + std::to_string(number++));
    }
    if (site.floods) flooded.push_back(site.ground_type);
  }
  if (flooded.size() > programme.flooded_ground.size()) remember_flooded(store, act, flooded);
  store.apply(act);
  return codes;
}

void take_water(store::Store& store, const std::vector<ground::Line>& lines, const TakenFile& file,
                const Actor& actor) {
  ChangeSet act = act_of(actor, "water lines taken in");
  attach(act, "water", file);
  for (const ground::Line& line : lines) {
    act.rows.push_back(
        RowChange::insert("water_lines", {{"geom", store::encode(to_geometry(line))}}));
  }
  store.apply(act);
}

void take_candidates(store::Store& store, const std::vector<species::Candidate>& candidates,
                     const TakenFile& file, const Actor& actor) {
  ChangeSet act = act_of(actor, "species table taken in");
  attach(act, "species", file);
  for (const Row& row : store.rows("candidates")) {
    act.rows.push_back(
        RowChange::remove("candidates", text_of(row, "uid"), *integer_of(row, "row_version")));
  }
  for (const species::Candidate& candidate : candidates) {
    act.rows.push_back(RowChange::insert("candidates", candidate_row(candidate)));
  }
  store.apply(act);
}

int take_answers(store::Store& store, const std::string& block_or_site, const GateUpdate& update,
                 const Actor& actor) {
  if (update.natural_trees_per_ha && !(*update.natural_trees_per_ha >= 0)) {
    throw Error(ErrorKind::input, "",
                say("plan.trees_negative", {{"value", *update.natural_trees_per_ha}}));
  }
  const Programme programme = load_programme(store);
  GateRows there;
  for (const Row& row : store.rows("gate_answers"))
    there[{text_of(row, "block_uid"), text_of(row, "gate")}] = row;
  ChangeSet act = act_of(actor, "gate questions answered");
  int answered = 0;
  for (const ground::Block& block : programme.blocks) {
    if (!block_or_site.empty() && block.code != block_or_site && block.site != block_or_site)
      continue;
    ++answered;
    if (update.consent) put_gate(act, there, block.uid, "consent", *update.consent, {}, update);
    if (update.fire_and_cattle)
      put_gate(act, there, block.uid, "fire_and_cattle", *update.fire_and_cattle, {}, update);
    if (update.drained_peat)
      put_gate(act, there, block.uid, "drained_peat", *update.drained_peat, {}, update);
    if (update.natural_trees_said) {
      put_gate(act, there, block.uid, "natural_trees_counted",
               update.natural_trees_per_ha ? ground::Answer::yes : ground::Answer::no,
               update.natural_trees_per_ha, update);
    }
  }
  if (answered == 0) {
    throw Error(ErrorKind::input, block_or_site,
                say("plan.no_such_block", {{"name", block_or_site}}));
  }
  if (!act.rows.empty()) store.apply(act);
  return answered;
}

void take_parameter(store::Store& store, const std::string& key, double value, Origin origin,
                    const std::string& source, const Actor& actor) {
  Programme programme = load_programme(store);
  programme.parameters.set(key, value, origin, source, "");
  ChangeSet act = act_of(actor, "parameter changed: " + key);
  Row values = {{"key", key},
                {"value", from(value)},
                {"origin", std::string(origin_name(origin))},
                {"source", source}};
  const auto rows = store.rows("parameter_overrides", Filter{}.with("key", Value{key}));
  if (rows.empty()) {
    act.rows.push_back(RowChange::insert("parameter_overrides", std::move(values)));
  } else {
    act.rows.push_back(RowChange::update("parameter_overrides", text_of(rows.front(), "uid"),
                                         *integer_of(rows.front(), "row_version"),
                                         std::move(values)));
  }
  store.apply(act);
}

}  // namespace wildling::plan
