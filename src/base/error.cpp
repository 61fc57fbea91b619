#include "base/error.hpp"

#include <fmt/format.h>

namespace wildling {
namespace {

struct Plain {
  std::string operator()(const std::string& text) const { return text; }

  std::string operator()(double number) const { return fmt::format("{}", number); }

  std::string operator()(std::int64_t number) const { return fmt::format("{}", number); }

  std::string operator()(Date day) const { return iso_date(day); }
};

}  // namespace

std::string plain_text(const Message& message) {
  std::string text = message.key;
  for (const auto& [name, value] : message.arguments) {
    text += fmt::format(" {}={}", name, std::visit(Plain{}, value));
  }
  return text;
}

int exit_code(ErrorKind kind) noexcept {
  switch (kind) {
    case ErrorKind::usage:
      return 2;
    case ErrorKind::infeasible:
      return 3;
    default:
      return 1;
  }
}

int http_status(ErrorKind kind) noexcept {
  switch (kind) {
    case ErrorKind::usage:
      return 400;
    case ErrorKind::input:
      return 422;
    case ErrorKind::infeasible:
      return 409;
    case ErrorKind::conflict:
      return 412;
    default:
      return 500;
  }
}

Error::Error(ErrorKind kind, std::string where, Message message)
    : std::runtime_error(where.empty() ? plain_text(message) : where + ": " + plain_text(message)),
      kind_(kind),
      where_(std::move(where)),
      message_(std::move(message)) {}

}  // namespace wildling
