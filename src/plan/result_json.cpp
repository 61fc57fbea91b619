#include "plan/result_json.hpp"

#include <nlohmann/json.hpp>

#include "base/error.hpp"
#include "plan/letter.hpp"
#include "plan/message_json.hpp"

namespace nlohmann {

template <class T>
struct adl_serializer<std::optional<T>> {
  static void to_json(json& j, const std::optional<T>& value) {
    if (value) {
      j = *value;
    } else {
      j = nullptr;
    }
  }

  static void from_json(const json& j, std::optional<T>& value) {
    if (j.is_null()) {
      value.reset();
    } else {
      value = j.get<T>();
    }
  }
};

template <>
struct adl_serializer<wildling::Date> {
  static void to_json(json& j, const wildling::Date& day) { j = wildling::iso_date(day); }

  static void from_json(const json& j, wildling::Date& day) {
    day = wildling::parse_iso_date(j.get<std::string>()).value_or(wildling::Date{});
  }
};

}  // namespace nlohmann

namespace wildling::ground {

NLOHMANN_JSON_SERIALIZE_ENUM(Answer, {{Answer::not_asked, "not_asked"},
                                      {Answer::yes, "yes"},
                                      {Answer::no, "no"}})

// A position is [longitude, latitude].
void to_json(nlohmann::json& j, const LonLat& p) {
  j = {p.lon_deg, p.lat_deg};
}

void from_json(const nlohmann::json& j, LonLat& p) {
  p = {j.at(0).get<double>(), j.at(1).get<double>()};
}

void to_json(nlohmann::json& j, const Cover& cover) {
  j = std::string(cover_name(cover));
}

void from_json(const nlohmann::json& j, Cover& cover) {
  cover = parse_cover(j.get<std::string>()).value_or(Cover::running_grass);
}

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Polygon, outer, holes)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Shape, parts)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(GateAnswer, answer, who, day, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Gates, consent, fire_and_cattle, natural_trees_counted,
                                   natural_trees_per_ha, drained_peat)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Line, points)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Block, uid, code, site, shape, ground_type, cover, slope_deg,
                                   slope_known, vertex_error_m, gates, water_lines)

}  // namespace wildling::ground

namespace wildling::plan {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(PlanHead, number, programme, invented_figures, fingerprint, seed,
                                   program_version, today)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(PeriodPart, period, good, judged)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(WindowPart, has_log, found, first_period, last_period, first,
                                   last, open_until, details, good_years, of_years, share_low,
                                   share_high, station, days_in_log, days_missing, log_first,
                                   log_last, et0_low_mm_d, et0_high_mm_d, et0_assumed, first_line,
                                   refused, caveats, periods)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SpeciesPart, name, local_name, group, ready, can_raise, planted,
                                   draft)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(GroundPart, ground_type, open, area_ha, target_per_ha,
                                   natural_per_ha, needed_living, expected_living, living_low,
                                   living_high, planted, places, pioneers, species)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(BlockPart, block, area_ha, area_sd_ha, perimeter_m, open,
                                   reasons, method, method_reasons, places, planted, empty,
                                   like_pairs, rows, counts)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SitePart, code, origin, area_ha, area_sd_ha, blocks, open_blocks)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(CollectPart, species, local_name, way, to_field, ready, count,
                                   by_means, confidence, chance, mean_yield, seed_kg, fruit_kg,
                                   trees_to_visit, collect_from, collect_by, sow_by, prick_out,
                                   harden_from, dispatch, timing, short_likely, stand_in,
                                   first_line, notes)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(WorkPart, block, job, from, due, round, quantity, unit,
                                   person_days, person_days_low, person_days_high, wages, materials,
                                   why)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(WeekPart, first, days, work_days, person_days, people)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SumPart, name, person_days, wages, materials)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(MoneyPart, seedlings, seedlings_known, wages, materials, total,
                                   person_days, years, by_job, by_month, by_block)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(PlanResult, head, sites, blocks, window, species, grounds,
                                   mix_gap, mix_repeatable, mix_notes, target_age_months,
                                   collections, order_confidence, nursery_notes, works, weeks,
                                   tending_notes, money, draft_problem)

// Water lines belong to the programme: they stand once at the top, not in every block.
std::string result_text(const PlanResult& result) {
  nlohmann::json json = result;
  for (auto& block : json.at("blocks")) block.at("block").erase("water_lines");
  json["water_lines"] =
      result.blocks.empty() ? std::vector<ground::Line>{} : result.blocks.front().block.water_lines;
  // The letter, so that whoever reads the JSON finds every number of it.
  json["letter"] = nlohmann::json::array();
  for (const LetterPart& part : letter(result)) {
    json["letter"].push_back({{"heading", part.heading}, {"sentences", part.sentences}});
  }
  return json.dump(1);
}

PlanResult result_from(const std::string& text) {
  try {
    auto json = nlohmann::json::parse(text);
    for (auto& block : json.at("blocks")) block.at("block")["water_lines"] = json.at("water_lines");
    return json.get<PlanResult>();
  } catch (const nlohmann::json::exception& fault) {
    throw Error(ErrorKind::input, "",
                say("plan.result_unreadable", {{"what", std::string(fault.what())}}));
  }
}

}  // namespace wildling::plan
