#include <algorithm>
#include <cmath>

#include "plan/fill_parts.hpp"
#include "plan/fill_sheets.hpp"
#include "plan/letter.hpp"

namespace wildling::plan {
namespace {

// What one page holds beside a map.
constexpr std::size_t kMostHolds = 3;
constexpr std::size_t kMostReasons = 1;
constexpr std::size_t kMostAssumed = 1;
constexpr std::size_t kMostWindowNotes = 0;
constexpr std::size_t kMostGrounds = 1;
constexpr std::size_t kMostActs = 3;

using Sentences = std::vector<Message>;

Sentences part_of(const std::vector<LetterPart>& parts, const std::string& heading) {
  const auto found = std::find_if(parts.begin(), parts.end(), [&](const LetterPart& part) {
    return part.heading.key == heading;
  });
  return found == parts.end() ? Sentences{} : found->sentences;
}

// The first `most`, then how many more there are.
void add_some(Sentences& to, const Sentences& from, std::size_t most) {
  const std::size_t shown = std::min(most, from.size());
  to.insert(to.end(), from.begin(), from.begin() + static_cast<std::ptrdiff_t>(shown));
  if (from.size() > shown)
    to.push_back(say("plan.sheet.more_sentences",
                     {{"count", static_cast<std::int64_t>(from.size() - shown)}}));
}

/// Sentences of that key moved out of `from`.
Sentences taken(Sentences& from, const std::string& key) {
  Sentences out;
  const auto is_key = [&](const Message& message) { return message.key == key; };
  std::copy_if(from.begin(), from.end(), std::back_inserter(out), is_key);
  from.erase(std::remove_if(from.begin(), from.end(), is_key), from.end());
  return out;
}

void put_when(SummaryPage& page, const PlanResult& plan) {
  const WindowPart& window = plan.window;
  if (!window.first_line.key.empty()) page.why.sentences.push_back(window.first_line);
  if (window.has_log && window.log_first && window.log_last)
    page.why.notes.push_back({say("plan.sheet.note_log", {{"station", window.station},
                                                          {"first", *window.log_first},
                                                          {"last", *window.log_last}}),
                              Origin::measured});
  if (window.first && window.last)
    page.when.sentences.push_back(
        say("plan.letter.window_days", {{"first", *window.first}, {"last", *window.last}}));
  Sentences notes = window.refused;
  notes.insert(notes.end(), window.caveats.begin(), window.caveats.end());
  add_some(page.when.sentences, notes, kMostWindowNotes);
}

void put_what(SummaryPage& page, const PlanResult& plan, const std::vector<LetterPart>& parts) {
  page.what.sentences = part_of(parts, "plan.heading.what");
  taken(page.what.sentences,
        "plan.letter.species");  // the crew sheets and the species table name them
  add_some(page.how_many.sentences, taken(page.what.sentences, "plan.letter.living"), kMostGrounds);
  for (Message& sentence : part_of(parts, "plan.heading.seed"))
    page.how_many.sentences.push_back(std::move(sentence));
  if (plan.mix_gap)
    page.what.notes.push_back(
        {say("plan.sheet.note_mix", {{"percent", std::round(*plan.mix_gap * 1000) / 10}}),
         Origin::chosen});
}

void put_who(SummaryPage& page, const std::vector<LetterPart>& parts) {
  page.who.sentences = part_of(parts, "plan.heading.who");
  page.how_much.sentences = taken(page.who.sentences, "plan.letter.money");
}

// "B21-B32 (Twin Hills)" or "B3 (Twin Hills)"; how many when they do not follow each other.
std::string codes_of(const PlanResult& plan, const std::string& site) {
  std::vector<std::size_t> held;
  for (std::size_t i = 0; i < plan.blocks.size(); ++i) {
    if (!plan.blocks[i].open && plan.blocks[i].block.site == site) held.push_back(i);
  }
  if (held.empty()) return {};
  std::string codes = plan.blocks[held.front()].block.code;
  for (std::size_t k = 1; k < held.size(); ++k) {
    const bool follows = held[k] == held[k - 1] + 1;
    const bool goes_on = follows && k + 1 < held.size() && held[k + 1] == held[k] + 1;
    if (goes_on) continue;
    codes += (follows ? "–" : ", ") + plan.blocks[held[k]].block.code;
  }
  return codes + " (" + site + ")";
}

void put_holds(SummaryPage& page, const PlanResult& plan) {
  const std::vector<Hold> all = holds(plan);
  std::size_t next = 0;
  for (const SitePart& site : plan.sites) {
    std::string codes = codes_of(plan, site.code);
    if (codes.empty()) continue;
    const Hold& hold = all[next++];
    if (page.on_hold.size() == kMostHolds) continue;
    SummaryHold shown{std::move(codes), {}};
    add_some(shown.reasons, hold.reasons, kMostReasons);
    page.on_hold.push_back(std::move(shown));
  }
  if (next > kMostHolds)
    page.on_hold.back().reasons.push_back(
        say("plan.sheet.more_sites", {{"count", static_cast<std::int64_t>(next - kMostHolds)}}));
}

void put_acts(SummaryPage& page, const PlanResult& plan) {
  for (const Act& act : next_acts(plan)) {
    if (page.next_acts.size() == kMostActs) return;
    Message what = act.what;
    what.arguments["day"] = act.day;
    page.next_acts.push_back({{}, std::move(what)});  // the sentence names its day
  }
}

void put_sources(SummaryPage& page, const PlanResult& plan) {
  const WindowPart& window = plan.window;
  if (window.has_log)
    page.sources.push_back(
        say("plan.sheet.source_log", {{"station", window.station},
                                      {"days", std::int64_t{window.days_in_log}},
                                      {"missing", std::int64_t{window.days_missing}}}));
  page.sources.push_back(
      say("plan.sheet.source_plan", {{"number", std::int64_t{plan.head.number}},
                                     {"version", plan.head.program_version},
                                     {"seed", plan.head.seed},
                                     {"fingerprint", plan.head.fingerprint.substr(0, 12)}}));
}

}  // namespace

SummaryPage summary_page(const PlanResult& plan) {
  const std::vector<LetterPart> parts = letter(plan);
  SummaryPage page;
  page.stamp = stamp_of(plan);
  page.answer = answer(plan);
  put_when(page, plan);
  put_what(page, plan, parts);
  page.where.sentences = part_of(parts, "plan.heading.where");
  put_who(page, parts);
  put_holds(page, plan);
  add_some(page.assumed, plan.mix_notes, kMostAssumed);
  put_acts(page, plan);
  put_sources(page, plan);
  page.map = map_picture(plan);
  return page;
}

}  // namespace wildling::plan
