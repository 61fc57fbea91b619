#pragma once
#include <string>
#include <string_view>

namespace wildling::intake {

struct DecodedText {
  std::string utf8;
  std::string encoding;  ///< what the bytes were taken for; empty when plain UTF-8 or ASCII
};

/// Any text bytes as UTF-8 without byte order mark: by the mark, else UTF-8 when valid, else UTF-16
/// when every other byte is mostly zero, else the guess of uchardet, else Windows-1252. Never
/// throws on content; what cannot be read becomes U+FFFD.
DecodedText decode_text(std::string_view bytes);

/// "pdf", "xls", "database", "picture", "zip", "page" (HTML), "json" or "binary" when the bytes are
/// surely no text table; "xlsx" for a zip file that may be a workbook; empty for text.
std::string foreign_kind(std::string_view bytes);

}  // namespace wildling::intake
