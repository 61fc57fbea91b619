#pragma once
#include <mutex>

struct _PangoFontMap;

namespace wildling::paper {

/// The shipped fonts and nothing else: families "Wildling Sans" and "Wildling Serif" (data/fonts),
/// each regular, italic and bold. The files live in memory only (memfd), so nothing is left behind
/// by a killed process. A letter that the fonts lack is drawn as a box with its code, never in a
/// font of the system.
///
/// Pango's font map is not for two threads at once: whoever draws holds drawing_mutex().
/// @throws Error{io, "paper.fonts_missing"} when they cannot be loaded
_PangoFontMap* shipped_font_map();

std::mutex& drawing_mutex();

}  // namespace wildling::paper
