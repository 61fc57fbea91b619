#include "desk/entries.hpp"

#include <array>
#include <charconv>

#include <nlohmann/json.hpp>

#include "base/csv.hpp"

namespace wildling::desk {
namespace {

using nlohmann::json;

[[noreturn]] void refuse(const std::string& field, const std::string& key,
                         const std::string& value) {
  throw Error(ErrorKind::usage, field, say(key, {{"value", value}}));
}

const json* member(const json& object, const std::string& name) {
  const auto found = object.find(name);
  return found == object.end() || found->is_null() ? nullptr : &*found;
}

template <typename Whole>
std::optional<Whole> whole_from(std::string_view text) {
  Whole value{};
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool all = fault == std::errc{} && end == text.data() + text.size() && !text.empty();
  return all ? std::optional<Whole>(value) : std::nullopt;
}

std::string entry_text(const std::string& field, const json& value) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
  if (value.is_number()) return value.dump();
  throw Error(ErrorKind::usage, field, say("desk.field_kind"));
}

double number_in(const std::string& field, const std::string& text) {
  const auto value = parse_number(text);
  if (!value) refuse(field, "desk.not_a_number", text);
  return *value;
}

bool flag_in(const Request& request, const std::string& field) {
  const auto text = request.asked(field);
  if (!text) return false;
  if (text->empty() || *text == "yes" || *text == "true" || *text == "1") return true;
  if (*text == "no" || *text == "false" || *text == "0") return false;
  refuse(field, "desk.yes_or_no", *text);
}

std::optional<double> number_asked(const Request& request, const std::string& field) {
  const auto text = request.asked(field);
  if (!text || text->empty()) return {};
  return number_in(field, *text);
}

std::optional<int> whole_asked(const Request& request, const std::string& field) {
  const auto text = request.asked(field);
  if (!text || text->empty()) return {};
  const auto value = whole_from<int>(*text);
  if (!value) refuse(field, "desk.not_a_number", *text);
  return value;
}

std::vector<std::string> all_asked(const Request& request, const std::string& field) {
  std::vector<std::string> list;
  const auto [first, last] = request.query.equal_range(field);
  for (auto it = first; it != last; ++it) list.push_back(it->second);
  return list;
}

}  // namespace

plan::Entries entries_of(const Request& request) {
  constexpr std::array<std::string_view, 4> kAddress = {"name", "reply", "key", "job"};
  plan::Entries entries;
  for (const auto& [name, value] : request.query) {
    if (std::find(kAddress.begin(), kAddress.end(), name) == kAddress.end())
      entries[name].push_back(value);
  }
  return entries;
}

plan::Entries entries_of(const json& object) {
  if (!object.is_object()) throw Error(ErrorKind::usage, "entries", say("desk.field_kind"));
  plan::Entries entries;
  for (const auto& [name, value] : object.items()) {
    if (value.is_null()) continue;
    auto& texts = entries[name];
    if (!value.is_array()) {
      texts.push_back(entry_text(name, value));
      continue;
    }
    for (const json& each : value) texts.push_back(entry_text(name, each));
  }
  return entries;
}

plan::TakeOptions take_options(const Request& request, Date today) {
  plan::TakeOptions options;
  options.crs = request.asked("crs").value_or("");
  options.swap_axes = flag_in(request, "swap-axes");
  options.close_lines = flag_in(request, "close-lines");
  options.station = request.asked("station").value_or(options.station);
  options.lon_deg = number_asked(request, "lon");
  options.lat_deg = number_asked(request, "lat");
  options.elevation_m = number_asked(request, "elevation");
  options.distance_km = number_asked(request, "distance");
  options.replace = flag_in(request, "replace");
  options.correct = flag_in(request, "correct");
  options.main = flag_in(request, "main");
  options.units = all_asked(request, "unit");
  options.year = whole_asked(request, "year");
  options.read_next_morning = flag_in(request, "read-next-morning");
  options.date_order = request.asked("date-order").value_or("");
  options.decimal = request.asked("decimal").value_or("");
  options.only_station = request.asked("only-station").value_or("");
  for (const std::string& text : all_asked(request, "missing"))
    options.missing.push_back(number_in("missing", text));
  options.trace = number_asked(request, "trace");
  options.columns = all_asked(request, "column");
  options.today = today;
  return options;
}

std::string text_member(const json& object, const std::string& name) {
  const auto text = maybe_text(object, name);
  if (!text) throw Error(ErrorKind::usage, name, say("desk.field_missing"));
  return *text;
}

double number_member(const json& object, const std::string& name) {
  const auto value = maybe_number(object, name);
  if (!value) throw Error(ErrorKind::usage, name, say("desk.field_missing"));
  return *value;
}

std::optional<std::string> maybe_text(const json& object, const std::string& name) {
  const json* found = member(object, name);
  if (found == nullptr) return {};
  if (!found->is_string()) refuse(name, "desk.not_a_text", found->dump());
  return found->get<std::string>();
}

std::optional<double> maybe_number(const json& object, const std::string& name) {
  const json* found = member(object, name);
  if (found == nullptr) return {};
  if (!found->is_number()) refuse(name, "desk.not_a_number", found->dump());
  return found->get<double>();
}

std::optional<Date> maybe_day(const json& object, const std::string& name) {
  const auto text = maybe_text(object, name);
  if (!text || text->empty()) return {};
  const auto day = parse_iso_date(*text);
  if (!day) refuse(name, "desk.not_a_day", *text);
  return day;
}

std::optional<std::uint64_t> maybe_seed(const json& object, const std::string& name) {
  const json* found = member(object, name);
  if (found == nullptr) return {};
  if (found->is_number_unsigned()) return found->get<std::uint64_t>();
  if (found->is_string()) {
    if (const auto value = whole_from<std::uint64_t>(found->get<std::string>())) return value;
  }
  refuse(name, "desk.not_a_seed", found->dump());
}

std::int64_t version_seen(const Request& request) {
  std::string text = request.header("if-match");
  if (text.size() >= 2 && text.front() == '"' && text.back() == '"')
    text = text.substr(1, text.size() - 2);
  const auto version = whole_from<std::int64_t>(text);
  if (!version || *version < 0)
    throw Error(ErrorKind::usage, "If-Match", say("desk.if_match", {{"value", text}}));
  return *version;
}

}  // namespace wildling::desk
