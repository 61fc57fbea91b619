#include <algorithm>
#include <array>
#include <mutex>

#include "base/error.hpp"
#include "paper/fonts.hpp"
#include "paper/map_drawing.hpp"
#include "paper/paper.hpp"

namespace wildling::paper {
namespace {

constexpr double kTop = kMargin;
constexpr double kFoot = 34;    // stamp below
constexpr double kNotes = 128;  // margin column
constexpr double kGap = 16;

/// One try: how large the letters and how tall the map.
struct Setting {
  double text_pt, map_pt, space_pt;
};

constexpr std::array<Setting, 8> kSettings{{{11.5, 220, 6},
                                            {11, 220, 5},
                                            {11, 185, 4},
                                            {10.5, 165, 3.5},
                                            {10.5, 140, 2.5},
                                            {10.5, 115, 2},
                                            {10, 105, 2},
                                            {9.5, 95, 1.5}}};

// Two columns: the letter, and notes beside the paragraph they belong to.
class Letter {
 public:
  Letter(Canvas& canvas, const Talk& talk, const Setting& setting)
      : canvas_(canvas), talk_(talk), setting_(setting) {}

  double y = kTop;

  [[nodiscard]] double text_width() const { return kA4Short - 2 * kMargin - kNotes - kGap; }

  void plain(const std::string& words, Type type, double space) {
    y += canvas_.text(kMargin, y, text_width(), words, type) + space;
  }

  void paragraph(const std::string& label, const std::string& words,
                 const std::vector<plan::MarginNote>& notes = {}) {
    if (words.empty()) return;
    const Run runs[] = {{label + "  ", {Face::sans, setting_.text_pt, true}},
                        {words, {Face::serif, setting_.text_pt}}};
    const double top = y;
    y += canvas_.text(kMargin, y, text_width(), std::span<const Run>(runs)) + setting_.space_pt;
    note_y_ = std::max(note_y_, top);
    for (const plan::MarginNote& note : notes) write_note(note);
  }

  [[nodiscard]] double lowest() const { return std::max(y, note_y_); }

 private:
  void write_note(const plan::MarginNote& note) {
    constexpr double size = 9.5;
    const double x = kA4Short - kMargin - kNotes;
    note_y_ += canvas_.text(x, note_y_, kNotes, talk_(note.text), {Face::sans, size});
    const std::string origin =
        talk_.words().text("base.origin." + std::string(origin_name(note.origin)));
    const double tall = canvas_.text(x, note_y_, kNotes, origin, {Face::sans, size, false, true});
    underline(note.origin, x, note_y_ + tall - 0.5,
              canvas_.width(origin, {Face::sans, size, false, true}));
    note_y_ += tall + 5;
  }

  // Firm for what was measured, weaker for what was told or read, wavy for what is assumed.
  void underline(Origin origin, double x, double line_y, double wide) {
    if (origin == Origin::assumed) {
      std::vector<Point> wave;
      for (int i = 0; i * 2.0 <= wide; ++i)
        wave.push_back({x + i * 2.0, line_y + (i % 2 == 0 ? -0.9 : 0.9)});
      canvas_.polyline(wave, {0.8, kInk, {}});
    } else if (origin == Origin::measured) {
      canvas_.line({x, line_y}, {x + wide, line_y}, {1.2, kInk, {}});
    } else if (origin == Origin::told) {
      canvas_.line({x, line_y}, {x + wide, line_y}, {1.0, kInk, {4, 2}});
    } else if (origin == Origin::documented) {
      canvas_.line({x, line_y}, {x + wide, line_y}, {1.0, kInk, {1, 2}});
    }
  }

  Canvas& canvas_;
  const Talk& talk_;
  Setting setting_;
  double note_y_ = kTop;
};

std::string held(const Talk& talk, const plan::SummaryPage& page) {
  std::string said;
  for (const plan::SummaryHold& hold : page.on_hold) {
    if (!said.empty()) said += ' ';
    said += talk("hold", {{"block", hold.block_code}, {"reasons", talk.sentences(hold.reasons)}});
  }
  return said;
}

void write_acts(Letter& letter, const Talk& talk, const plan::SummaryPage& page) {
  std::string said;
  const std::size_t count = std::min<std::size_t>(page.next_acts.size(), 3);
  for (std::size_t i = 0; i < count; ++i) {
    const plan::NextAct& act = page.next_acts[i];
    said += "\n" + std::to_string(i + 1) + ". " +
            (act.day ? talk.date(*act.day) : talk("no_date")) + ": " + talk(act.what);
  }
  letter.paragraph(talk("letter.next"), said);
}

void write_map(Canvas& canvas, Letter& letter, const Talk& talk, const plan::SummaryPage& page,
               double map_pt) {
  if (map_is_empty(page.map)) return;
  const double wide = letter.text_width();
  const MapDrawing drawn = draw_map(canvas, talk, page.map, {kMargin, letter.y, wide, map_pt});
  letter.y += map_pt + 5;
  draw_scale_bar(canvas, talk, {kMargin, letter.y}, drawn.pt_per_m, 80);
  const double used =
      draw_legend(canvas, talk, page.map, drawn, {kMargin + 105, letter.y - 3, wide - 105, 0}, 2);
  letter.y += std::max(used, 20.0) + 3;
}

void write_letter(Canvas& canvas, Letter& letter, const Talk& talk, const plan::SummaryPage& page,
                  const Setting& setting) {
  letter.plain(
      page.addressee.empty() ? talk("letter") : talk("letter_to", {{"addressee", page.addressee}}),
      {Face::sans, 10.5, true}, 1);
  letter.plain(talk.date(page.stamp.made_on), {Face::sans, 10.5}, 5);
  letter.y += canvas.text(kMargin, letter.y, kA4Short - 2 * kMargin, talk(page.answer),
                          {Face::serif, setting.text_pt + 6, true}) +
              6;
  const std::array<std::pair<const char*, const plan::SummaryParagraph*>, 4> first{
      {{"letter.why", &page.why},
       {"letter.what", &page.what},
       {"letter.where", &page.where},
       {"letter.when", &page.when}}};
  for (const auto& [key, paragraph] : first)
    letter.paragraph(talk(key), talk.sentences(paragraph->sentences), paragraph->notes);
  write_map(canvas, letter, talk, page, setting.map_pt);
  const std::array<std::pair<const char*, const plan::SummaryParagraph*>, 3> second{
      {{"letter.how_many", &page.how_many},
       {"letter.who", &page.who},
       {"letter.how_much", &page.how_much}}};
  for (const auto& [key, paragraph] : second)
    letter.paragraph(talk(key), talk.sentences(paragraph->sentences), paragraph->notes);
  letter.paragraph(talk("letter.on_hold"), held(talk, page));
  letter.paragraph(talk("letter.assumed"), talk.sentences(page.assumed));
  write_acts(letter, talk, page);
  letter.paragraph(talk("letter.sources"), talk.sentences(page.sources));
}

void write_foot(Canvas& canvas, const Talk& talk, const plan::SummaryPage& page) {
  double y = kA4Long - kMargin - kFoot + 6;
  const double wide = kA4Short - 2 * kMargin;
  canvas.line({kMargin, y}, {kMargin + wide, y}, {0.6, kInk, {}});
  y += 2;
  y += canvas.text(kMargin, y, wide,
                   talk("stamp_with_plan", {{"programme", page.stamp.programme},
                                            {"plan", std::int64_t{page.stamp.plan_number}},
                                            {"day", page.stamp.made_on}}),
                   {Face::sans, 9.5});
  if (page.stamp.invented_figures)
    canvas.text(kMargin, y, wide, talk("invented"), {Face::sans, 9.5, true});
}

// @return the lowest ink of the letter
double write(Canvas& canvas, const Talk& talk, const plan::SummaryPage& page,
             const Setting& setting) {
  Letter letter(canvas, talk, setting);
  write_letter(canvas, letter, talk, page, setting);
  write_foot(canvas, talk, page);
  return letter.lowest();
}

}  // namespace

std::string write_summary(const plan::SummaryPage& page, const Words& words) {
  const std::scoped_lock lock(drawing_mutex());
  const Talk talk(words);
  for (const Setting& setting : kSettings) {
    Canvas canvas = Canvas::pdf(kA4Short, kA4Long, page.stamp.made_on, talk("letter"));
    if (write(canvas, talk, page, setting) <= kA4Long - kMargin - kFoot + 2) return canvas.finish();
  }
  throw Error(ErrorKind::usage, "", say("paper.summary_too_long"));
}

}  // namespace wildling::paper
