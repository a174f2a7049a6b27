// SPDX-License-Identifier: Apache-2.0
#include <openssl/evp.h>

#include <array>
#include <stdexcept>

#include "store/workspace_state.hpp"

namespace duskwire::store {

std::string sha256_hex(std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int size = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), &size, EVP_sha256(), nullptr) != 1) {
    throw std::runtime_error("SHA-256 is not available");
  }
  static constexpr char digits[] = "0123456789abcdef";
  std::string hex;
  hex.reserve(2 * size);
  for (unsigned int i = 0; i < size; ++i) {
    hex += digits[digest[i] >> 4];
    hex += digits[digest[i] & 15];
  }
  return hex;
}

std::string checksum_of(std::string_view owner, std::int64_t revision, std::string_view document) {
  std::string text = std::to_string(revision);
  // No id holds a blank: the parts cannot run into one another.
  text.append(" ").append(owner).append(" ").append(document);
  return sha256_hex(text);
}

}  // namespace duskwire::store
