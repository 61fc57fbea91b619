#pragma once
/// What people write into the field book. Each note is one act. A slip or a diary line that breaks
/// a rule is kept as written and set aside: the sentence that comes back says why.
#include "plan/ask.hpp"

namespace wildling::plan {

Note walk_note();
Note work_note();
Note wage_note();
Note send_note();
Note dispatch_note();
Note slip_note();
Note trouble_note();
Note tool_note();

}  // namespace wildling::plan
