#include "plan/parameter_list.hpp"

#include <map>

#include "plan/programme.hpp"

namespace wildling::plan {
namespace {

std::map<std::string, std::int64_t> versions_of(const store::Store& store) {
  std::map<std::string, std::int64_t> versions;
  for (const store::Row& row : store.rows("parameter_overrides"))
    versions[store::text_of(row, "key")] = *store::integer_of(row, "row_version");
  return versions;
}

ParameterEntry entry_of(const Parameter& now, const Parameters& shipped,
                        const std::map<std::string, std::int64_t>& versions) {
  const auto found = versions.find(now.key);
  return {now, shipped.value(now.key), found == versions.end() ? 0 : found->second};
}

}  // namespace

std::vector<ParameterEntry> parameter_list(const store::Store& store) {
  const Parameters shipped = Parameters::shipped();
  const Parameters now = programme_parameters(store);
  const auto versions = versions_of(store);
  std::vector<ParameterEntry> list;
  for (const auto& pair : now.all()) list.push_back(entry_of(pair.second, shipped, versions));
  return list;
}

std::optional<ParameterEntry> parameter_entry(const store::Store& store, const std::string& key) {
  const Parameters now = programme_parameters(store);
  const Parameter* found = now.find(key);
  if (found == nullptr) return {};
  return entry_of(*found, Parameters::shipped(), versions_of(store));
}

void change_parameter(store::Store& store, const std::string& key, double value, Origin origin,
                      const std::string& source, std::int64_t row_version, const Actor& actor) {
  const auto versions = versions_of(store);
  const auto found = versions.find(key);
  if ((found == versions.end() ? 0 : found->second) != row_version)
    throw Error(ErrorKind::conflict, key, say("plan.parameter_changed"));
  take_parameter(store, key, value, origin, source, actor);
}

}  // namespace wildling::plan
