#include "base/hash.hpp"

#include <array>

#include <fmt/format.h>
#include <openssl/evp.h>

#include "base/error.hpp"

namespace wildling {

std::string sha256_hex(std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned size = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), &size, EVP_sha256(), nullptr) != 1) {
    throw Error(ErrorKind::internal, "", say("base.hash_failed"));
  }
  std::string text;
  for (unsigned i = 0; i < size; ++i) text += fmt::format("{:02x}", digest[i]);
  return text;
}

}  // namespace wildling
