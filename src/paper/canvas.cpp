#include "paper/canvas.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <unordered_map>

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include "base/error.hpp"
#include "paper/fonts.hpp"
#include "paper/symbols.hpp"

namespace wildling::paper {
namespace {

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void check(cairo_status_t status) {
  if (status == CAIRO_STATUS_SUCCESS) return;
  throw Error(ErrorKind::io, "",
              say("paper.not_drawn", {{"reason", cairo_status_to_string(status)}}));
}

struct Unref {
  void operator()(void* object) const { g_object_unref(object); }
};

using LayoutPointer = std::unique_ptr<PangoLayout, Unref>;

void add(PangoAttrList* list, PangoAttribute* attribute, std::size_t from, std::size_t to) {
  attribute->start_index = static_cast<guint>(from);
  attribute->end_index = static_cast<guint>(to);
  pango_attr_list_insert(list, attribute);
}

PangoAttribute* font_attribute(const Type& type) {
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family(font,
                                    type.face == Face::sans ? "Wildling Sans" : "Wildling Serif");
  pango_font_description_set_absolute_size(font, type.size_pt * PANGO_SCALE);
  pango_font_description_set_weight(font, type.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_style(font, type.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
  PangoAttribute* attribute = pango_attr_font_desc_new(font);
  pango_font_description_free(font);
  return attribute;
}

// Cairo numbers its SVG groups by a counter of the process; equal drawings must give equal bytes.
std::string without_surface_numbers(const std::string& svg) {
  std::string result;
  result.reserve(svg.size());
  std::size_t at = 0;
  constexpr std::string_view word = "surface";
  while (true) {
    const std::size_t found = svg.find(word, at);
    if (found == std::string::npos) break;
    result.append(svg, at, found - at).append(word);
    at = found + word.size();
    const std::size_t digits = at;
    while (at < svg.size() && svg[at] >= '0' && svg[at] <= '9') ++at;
    if (at > digits) result += '1';
  }
  return result.append(svg, at, std::string::npos);
}

bool is_empty(std::span<const Run> runs) {
  return std::all_of(runs.begin(), runs.end(), [](const Run& run) { return run.text.empty(); });
}

double height_of(PangoLayout* layout) {
  int tall = 0;
  pango_layout_get_size(layout, nullptr, &tall);
  return static_cast<double>(tall) / PANGO_SCALE;
}

// Pages are written twice, first to count them, and table cells are measured before they are drawn:
// heights are remembered. Guarded by drawing_mutex(), like everything here.
constexpr std::size_t kMostHeights = 100000;

std::unordered_map<std::string, double>& known_heights() {
  static std::unordered_map<std::string, double> heights;
  return heights;
}

std::string measure_key(double width_pt, std::span<const Run> runs, double hanging_pt) {
  std::string key = fmt::format("{} {}", width_pt, hanging_pt);
  for (const Run& run : runs)
    key += fmt::format("\x1f{} {} {} {} {}", run.type.size_pt, run.type.face == Face::sans,
                       run.type.bold, run.type.italic, run.text);
  return key;
}

}  // namespace

struct Canvas::Impl {
  enum class Kind { blank, pdf, png, svg } kind = Kind::pdf;
  std::string bytes;
  cairo_surface_t* surface = nullptr;
  cairo_t* cairo = nullptr;
  PangoContext* context = nullptr;

  Impl() = default;
  Impl(const Impl&) = delete;
  Impl& operator=(const Impl&) = delete;

  ~Impl() {
    if (context != nullptr) g_object_unref(context);
    if (cairo != nullptr) cairo_destroy(cairo);
    if (surface != nullptr) cairo_surface_destroy(surface);
  }

  void start() {
    check(cairo_surface_status(surface));
    cairo = cairo_create(surface);
    cairo_set_line_cap(cairo, CAIRO_LINE_CAP_BUTT);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
    context = pango_font_map_create_context(shipped_font_map());
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context, FALSE);
    pango_context_set_language(context, pango_language_from_string("en"));
  }

  LayoutPointer layout(double width_pt, std::span<const Run> runs, Align align,
                       double hanging_pt) const {
    LayoutPointer layout(pango_layout_new(context));
    std::string words;
    PangoAttrList* list = pango_attr_list_new();
    for (const Run& run : runs) {
      const std::size_t from = words.size();
      words += run.text;
      add(list, font_attribute(run.type), from, words.size());
    }
    add(list, pango_attr_font_features_new("tnum=1, lnum=1"), 0, words.size());
    add(list, pango_attr_insert_hyphens_new(FALSE), 0, words.size());
    pango_layout_set_text(layout.get(), words.c_str(), static_cast<int>(words.size()));
    pango_layout_set_attributes(layout.get(), list);
    pango_attr_list_unref(list);
    if (width_pt > 0)
      pango_layout_set_width(layout.get(), static_cast<int>(width_pt * PANGO_SCALE));
    if (hanging_pt > 0)
      pango_layout_set_indent(layout.get(), -static_cast<int>(hanging_pt * PANGO_SCALE));
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    pango_layout_set_alignment(layout.get(), align == Align::left     ? PANGO_ALIGN_LEFT
                                             : align == Align::centre ? PANGO_ALIGN_CENTER
                                                                      : PANGO_ALIGN_RIGHT);
    return layout;
  }

  void use(Ink ink, double opacity = 1.0) const {
    cairo_set_source_rgba(cairo, ink.r, ink.g, ink.b, opacity);
  }

  void use(const Stroke& stroke) const {
    use(stroke.ink);
    cairo_set_line_width(cairo, stroke.width_pt);
    cairo_set_dash(cairo, stroke.dashes.data(), static_cast<int>(stroke.dashes.size()), 0);
  }

  void trace(std::span<const Point> points, bool closed) const {
    bool first = true;
    for (const Point& point : points) {
      if (first) {
        cairo_move_to(cairo, point.x, point.y);
      } else {
        cairo_line_to(cairo, point.x, point.y);
      }
      first = false;
    }
    if (closed) cairo_close_path(cairo);
  }

  void trace(const SymbolStroke& part, Point corner, double scale) const {
    for (const SymbolStep& step : part.steps) {
      std::array<double, 6> p{};
      for (std::size_t i = 0; i < 6; ++i)
        p[i] = (i % 2 == 0 ? corner.x : corner.y) + step.points[i] * scale;
      if (step.command == 'M') cairo_move_to(cairo, p[0], p[1]);
      if (step.command == 'L') cairo_line_to(cairo, p[0], p[1]);
      if (step.command == 'C') cairo_curve_to(cairo, p[0], p[1], p[2], p[3], p[4], p[5]);
      if (step.command == 'Z') cairo_close_path(cairo);
      if (step.command == 'O') {
        cairo_new_sub_path(cairo);
        cairo_arc(cairo, p[0], p[1], step.points[2] * scale, 0, 2 * M_PI);
        cairo_close_path(cairo);
      }
    }
  }
};

Canvas::Canvas(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {
  impl_->start();
}

Canvas::~Canvas() = default;
Canvas::Canvas(Canvas&&) noexcept = default;
Canvas& Canvas::operator=(Canvas&&) noexcept = default;

Canvas Canvas::blank() {
  auto impl = std::make_unique<Impl>();
  impl->kind = Impl::Kind::blank;
  impl->surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1);
  return Canvas(std::move(impl));
}

Canvas Canvas::pdf(double width_pt, double height_pt, Date made_on, const std::string& title) {
  auto impl = std::make_unique<Impl>();
  impl->surface = cairo_pdf_surface_create_for_stream(append, &impl->bytes, width_pt, height_pt);
  const std::string moment = iso_date(made_on) + "T00:00:00Z";
  cairo_pdf_surface_set_metadata(impl->surface, CAIRO_PDF_METADATA_CREATE_DATE, moment.c_str());
  cairo_pdf_surface_set_metadata(impl->surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
  return Canvas(std::move(impl));
}

Canvas Canvas::png(double width_pt, double height_pt, double pixels_per_pt) {
  auto impl = std::make_unique<Impl>();
  impl->kind = Impl::Kind::png;
  impl->surface = cairo_image_surface_create(
      CAIRO_FORMAT_RGB24, static_cast<int>(std::lround(width_pt * pixels_per_pt)),
      static_cast<int>(std::lround(height_pt * pixels_per_pt)));
  cairo_surface_set_device_scale(impl->surface, pixels_per_pt, pixels_per_pt);
  Canvas canvas(std::move(impl));
  canvas.fill({0, 0, width_pt, height_pt}, kPaper);
  return canvas;
}

Canvas Canvas::svg(double width_pt, double height_pt) {
  auto impl = std::make_unique<Impl>();
  impl->kind = Impl::Kind::svg;
  impl->surface = cairo_svg_surface_create_for_stream(append, &impl->bytes, width_pt, height_pt);
  Canvas canvas(std::move(impl));
  canvas.fill({0, 0, width_pt, height_pt}, kPaper);
  return canvas;
}

void Canvas::next_page() {
  cairo_show_page(impl_->cairo);
}

std::string Canvas::finish() {
  check(cairo_status(impl_->cairo));
  if (impl_->kind == Impl::Kind::png) {
    cairo_surface_flush(impl_->surface);
    check(cairo_surface_write_to_png_stream(impl_->surface, append, &impl_->bytes));
  }
  cairo_surface_finish(impl_->surface);
  check(cairo_surface_status(impl_->surface));
  return impl_->kind == Impl::Kind::svg ? without_surface_numbers(impl_->bytes) : impl_->bytes;
}

double Canvas::text(double x, double y, double width_pt, const std::string& words, Type type,
                    Align align, Ink ink) {
  const Run run{words, type};
  return text(x, y, width_pt, std::span<const Run>(&run, 1), align, 0, ink);
}

double Canvas::text(double x, double y, double width_pt, std::span<const Run> runs, Align align,
                    double hanging_pt, Ink ink) {
  if (impl_->kind == Impl::Kind::blank || is_empty(runs)) return height(width_pt, runs, hanging_pt);
  const LayoutPointer layout = impl_->layout(width_pt, runs, align, hanging_pt);
  impl_->use(ink);
  cairo_move_to(impl_->cairo, x, y);
  pango_cairo_show_layout(impl_->cairo, layout.get());
  return height_of(layout.get());
}

double Canvas::height(double width_pt, const std::string& words, Type type) const {
  const Run run{words, type};
  return height(width_pt, std::span<const Run>(&run, 1));
}

double Canvas::height(double width_pt, std::span<const Run> runs, double hanging_pt) const {
  if (is_empty(runs)) return 0;
  auto& heights = known_heights();
  std::string key = measure_key(width_pt, runs, hanging_pt);
  if (const auto found = heights.find(key); found != heights.end()) return found->second;
  if (heights.size() > kMostHeights) heights.clear();
  const double tall = height_of(impl_->layout(width_pt, runs, Align::left, hanging_pt).get());
  heights.emplace(std::move(key), tall);
  return tall;
}

double Canvas::width(const std::string& words, Type type) const {
  const Run run{words, type};
  const LayoutPointer layout = impl_->layout(0, std::span<const Run>(&run, 1), Align::left, 0);
  int wide = 0;
  pango_layout_get_size(layout.get(), &wide, nullptr);
  return static_cast<double>(wide) / PANGO_SCALE;
}

void Canvas::line(Point from, Point to, const Stroke& stroke) {
  impl_->use(stroke);
  cairo_move_to(impl_->cairo, from.x, from.y);
  cairo_line_to(impl_->cairo, to.x, to.y);
  cairo_stroke(impl_->cairo);
}

void Canvas::polyline(std::span<const Point> points, const Stroke& stroke, bool closed) {
  impl_->use(stroke);
  impl_->trace(points, closed);
  cairo_stroke(impl_->cairo);
}

void Canvas::frame(const Box& box, const Stroke& stroke) {
  impl_->use(stroke);
  cairo_rectangle(impl_->cairo, box.x, box.y, box.width, box.height);
  cairo_stroke(impl_->cairo);
}

void Canvas::fill(const Box& box, Ink ink) {
  impl_->use(ink);
  cairo_rectangle(impl_->cairo, box.x, box.y, box.width, box.height);
  cairo_fill(impl_->cairo);
}

void Canvas::disc(Point centre, double radius_pt, Ink ink) {
  impl_->use(ink);
  cairo_new_path(impl_->cairo);
  cairo_arc(impl_->cairo, centre.x, centre.y, radius_pt, 0, 2 * M_PI);
  cairo_fill(impl_->cairo);
}

void Canvas::fill_rings(std::span<const std::vector<Point>> rings, Ink ink, double opacity) {
  impl_->use(ink, opacity);
  cairo_set_fill_rule(impl_->cairo, CAIRO_FILL_RULE_EVEN_ODD);
  for (const auto& ring : rings) impl_->trace(ring, true);
  cairo_fill(impl_->cairo);
}

void Canvas::hatch_rings(std::span<const std::vector<Point>> rings, double distance_pt,
                         const Stroke& stroke) {
  cairo_save(impl_->cairo);
  cairo_set_fill_rule(impl_->cairo, CAIRO_FILL_RULE_EVEN_ODD);
  for (const auto& ring : rings) impl_->trace(ring, true);
  cairo_clip(impl_->cairo);
  double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
  cairo_clip_extents(impl_->cairo, &x1, &y1, &x2, &y2);
  impl_->use(stroke);
  const double first =
      std::floor((x1 - (y2 - y1)) / distance_pt) * distance_pt;  // lines meet across blocks
  for (double x = first; x < x2; x += distance_pt) {
    cairo_move_to(impl_->cairo, x, y2);
    cairo_line_to(impl_->cairo, x + (y2 - y1), y1);
  }
  cairo_stroke(impl_->cairo);
  cairo_restore(impl_->cairo);
}

void Canvas::clip(const Box& box) {
  cairo_save(impl_->cairo);
  cairo_rectangle(impl_->cairo, box.x, box.y, box.width, box.height);
  cairo_clip(impl_->cairo);
}

void Canvas::unclip() {
  cairo_restore(impl_->cairo);
}

void Canvas::symbol(const std::string& name, Point centre, double size_pt, Ink ink) {
  symbols(name, std::span<const Point>(&centre, 1), size_pt, ink);
}

// One path for all places of a part: a picture of 20,000 seedlings stays small.
void Canvas::symbols(const std::string& name, std::span<const Point> centres, double size_pt,
                     Ink ink) {
  cairo_t* cairo = impl_->cairo;
  cairo_set_dash(cairo, nullptr, 0, 0);
  cairo_set_fill_rule(cairo, CAIRO_FILL_RULE_WINDING);
  const double scale = size_pt / 24;
  for (const SymbolStroke& part : shipped_symbol(name).strokes) {
    cairo_new_path(cairo);
    for (const Point& centre : centres)
      impl_->trace(part, {centre.x - size_pt / 2, centre.y - size_pt / 2}, scale);
    if (part.fill != SymbolPaint::none) {
      impl_->use(part.fill == SymbolPaint::ink ? ink : kPaper);
      cairo_fill_preserve(cairo);
    }
    if (part.stroke != SymbolPaint::none) {
      impl_->use(part.stroke == SymbolPaint::ink ? ink : kPaper);
      cairo_set_line_width(cairo, part.stroke_width * scale);
      cairo_stroke(cairo);
    }
    cairo_new_path(cairo);
  }
}

}  // namespace wildling::paper
