#pragma once
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "base/date.hpp"

namespace wildling::paper {

enum class Face { sans, serif };
enum class Align { left, centre, right };

/// How letters look. Sizes in points; figures are lining and of one width.
struct Type {
  Face face = Face::sans;
  double size_pt = 10.5;
  bool bold = false;
  bool italic = false;
};

/// A stretch of text in one type.
struct Run {
  std::string text;
  Type type = {};
};

struct Ink {
  double r = 0, g = 0, b = 0;
};

// Few colours, one meaning each; each is also told by shape, pattern or word.
inline constexpr Ink kInk{0.07, 0.07, 0.07};
inline constexpr Ink kPaper{1, 1, 1};
inline constexpr Ink kLeaf{0.13, 0.42, 0.20};
inline constexpr Ink kStraw{0.72, 0.52, 0.10};
inline constexpr Ink kClay{0.62, 0.22, 0.12};
inline constexpr Ink kWater{0.10, 0.35, 0.62};
inline constexpr Ink kSmoke{0.86, 0.86, 0.86};

struct Point {
  double x = 0, y = 0;
};

struct Box {
  double x = 0, y = 0, width = 0, height = 0;
};

struct Stroke {
  double width_pt = 0.8;
  Ink ink = kInk;
  std::vector<double> dashes = {};
};

inline constexpr double kMm = 72.0 / 25.4;
inline constexpr double kA4Short = 210 * kMm;
inline constexpr double kA4Long = 297 * kMm;
inline constexpr double kMargin = 15 * kMm;

/// A surface to draw on: pages of a PDF, one PNG, or one SVG. Units are points, y grows downward.
/// Only the shipped fonts are used. Not for two threads at once.
class Canvas {
 public:
  /// Draws nothing and tells how high the text would be: for a first pass that counts pages.
  static Canvas blank();
  /// The file's only date is `made_on`, so that equal drawings give equal bytes.
  static Canvas pdf(double width_pt, double height_pt, Date made_on, const std::string& title);
  static Canvas png(double width_pt, double height_pt, double pixels_per_pt);
  static Canvas svg(double width_pt, double height_pt);
  ~Canvas();
  Canvas(Canvas&&) noexcept;
  Canvas& operator=(Canvas&&) noexcept;

  void next_page();
  /// Closes the surface. @return the file's bytes. @throws Error{io} with the library's reason
  std::string finish();

  /// Text in a column `width_pt` wide from its upper edge `y`; wraps between words, a word longer
  /// than the column within itself. @return height
  double text(double x, double y, double width_pt, const std::string& words, Type type = {},
              Align align = Align::left, Ink ink = kInk);
  double text(double x, double y, double width_pt, std::span<const Run> runs,
              Align align = Align::left, double hanging_pt = 0, Ink ink = kInk);
  [[nodiscard]] double height(double width_pt, const std::string& words, Type type = {}) const;
  [[nodiscard]] double height(double width_pt, std::span<const Run> runs,
                              double hanging_pt = 0) const;
  /// Width of the text on one line.
  [[nodiscard]] double width(const std::string& words, Type type = {}) const;

  void line(Point from, Point to, const Stroke& stroke = {});
  void polyline(std::span<const Point> points, const Stroke& stroke, bool closed = false);
  void frame(const Box& box, const Stroke& stroke = {});
  void fill(const Box& box, Ink ink);
  void disc(Point centre, double radius_pt, Ink ink);

  /// Rings of one shape, filled by the even-odd rule.
  void fill_rings(std::span<const std::vector<Point>> rings, Ink ink, double opacity = 1.0);
  /// Hatching at 45 degrees inside the rings.
  void hatch_rings(std::span<const std::vector<Point>> rings, double distance_pt,
                   const Stroke& stroke);
  void clip(const Box& box);
  void unclip();

  /// Draws data/symbols/NAME.svg, its 24 x 24 field scaled to `size_pt`, centred. What has fill
  /// "currentColor" or stroke "currentColor" in the file gets `ink`, what is "white" gets the
  /// paper.
  /// @throws Error{internal} when there is no such symbol or the file has more than lines, curves
  /// and circles
  void symbol(const std::string& name, Point centre, double size_pt, Ink ink = kInk);
  void symbols(const std::string& name, std::span<const Point> centres, double size_pt,
               Ink ink = kInk);

 private:
  struct Impl;
  explicit Canvas(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

}  // namespace wildling::paper
