#include "base/words.hpp"

#include <algorithm>
#include <mutex>
#include <unordered_map>

#include <nlohmann/json.hpp>
#include <unicode/datefmt.h>
#include <unicode/msgfmt.h>
#include <unicode/numberformatter.h>
#include <unicode/timezone.h>

#include "base/embedded.hpp"

namespace wildling {
namespace {

icu::UnicodeString unicode(std::string_view text) {
  return icu::UnicodeString::fromUTF8(
      icu::StringPiece(text.data(), static_cast<int32_t>(text.size())));
}

std::string utf8(const icu::UnicodeString& text) {
  std::string result;
  text.toUTF8String(result);
  return result;
}

UDate milliseconds(Date day) {
  return static_cast<double>(day.time_since_epoch().count()) * 86400000.0;
}

struct ToFormattable {
  icu::Formattable operator()(const std::string& text) const {
    return icu::Formattable(unicode(text));
  }

  icu::Formattable operator()(double number) const { return icu::Formattable(number); }

  icu::Formattable operator()(std::int64_t number) const {
    return icu::Formattable(static_cast<int64_t>(number));
  }

  icu::Formattable operator()(Date day) const {
    return {milliseconds(day), icu::Formattable::kIsDate};
  }
};

// Dates inside messages are civil days: every date format of the pattern must use UTC.
void use_utc(icu::MessageFormat& format) {
  UErrorCode status = U_ZERO_ERROR;
  const std::unique_ptr<icu::StringEnumeration> names(format.getFormatNames(status));
  if (U_FAILURE(status) || !names) return;
  while (const icu::UnicodeString* name = names->snext(status)) {
    const icu::Format* part = format.getFormat(*name, status);
    const auto* date = dynamic_cast<const icu::DateFormat*>(part);
    if (U_FAILURE(status)) return;
    if (date == nullptr) continue;
    std::unique_ptr<icu::DateFormat> copy(date->clone());
    copy->adoptTimeZone(icu::TimeZone::getGMT()->clone());
    format.setFormat(*name, *copy, status);
  }
}

}  // namespace

struct Words::Impl {
  Language language = Language::en;
  icu::Locale locale;
  std::unordered_map<std::string, std::string> patterns;
  mutable std::mutex mutex;
  mutable std::unordered_map<std::string, std::unique_ptr<icu::MessageFormat>> formats;

  // Caller holds the mutex. Null when the key is unknown or its pattern is not valid.
  const icu::MessageFormat* format(const std::string& key) const {
    if (const auto found = formats.find(key); found != formats.end()) return found->second.get();
    const auto pattern = patterns.find(key);
    if (pattern == patterns.end()) return nullptr;
    UErrorCode status = U_ZERO_ERROR;
    auto made = std::make_unique<icu::MessageFormat>(unicode(pattern->second), locale, status);
    if (U_FAILURE(status)) return nullptr;
    use_utc(*made);
    return formats.emplace(key, std::move(made)).first->second.get();
  }
};

std::optional<Language> parse_language(std::string_view code) {
  if (code == "en") return Language::en;
  if (code == "id") return Language::id;
  return {};
}

std::string_view language_code(Language language) {
  return language == Language::en ? "en" : "id";
}

Words::Words(Language language) : impl_(std::make_unique<Impl>()) {
  impl_->language = language;
  // "en-GB" writes days before months, as field teams do.
  impl_->locale = language == Language::en ? icu::Locale("en", "GB") : icu::Locale("id", "ID");
  const std::string ending = "." + std::string(language_code(language)) + ".json";
  for (const std::string& name : embedded_names("words/")) {
    if (name.size() < ending.size() || name.substr(name.size() - ending.size()) != ending) continue;
    const auto json = nlohmann::json::parse(*embedded_file(name));
    for (const auto& [key, pattern] : json.items()) {
      impl_->patterns[key] = pattern.get<std::string>();
    }
  }
}

Words::~Words() = default;
Words::Words(Words&&) noexcept = default;
Words& Words::operator=(Words&&) noexcept = default;

Language Words::language() const noexcept {
  return impl_->language;
}

std::string Words::text(const Message& message) const {
  const std::scoped_lock lock(impl_->mutex);
  const icu::MessageFormat* format = impl_->format(message.key);
  if (format == nullptr) return "[" + message.key + "]";
  std::vector<icu::UnicodeString> names;
  std::vector<icu::Formattable> values;
  for (const auto& [name, value] : message.arguments) {
    names.push_back(unicode(name));
    values.push_back(std::visit(ToFormattable{}, value));
  }
  UErrorCode status = U_ZERO_ERROR;
  icu::UnicodeString result;
  format->format(names.data(), values.data(), static_cast<int32_t>(names.size()), result, status);
  if (U_FAILURE(status)) return "[" + message.key + "]";
  return utf8(result);
}

std::string Words::text(std::string key, std::map<std::string, Argument> arguments) const {
  return text(Message{std::move(key), std::move(arguments)});
}

std::string Words::text(const Error& error) const {
  return error.where().empty() ? text(error.message())
                               : error.where() + ": " + text(error.message());
}

std::string Words::text(const Finding& finding) const {
  return finding.where.empty() ? text(finding.message)
                               : finding.where + ": " + text(finding.message);
}

std::string Words::number(double value, int decimals) const {
  UErrorCode status = U_ZERO_ERROR;
  const auto formatted = icu::number::NumberFormatter::withLocale(impl_->locale)
                             .precision(icu::number::Precision::fixedFraction(decimals))
                             .formatDouble(value, status);
  return U_FAILURE(status) ? std::string("?") : utf8(formatted.toString(status));
}

std::string Words::date(Date day) const {
  const std::unique_ptr<icu::DateFormat> format(
      icu::DateFormat::createDateInstance(icu::DateFormat::kLong, impl_->locale));
  format->adoptTimeZone(icu::TimeZone::getGMT()->clone());
  icu::UnicodeString result;
  format->format(milliseconds(day), result);
  return utf8(result);
}

bool Words::has(std::string_view key) const {
  return impl_->patterns.count(std::string(key)) > 0;
}

std::vector<std::string> Words::keys() const {
  std::vector<std::string> result;
  for (const auto& entry : impl_->patterns) result.push_back(entry.first);
  std::sort(result.begin(), result.end());
  return result;
}

std::vector<std::string> Words::argument_names(std::string_view key) const {
  const std::scoped_lock lock(impl_->mutex);
  std::vector<std::string> result;
  const icu::MessageFormat* format = impl_->format(std::string(key));
  if (format == nullptr) return result;
  UErrorCode status = U_ZERO_ERROR;
  const std::unique_ptr<icu::StringEnumeration> names(
      const_cast<icu::MessageFormat*>(format)->getFormatNames(status));
  while (const icu::UnicodeString* name = names->snext(status)) result.push_back(utf8(*name));
  std::sort(result.begin(), result.end());
  result.erase(std::unique(result.begin(), result.end()), result.end());
  return result;
}

std::string Words::pattern(std::string_view key) const {
  const auto found = impl_->patterns.find(std::string(key));
  return found == impl_->patterns.end() ? std::string() : found->second;
}

}  // namespace wildling
