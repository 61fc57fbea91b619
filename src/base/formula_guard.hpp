#pragma once
#include <string>
#include <string_view>

namespace wildling {

/// Text that a spreadsheet would take for a formula, made harmless by an apostrophe in front:
/// `=SUM(A1)`, `-2+3`, `@lot` become `'=SUM(A1)`, `'-2+3`, `'@lot`. Apply it to text cells only:
/// numbers stay numbers.
///
/// An apostrophe is put before the text when it begins (behind spaces, quotes and apostrophes) with
/// = + - @, tab, line end or the full-width forms of the four signs; and after each semicolon, tab
/// or line end inside the text behind which one of the four signs follows in the same way, because
/// a spreadsheet that separates by semicolons starts a new cell there. `unneutralise` gives the
/// text back exactly, whatever it held.
std::string neutralise(std::string_view text);

/// The text as it was before `neutralise`. Text that was never neutralised comes back changed only
/// if it has an apostrophe where neutralise would have put one.
std::string unneutralise(std::string_view text);

}  // namespace wildling
