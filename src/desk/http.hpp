#pragma once
/// What a request and an answer are in this room, so that the library that speaks HTTP stays in two
/// .cpp files and everything else can be tested without a socket.
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "base/error.hpp"

namespace wildling::desk {

/// A request that has been read whole. Views live as long as the request is answered.
struct Request {
  std::string method = {};  ///< "GET"
  std::string path = {};    ///< decoded, without the query: "/api/state"
  std::multimap<std::string, std::string> query = {};
  std::map<std::string, std::string> headers = {};  ///< lower-case names; of equal ones the first
  std::string_view body = {};

  /// "" when there is none
  [[nodiscard]] std::string header(const std::string& name) const;
  [[nodiscard]] std::optional<std::string> asked(const std::string& name) const;
  /// @throws Error{usage} naming what is missing
  [[nodiscard]] std::string needed(const std::string& name) const;
};

/// An answer; its body may be shared with a cache.
struct Answer {
  int status = 200;
  std::string type = "application/json";
  std::shared_ptr<const std::string> body = {};  ///< empty = no body
  std::multimap<std::string, std::string> headers = {};
};

Answer json_answer(const nlohmann::json& json, int status = 200);
Answer text_answer(std::shared_ptr<const std::string> text, const std::string& type);
/// {"kind", "where", "message"} with the status of the kind.
Answer problem_answer(const Error& error);
/// The same with a status that belongs to HTTP alone (403, 404, 405, 413, 415).
Answer refusal(int status, const std::string& where, const Message& message);

/// The request's body as a JSON object. @throws Error{usage} that says where it stops being JSON
nlohmann::json object_of(const Request& request);

/// Adds the ETag, and turns the answer into 304 when the asker has it already.
Answer tagged(Answer answer, const Request& request, const std::string& tag);

}  // namespace wildling::desk
