#pragma once
/// Who may ask. The page is for the person in front of this machine: a request must name this
/// server as its host, come from the server's own page or from no page, and carry the cookie that
/// the one-time key was exchanged for.
#include <mutex>
#include <optional>
#include <string>

#include "desk/http.hpp"

namespace wildling::desk {

class Gatekeeper {
 public:
  /// @param key     what the first request must bring, once
  /// @param secret  what the cookie holds afterwards; a restarted server on the same port may know
  /// it
  Gatekeeper(int port, std::string key, std::string secret);

  /// Called before anything of the body is read. @return what to answer instead of the request's
  /// own answer; empty when it may pass
  [[nodiscard]] std::optional<Answer> stop(const Request& request);

  [[nodiscard]] std::string cookie_name() const { return cookie_; }

 private:
  [[nodiscard]] bool host_is_ours(const Request& request) const;
  [[nodiscard]] bool comes_from_us(const Request& request) const;
  [[nodiscard]] bool knows_secret(const Request& request) const;
  [[nodiscard]] std::optional<Answer> first_visit(const Request& request);

  std::string host_number_, host_name_, cookie_, secret_;
  std::mutex mutex_;
  std::string key_;  ///< empty once it was used
};

/// Compares without telling by the time it takes how much agrees.
bool same_secret(std::string_view a, std::string_view b);

/// The secret of this port, from the user's cache folder, where it is made when it is missing (file
/// mode 0600). Without a usable folder it lasts as long as the program.
std::string kept_secret(int port, const std::string& cache_folder, const std::string& fresh);

/// $XDG_CACHE_HOME/wildling or ~/.cache/wildling; empty when neither is known.
std::string cache_folder();

}  // namespace wildling::desk
