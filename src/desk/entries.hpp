#pragma once
/// From what came over the wire to what plan/ takes.
#include <optional>
#include <string>

#include <nlohmann/json_fwd.hpp>

#include "desk/http.hpp"
#include "plan/ask.hpp"
#include "plan/take_file.hpp"

namespace wildling::desk {

/// The query without the names that address the question itself ("name", "reply", "key", "job").
plan::Entries entries_of(const Request& request);

/// {"field": ["text"], "field": "text", "field": 3, "field": true}
/// @throws Error{usage} naming the field that is none of these
plan::Entries entries_of(const nlohmann::json& object);

/// Options of an upload, named as on the command line: crs, swap-axes, station, lon ...
/// @throws Error{usage} naming the option and what was written
plan::TakeOptions take_options(const Request& request, Date today);

// Members of a JSON object. @throws Error{usage} naming the member when it is missing or of another
// kind; the optional ones give nothing for a missing or null member.
std::string text_member(const nlohmann::json& object, const std::string& name);
double number_member(const nlohmann::json& object, const std::string& name);
std::optional<std::string> maybe_text(const nlohmann::json& object, const std::string& name);
std::optional<double> maybe_number(const nlohmann::json& object, const std::string& name);
/// An ISO date.
std::optional<Date> maybe_day(const nlohmann::json& object, const std::string& name);
/// A whole number from 0, as a JSON number or as text.
std::optional<std::uint64_t> maybe_seed(const nlohmann::json& object, const std::string& name);

/// The number in If-Match. @throws Error{usage} when it is missing or no number
std::int64_t version_seen(const Request& request);

}  // namespace wildling::desk
