#pragma once
#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace wildling::paper {

enum class SymbolPaint { none, ink, paper };

/// M, L, C and Z as in SVG, absolute; 'O' is a circle (x, y, radius).
struct SymbolStep {
  char command = 'M';
  std::array<double, 6> points = {};
};

struct SymbolStroke {
  SymbolPaint fill = SymbolPaint::none, stroke = SymbolPaint::none;
  double stroke_width = 1;
  std::vector<SymbolStep> steps = {};
};

/// A drawing in a field of 24 x 24.
struct Symbol {
  std::vector<SymbolStroke> strokes = {};
};

/// Reads our own small kind of SVG: <path d="M L C Z"> and <circle> with the attributes fill,
/// stroke
/// ("currentColor", "white", "none") and stroke-width. The page shows the same files.
/// @throws Error{internal, "paper.symbol_faulty"} for anything else
Symbol parse_symbol(std::string_view svg, const std::string& name);

/// data/symbols/NAME.svg, read once. Caller holds drawing_mutex().
const Symbol& shipped_symbol(const std::string& name);

}  // namespace wildling::paper
