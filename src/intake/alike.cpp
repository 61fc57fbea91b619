#include "intake/alike.hpp"

#include <utility>

namespace wildling::intake {
namespace {

constexpr std::size_t kToldOneByOne = 5;

}  // namespace

void AlikeFindings::add(Severity severity, std::string where, Message message,
                        const std::string& about) {
  const auto [place, fresh] = places_.emplace(message.key + '\n' + about, kinds_.size());
  if (fresh) kinds_.push_back({severity, {}, 0});
  Kind& kind = kinds_[place->second];
  ++kind.count;
  if (kind.first.size() < kToldOneByOne) {
    kind.first.push_back({severity, std::move(where), std::move(message)});
  }
}

Findings AlikeFindings::all(const std::string& file) const {
  Findings result;
  for (const Kind& kind : kinds_) {
    result.insert(result.end(), kind.first.begin(), kind.first.end());
    if (kind.count <= kind.first.size()) continue;
    result.push_back({kind.severity, file,
                      say("intake.more_alike",
                          {{"count", static_cast<std::int64_t>(kind.count - kind.first.size())},
                           {"all", static_cast<std::int64_t>(kind.count)}})});
  }
  return result;
}

}  // namespace wildling::intake
