#pragma once
#include "desk/desk.hpp"
#include "desk/http.hpp"

namespace wildling::desk {

/// The reply that the query names by reply=NAME and its fields; null when it names none. The same
/// question to the same programme on the same day is answered once.
/// @throws Error{usage} for an unknown question or entries that do not fit
KeptReply reply_asked(Desk& desk, const Request& request);

/// The reply to a question; where the programme lacks what it needs, the sentence that says so.
/// @throws as reply_asked
KeptReply reply_to(Desk& desk, const std::string& name, const Request& request);

}  // namespace wildling::desk
