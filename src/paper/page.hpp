#pragma once
#include <functional>
#include <string>
#include <vector>

#include "base/words.hpp"
#include "paper/canvas.hpp"
#include "plan/sheets.hpp"

namespace wildling::paper {

/// Catalogue keys without their "paper." in front.
class Talk {
 public:
  explicit Talk(const Words& words) : words_(&words) {}

  std::string operator()(const std::string& key,
                         std::map<std::string, Argument> arguments = {}) const {
    return words_->text("paper." + key, std::move(arguments));
  }

  [[nodiscard]] std::string operator()(const Message& message) const {
    return words_->text(message);
  }

  [[nodiscard]] std::string number(double value, int decimals) const {
    return words_->number(value, decimals);
  }

  [[nodiscard]] std::string date(Date day) const { return words_->date(day); }

  /// "1.23456° S, 113.45678° E": five decimals are 1 m, finer than any phone.
  [[nodiscard]] std::string coordinates(const plan::SheetLonLat& at) const;
  /// Sentences joined by a space.
  [[nodiscard]] std::string sentences(const std::vector<Message>& messages) const;

  [[nodiscard]] const Words& words() const { return *words_; }

 private:
  const Words* words_;
};

/// What stands at head and foot of each page of one sheet.
struct PageFrame {
  plan::SheetStamp stamp = {};
  std::string running_title = {};  ///< head of the second and later pages
  bool draft = false;              ///< banner on every page
  int pages = 0;                   ///< "page 2 of 5"; 0 while counting
};

/// Writes downward on A4 pages within the margins and turns the page when something does not fit.
class Page {
 public:
  Page(Canvas& canvas, const Talk& talk, PageFrame frame);

  Canvas& canvas;
  const Talk& talk;
  double y = 0;

  [[nodiscard]] double left() const { return kMargin; }

  [[nodiscard]] double width() const { return kA4Short - 2 * kMargin; }

  [[nodiscard]] double bottom() const { return bottom_; }

  [[nodiscard]] double room() const { return bottom_ - y; }

  [[nodiscard]] int number() const { return number_; }

  /// Turns the page when less than `height_pt` is left. @return whether it did
  bool need(double height_pt);
  void turn();

  void space(double height_pt) { y += height_pt; }

  void heading(const std::string& words, double keep_with_pt = 30);
  void paragraph(const std::string& words, Type type = {}, double space_after = 3);
  void paragraph(std::span<const Run> runs, double space_after = 3, double hanging_pt = 0);
  /// A symbol or number in front of an indented paragraph.
  void item(const std::string& mark, std::span<const Run> runs, double space_after = 3);
  /// "label ________" over `width_pt` from x.
  void blank(double x, double width_pt, const std::string& label, double y_pt) const;

 private:
  void begin();

  PageFrame frame_;
  double bottom_ = 0;
  int number_ = 0;
};

/// The banner "draft, not for crews". @return its height
double draw_draft_banner(Canvas& canvas, const Talk& talk, const Box& box);
/// An empty square to tick.
void draw_tick_box(Canvas& canvas, double x, double y, double size_pt);

}  // namespace wildling::paper
