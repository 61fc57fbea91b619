#pragma once
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "base/message.hpp"

namespace wildling {

enum class Language { en, id };

/// "en" or "id"; anything else is empty.
std::optional<Language> parse_language(std::string_view code);
std::string_view language_code(Language language);

/// The word catalogue of one language: ICU MessageFormat patterns with named arguments, one file
/// per room (data/words/ROOM.LANGUAGE.json, embedded), used by command line, page and paper alike.
///
/// Patterns in use: `{count, plural, one {# tree} other {# trees}}`, `{kg, number}`,
/// `{kg, number, ::.0}` (one decimal; skeletons of ICU), `{day, date, long}`; a Date is formatted
/// in UTC so that no zone can move it. Keys are "ROOM.what_it_says".
/// Thread-safe for text(); construction loads all files (about 20 ms).
class Words {
 public:
  explicit Words(Language language);
  ~Words();
  Words(Words&&) noexcept;
  Words& operator=(Words&&) noexcept;

  [[nodiscard]] Language language() const noexcept;

  /// The sentence. An unknown key gives "[key]" and an argument that is missing keeps its braces:
  /// a face must never fail because of a word. Tests hold the catalogues complete.
  [[nodiscard]] std::string text(const Message& message) const;
  [[nodiscard]] std::string text(std::string key,
                                 std::map<std::string, Argument> arguments = {}) const;

  /// "where: sentence", or the sentence alone when `where` is empty.
  [[nodiscard]] std::string text(const Error& error) const;
  [[nodiscard]] std::string text(const Finding& finding) const;

  /// A number as the language writes it: "1,234.5" or "1.234,5". `decimals` 0 to 6.
  [[nodiscard]] std::string number(double value, int decimals) const;
  /// "25 November 2026".
  [[nodiscard]] std::string date(Date day) const;

  [[nodiscard]] bool has(std::string_view key) const;
  [[nodiscard]] std::vector<std::string> keys() const;                                ///< sorted
  [[nodiscard]] std::vector<std::string> argument_names(std::string_view key) const;  ///< sorted
  [[nodiscard]] std::string pattern(std::string_view key) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace wildling
