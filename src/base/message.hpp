#pragma once
#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <variant>

#include "base/date.hpp"

namespace wildling {

/// An argument of a message: words, a real number, a count, or a day.
using Argument = std::variant<std::string, double, std::int64_t, Date>;

/// A sentence before it has a language: a key of the word catalogue and named arguments.
/// Results hold messages, never sentences; faces turn them into words (base/words.hpp).
struct Message {
  std::string key;
  std::map<std::string, Argument> arguments = {};
  /// Name of an argument to the key of the workings node its number comes from: a face lets people
  /// open it. Not part of the sentence.
  std::map<std::string, std::string> opens = {};

  bool operator==(const Message&) const = default;
};

/// Convenience for the common case: `say("intake.rain_negative", {{"value", -3.0}})`.
inline Message say(std::string key, std::map<std::string, Argument> arguments = {}) {
  return Message{std::move(key), std::move(arguments), {}};
}

/// The same sentence with numbers that open: `opening(say(...), {{"area", "site/area"}})`.
inline Message opening(Message message, std::map<std::string, std::string> opens) {
  message.opens = std::move(opens);
  return message;
}

/// Key and arguments as plain text for logs: `intake.rain_negative value=-3`. No language.
std::string plain_text(const Message& message);

}  // namespace wildling
