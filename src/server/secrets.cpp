// SPDX-License-Identifier: Apache-2.0
#include "server/secrets.hpp"

#include <openssl/crypto.h>
#include <sys/random.h>

#include <array>
#include <stdexcept>

namespace duskwire::server {
namespace {

void fill_with_random(void* memory, std::size_t bytes) {
  if (::getrandom(memory, bytes, 0) != static_cast<ssize_t>(bytes)) {
    throw std::runtime_error("the operating system gives no random numbers");
  }
}

}  // namespace

std::string random_secret() {
  std::array<unsigned char, 32> random{};
  fill_with_random(random.data(), random.size());
  constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  std::string text;
  unsigned held = 0;
  int bits = 0;
  for (const unsigned char byte : random) {
    held = (held << 8u) | byte;
    for (bits += 8; bits >= 6; bits -= 6) text += letters[(held >> static_cast<unsigned>(bits - 6)) & 63u];
  }
  text += letters[(held << static_cast<unsigned>(6 - bits)) & 63u];
  return text;
}

std::uint32_t random_number() {
  std::uint32_t number = 0;
  fill_with_random(&number, sizeof number);
  return number;
}

bool equal_in_constant_time(std::string_view p, std::string_view q) {
  return p.size() == q.size() && CRYPTO_memcmp(p.data(), q.data(), p.size()) == 0;
}

}  // namespace duskwire::server
