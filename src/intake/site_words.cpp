#include "intake/site_words.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <initializer_list>
#include <string_view>
#include <utility>

#include "base/csv.hpp"
#include "ground/block.hpp"

namespace wildling::intake {
namespace {

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return result;
}

std::string property(const RawFeature& feature, std::initializer_list<std::string_view> names) {
  for (const std::string_view name : names) {
    for (const auto& pair : feature.attributes) {
      if (lower(pair.first) == name && !trimmed(pair.second).empty()) {
        return std::string(trimmed(pair.second));
      }
    }
  }
  return "";
}

constexpr std::array<std::pair<std::string_view, std::string_view>, 12> kCoverWords = {{
    {"alang-alang", "running_grass"},
    {"imperata", "running_grass"},
    {"rumput", "tussock_grass"},
    {"resam", "fern"},
    {"paku", "fern"},
    {"paku resam", "fern"},
    {"semak", "shrubs"},
    {"semak belukar", "shrubs"},
    {"belukar", "shrubs"},
    {"bersih", "cleared"},
    {"tumbuhan rambat", "climbers"},
    {"di bawah tegakan", "under_trees"},
}};

std::string cover_of(const std::string& word) {
  std::string text = lower(word);
  for (const auto& pair : kCoverWords) {
    if (text == pair.first) return std::string(pair.second);
  }
  std::replace(text.begin(), text.end(), ' ', '_');
  return ground::parse_cover(text) ? text : "";
}

void describe_slope(const RawFeature& feature, SiteShape& site, Findings& findings) {
  std::string text = property(feature, {"slope_deg", "slope", "lereng", "kemiringan"});
  if (text.empty()) return;
  const std::string as_written = text;
  std::replace(text.begin(), text.end(), ',', '.');
  const std::optional<double> slope = parse_number(text);
  if (slope && *slope >= 0 && *slope < 90) {
    site.slope_deg = slope;
  } else {
    findings.push_back({Severity::set_aside, feature.where,
                        say("intake.slope_not_degrees", {{"value", as_written}})});
  }
}

}  // namespace

void describe(const RawFeature& feature, SiteShape& site, Findings& findings) {
  site.attributes = feature.attributes;
  site.name = property(feature, {"name", "site", "nama", "site_name", "lokasi"});
  site.ground_type = property(feature, {"ground_type", "tipe_lahan", "jenis_lahan"});
  const std::string cover = property(feature, {"cover", "tutupan", "tutupan_lahan"});
  site.cover = cover_of(cover);
  if (!cover.empty() && site.cover.empty()) {
    // The plan takes the worst usual neighbour for a cover that nobody named.
    findings.push_back(
        {Severity::changed, feature.where, say("intake.cover_unknown", {{"value", cover}})});
  }
  describe_slope(feature, site, findings);
  const std::string floods = lower(property(feature, {"floods", "flooded", "banjir", "tergenang"}));
  site.floods = floods == "yes" || floods == "ya" || floods == "true" || floods == "1";
}

}  // namespace wildling::intake
