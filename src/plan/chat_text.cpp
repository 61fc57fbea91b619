#include "plan/chat_text.hpp"

#include <algorithm>

namespace wildling::plan {
namespace {

/// Words of the sheets, so that sheet and text say the same.
class Talk {
 public:
  explicit Talk(const Words& words) : words_(words) {}

  std::string operator()(const std::string& key,
                         std::map<std::string, Argument> arguments = {}) const {
    return words_.text("paper." + key, std::move(arguments));
  }

  std::string operator()(const Message& message) const { return words_.text(message); }

 private:
  const Words& words_;
};

std::string sentences(const Talk& talk, const std::vector<Message>& messages) {
  std::string said;
  for (const Message& message : messages) said += (said.empty() ? "" : " ") + talk(message);
  return said;
}

int places_of(const TomorrowTask& task) {
  int sum = 0;
  for (const SheetRow& row : task.rows) sum += row.count;
  return sum;
}

constexpr std::size_t kMostCharacters = 499;

std::size_t characters(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

std::string shortened(const std::string& text, std::size_t most) {
  if (characters(text) <= most) return text;
  std::size_t end = 0, seen = 0;
  while (end < text.size()) {
    const bool starts = (static_cast<unsigned char>(text[end]) & 0xC0U) != 0x80U;
    if (starts && ++seen > most - 1) break;
    ++end;
  }
  return text.substr(0, end) + "\u2026";
}

std::string task_line(const Talk& talk, const TomorrowTask& task) {
  std::string said = talk("job." + job_word(task.job), {{"block", task.block_code}});
  if (!task.rows.empty())
    said += ": " + talk("text_rows", {{"first", std::int64_t{task.rows.front().number}},
                                      {"last", std::int64_t{task.rows.back().number}},
                                      {"places", std::int64_t{places_of(task)}}});
  return said + ".";
}

std::vector<std::string> cautions_by_name(const Talk& talk, const TomorrowSheet& sheet) {
  std::vector<std::string> names;
  for (const Hazard hazard : sheet.hazards)
    names.push_back(talk("hazard." + hazard_word(hazard) + ".name"));
  return names;
}

}  // namespace

std::string chat_text(const TomorrowSheet& sheet, const Words& words) {
  const Talk talk(words);
  const std::string more = talk("text_more");
  std::string said =
      shortened(talk(sheet.crew_leader.empty() ? "text_head_all" : "text_head",
                     {{"day", sheet.day}, {"who", shortened(sheet.crew_leader, 40)}}),
                120);
  std::string careful;
  for (const std::string& name : cautions_by_name(talk, sheet))
    careful += (careful.empty() ? "" : " ") + name;
  if (!careful.empty()) said += "\n" + shortened(talk("text_careful") + " " + careful, 150);
  std::vector<std::string> lines;  // most needed first
  if (sheet.verdict) lines.push_back(talk(*sheet.verdict));
  for (const TomorrowTask& task : sheet.tasks)
    if (task.gates.open) lines.push_back(task_line(talk, task));
  if (!sheet.meeting_place.empty())
    lines.push_back(
        talk("tomorrow_at", {{"hour", sheet.meeting_hour}, {"place", sheet.meeting_place}}) + ".");
  for (const Message& caution : sheet.cautions) lines.push_back(talk(caution));
  for (const TomorrowTask& task : sheet.tasks)
    if (!task.gates.open) lines.push_back(talk("text_not", {{"block", task.block_code}}));
  if (!sheet.bring.empty())
    lines.push_back(talk("tomorrow_bring") + ": " + sentences(talk, sheet.bring));
  bool left_out = false;
  for (const std::string& line : lines) {
    if (characters(said) + 1 + characters(line) + 1 + characters(more) > kMostCharacters) {
      left_out = true;
      continue;
    }
    said += "\n" + line;
  }
  return left_out ? said + "\n" + more : said;
}

}  // namespace wildling::plan
