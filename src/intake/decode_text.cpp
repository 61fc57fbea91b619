#include "intake/decode_text.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <memory>
#include <utility>

#include <uchardet/uchardet.h>
#include <unicode/ucnv.h>
#include <unicode/unistr.h>

namespace wildling::intake {
namespace {

bool starts(std::string_view bytes, std::string_view with) {
  return bytes.substr(0, with.size()) == with;
}

// Valid UTF-8 comes back from ICU unchanged; anything else holds a replacement character.
bool valid_utf8(std::string_view bytes) {
  UErrorCode status = U_ZERO_ERROR;
  std::unique_ptr<UConverter, decltype(&ucnv_close)> converter(ucnv_open("UTF-8", &status),
                                                               &ucnv_close);
  ucnv_setToUCallBack(converter.get(), UCNV_TO_U_CALLBACK_STOP, nullptr, nullptr, nullptr, &status);
  const auto size = static_cast<int32_t>(bytes.size());
  std::u16string out(bytes.size() + 1, u'\0');
  ucnv_toUChars(converter.get(), out.data(), size + 1, bytes.data(), size, &status);
  return U_SUCCESS(status);
}

// Share of zero bytes at the even (0) or odd (1) places of the first 4096.
double zero_share(std::string_view bytes, std::size_t parity) {
  const std::size_t n = std::min<std::size_t>(bytes.size(), 4096);
  std::size_t zeros = 0;
  for (std::size_t i = parity; i < n; i += 2) zeros += bytes[i] == '\0' ? 1U : 0U;
  return n < 2 ? 0.0 : 2.0 * static_cast<double>(zeros) / static_cast<double>(n);
}

// Empty when every other byte is not mostly zero.
std::string unmarked_utf16(std::string_view bytes) {
  if (zero_share(bytes, 1) > 0.6 && zero_share(bytes, 0) < 0.1) return "UTF-16LE";
  if (zero_share(bytes, 0) > 0.6 && zero_share(bytes, 1) < 0.1) return "UTF-16BE";
  return "";
}

std::string guessed(std::string_view bytes) {
  const std::unique_ptr<uchardet, decltype(&uchardet_delete)> detector(uchardet_new(),
                                                                       &uchardet_delete);
  uchardet_handle_data(detector.get(), bytes.data(), bytes.size());
  uchardet_data_end(detector.get());
  const std::string name = uchardet_get_charset(detector.get());
  return name.empty() || name == "ASCII" || name == "UTF-8" ? "WINDOWS-1252" : name;
}

DecodedText converted(std::string_view bytes, std::string encoding) {
  UErrorCode status = U_ZERO_ERROR;
  std::unique_ptr<UConverter, decltype(&ucnv_close)> converter(ucnv_open(encoding.c_str(), &status),
                                                               &ucnv_close);
  if (U_FAILURE(status)) {
    status = U_ZERO_ERROR;
    encoding = "WINDOWS-1252";
    converter.reset(ucnv_open("windows-1252", &status));
  }
  const icu::UnicodeString text(bytes.data(), static_cast<int32_t>(bytes.size()), converter.get(),
                                status);
  DecodedText decoded{{}, std::move(encoding)};
  text.toUTF8String(decoded.utf8);
  return decoded;
}

}  // namespace

DecodedText decode_text(std::string_view bytes) {
  if (starts(bytes, "\xEF\xBB\xBF")) bytes.remove_prefix(3);
  if (starts(bytes, "\xFF\xFE")) return converted(bytes.substr(2), "UTF-16LE");
  if (starts(bytes, "\xFE\xFF")) return converted(bytes.substr(2), "UTF-16BE");
  if (const std::string wide = unmarked_utf16(bytes); !wide.empty()) return converted(bytes, wide);
  if (valid_utf8(bytes)) return {std::string(bytes), {}};
  return converted(bytes, guessed(bytes));
}

std::string foreign_kind(std::string_view bytes) {
  using namespace std::string_view_literals;
  constexpr std::array<std::pair<std::string_view, std::string_view>, 11> kSigns = {
      {{"%PDF"sv, "pdf"sv},
       {"\xD0\xCF\x11\xE0"sv, "xls"sv},
       {"SQLite format 3"sv, "database"sv},
       {"PK\x03\x04"sv, "xlsx"sv},
       {"PK\x05\x06"sv, "zip"sv},
       {"\x1F\x8B"sv, "zip"sv},
       {"Rar!"sv, "zip"sv},
       {"\x89PNG"sv, "picture"sv},
       {"\xFF\xD8\xFF"sv, "picture"sv},
       {"GIF8"sv, "picture"sv},
       {"7z\xBC\xAF"sv, "zip"sv}}};
  for (const auto& [sign, kind] : kSigns) {
    if (starts(bytes, sign)) return std::string(kind);
  }
  if (starts(bytes, "\xFF\xFE") || starts(bytes, "\xFE\xFF")) return "";
  if (bytes.find('\0') != std::string_view::npos && unmarked_utf16(bytes).empty()) return "binary";
  const std::size_t first = bytes.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  if (first == std::string_view::npos) return "";
  if (bytes[first] == '<') return "page";
  if (bytes[first] == '{' || bytes[first] == '[') return "json";
  return "";
}

}  // namespace wildling::intake
