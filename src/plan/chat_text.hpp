#pragma once
#include <string>

#include "base/words.hpp"
#include "plan/sheets.hpp"

namespace wildling::plan {

/// Tomorrow's sheet as text for the crew's chat: under 500 characters whatever comes in. The day,
/// the cautions by name, the blocks and the meeting place come first; what does not fit is left out
/// and the text says that the sheet has more.
std::string chat_text(const TomorrowSheet& sheet, const Words& words);

}  // namespace wildling::plan
