#include "plan/chat_text.hpp"
#include "plan/field/nodes.hpp"
#include "plan/field/replies.hpp"
#include "plan/field/sheets.hpp"

namespace wildling::plan {
namespace {

std::int64_t places_of(const TomorrowTask& task) {
  std::int64_t sum = 0;
  for (const SheetRow& row : task.rows) sum += row.count;
  return sum;
}

Message job_of(const TomorrowTask& task) {
  return say("paper.job." + job_word(task.job), {{"block", task.block_code}});
}

Cell leader_of(const TomorrowSheet& sheet) {
  return sheet.crew_leader.empty() ? cell(say("fieldbook.tomorrow.by_hand"))
                                   : cell(sheet.crew_leader);
}

Table task_table(const std::vector<TomorrowSheet>& sheets, FieldNodes& nodes) {
  Table table;
  table.name = "tasks";
  table.caption = say("fieldbook.tomorrow.caption");
  table.columns = {{"leader", say("fieldbook.column.leader"), 0},
                   {"task", say("fieldbook.column.task"), 0},
                   {"rows", say("fieldbook.column.rows"), 0},
                   {"places", say("fieldbook.column.places"), 0},
                   {"person_days", say("fieldbook.column.person_days"), 1},
                   {"gates", say("fieldbook.column.gates"), 0}};
  int n = 0;
  for (const TomorrowSheet& sheet : sheets) {
    for (const TomorrowTask& task : sheet.tasks) {
      const std::string at = "field/tomorrow/" + std::to_string(++n) + "/";
      const std::map<std::string, Argument> what = {{"block", task.block_code}};
      const std::string places =
          nodes.leaf(at + "places", say("fieldbook.label.task_places", what),
                     static_cast<double>(places_of(task)), "places", Origin::chosen,
                     "rows of the plan less what accepted slips report");
      Cell days;
      if (task.person_days) {
        days = cell(*task.person_days,
                    nodes.leaf(at + "days", say("fieldbook.label.task_days", what),
                               *task.person_days, "person-days", Origin::documented,
                               "rates of the book or the work diary: wildling rates"));
      }
      table.rows.push_back(
          {leader_of(sheet), cell(job_of(task)), cell(static_cast<std::int64_t>(task.rows.size())),
           cell(places_of(task), places), std::move(days),
           cell(say(task.gates.open ? "fieldbook.tomorrow.open" : "fieldbook.tomorrow.closed"))});
    }
  }
  return table;
}

Table text_table(const std::vector<TomorrowSheet>& sheets) {
  Table table;
  table.name = "texts";
  table.caption = say("fieldbook.tomorrow.texts");
  table.columns = {{"leader", say("fieldbook.column.leader"), 0},
                   {"language", say("fieldbook.column.language"), 0},
                   {"text", say("fieldbook.column.text"), 0}};
  for (const Language language : {Language::en, Language::id}) {
    const Words words(language);
    for (const TomorrowSheet& sheet : sheets) {
      table.rows.push_back({leader_of(sheet), cell(std::string(language_code(language))),
                            cell(chat_text(sheet, words))});
    }
  }
  return table;
}

LetterPart sheet_part(const TomorrowSheet& sheet) {
  LetterPart part{sheet.crew_leader.empty()
                      ? say("fieldbook.tomorrow.sheet_by_hand")
                      : say("fieldbook.tomorrow.sheet_of", {{"leader", sheet.crew_leader}}),
                  {}};
  const auto add = [&](const std::vector<Message>& messages) {
    part.sentences.insert(part.sentences.end(), messages.begin(), messages.end());
  };
  for (const Hazard hazard : sheet.hazards)
    part.sentences.push_back(say("paper.hazard." + hazard_word(hazard) + ".name"));
  add(sheet.cautions);
  if (sheet.verdict) part.sentences.push_back(*sheet.verdict);
  if (!sheet.meeting_place.empty()) {
    part.sentences.push_back(say("fieldbook.tomorrow.meet",
                                 {{"hour", sheet.meeting_hour}, {"place", sheet.meeting_place}}));
  }
  add(sheet.access);
  add(sheet.bring);
  for (const TomorrowTask& task : sheet.tasks) {
    add(task.notes);
    if (!task.gates.open) add(task.gates.reasons);
  }
  return part;
}

}  // namespace

Reply tomorrow_reply(const FieldBook& book, const std::vector<std::string>& blocks,
                     const std::string& crew, std::optional<Date> day, Date today) {
  const std::vector<TomorrowSheet> sheets = tomorrow_sheets(book, {day, blocks, crew}, today);
  Reply reply;
  reply.name = "tomorrow";
  FieldNodes nodes(reply.workings);
  std::int64_t tasks = 0, closed = 0;
  for (const TomorrowSheet& sheet : sheets) {
    for (const TomorrowTask& task : sheet.tasks) ++(task.gates.open ? tasks : closed);
  }
  reply.answer =
      say("fieldbook.tomorrow.answer", {{"day", sheets.front().day},
                                        {"sheets", static_cast<std::int64_t>(sheets.size())},
                                        {"tasks", tasks},
                                        {"closed", closed}});
  for (const TomorrowSheet& sheet : sheets) reply.parts.push_back(sheet_part(sheet));
  reply.tables.push_back(task_table(sheets, nodes));
  reply.tables.push_back(text_table(sheets));
  return reply;
}

}  // namespace wildling::plan
