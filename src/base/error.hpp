#pragma once
#include <stdexcept>
#include <string>
#include <vector>

#include "base/message.hpp"

namespace wildling {

enum class ErrorKind {  // who has to act              exit   HTTP
  usage,                // the caller: senseless request  2    400
  input,                // the user: a file or record     1    422
  infeasible,           // nobody: no answer exists       3    409
  conflict,             // the user: another came first   1    412
  io,                   // disk, database, library        1    500
  internal              // us                             1    500
};

int exit_code(ErrorKind kind) noexcept;
int http_status(ErrorKind kind) noexcept;

/// Ends an operation. `where` says file and line ("rain.csv:128") or the thing concerned ("block
/// B3"); `message` is a catalogue key with arguments, whose sentence says what was found, what was
/// expected and what to do. what() is key and arguments for logs.
class Error : public std::runtime_error {
 public:
  Error(ErrorKind kind, std::string where, Message message);

  [[nodiscard]] ErrorKind kind() const noexcept { return kind_; }

  [[nodiscard]] const std::string& where() const noexcept { return where_; }

  [[nodiscard]] const Message& message() const noexcept { return message_; }

 private:
  ErrorKind kind_;
  std::string where_;
  Message message_;
};

enum class Severity {
  note,      ///< kept as it is; worth knowing
  changed,   ///< the value was repaired or reinterpreted; what was done is said
  set_aside  ///< not used; the user must act
};

/// One thing noticed in an input. Readers return all of them; they throw only when the file is no
/// use.
struct Finding {
  Severity severity = Severity::note;
  std::string where;  ///< "rain.csv:128" or "rain.csv:128, column rain"
  Message message;

  bool operator==(const Finding&) const = default;
};

using Findings = std::vector<Finding>;

}  // namespace wildling
