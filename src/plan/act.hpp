#pragma once
/// One person's act as a change set, and the file it takes in.
#include <string>

#include "plan/take.hpp"
#include "store/changes.hpp"
#include "store/value.hpp"

namespace wildling::plan {

store::ChangeSet act_of(const Actor& actor, std::string why);

/// The file goes into the act's log with its hash, counts and findings.
void attach(store::ChangeSet& act, const std::string& kind, const TakenFile& file);

store::Value text_or_null(const std::string& text);

}  // namespace wildling::plan
