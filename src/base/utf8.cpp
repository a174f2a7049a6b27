// SPDX-License-Identifier: Apache-2.0
#include "base/utf8.hpp"

#include <cstdint>

namespace duskwire {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";

struct Lead {
  std::size_t bytes = 0;
  std::uint8_t second_min = 0x80;
  std::uint8_t second_max = 0xBF;
};

Lead lead_of(std::uint8_t byte) {
  if (byte < 0x80) return {1};
  if (byte >= 0xC2 && byte <= 0xDF) return {2};
  if (byte == 0xE0) return {3, 0xA0, 0xBF};
  if (byte == 0xED) return {3, 0x80, 0x9F};
  if (byte >= 0xE1 && byte <= 0xEF) return {3};
  if (byte == 0xF0) return {4, 0x90, 0xBF};
  if (byte >= 0xF1 && byte <= 0xF3) return {4};
  if (byte == 0xF4) return {4, 0x80, 0x8F};
  return {};
}

}  // namespace

std::size_t character_bytes(std::string_view text) {
  if (text.empty()) return 0;
  const Lead lead = lead_of(static_cast<std::uint8_t>(text[0]));
  if (lead.bytes == 0 || text.size() < lead.bytes) return 0;
  for (std::size_t i = 1; i < lead.bytes; ++i) {
    const auto byte = static_cast<std::uint8_t>(text[i]);
    const std::uint8_t min = i == 1 ? lead.second_min : 0x80;
    const std::uint8_t max = i == 1 ? lead.second_max : 0xBF;
    if (byte < min || byte > max) return 0;
  }
  return lead.bytes;
}

std::size_t count_chars(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); ++count) {
    const std::size_t bytes = character_bytes(text.substr(i));
    i += bytes == 0 ? 1 : bytes;
  }
  return count;
}

std::string well_formed(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t bytes = character_bytes(text.substr(i));
    out += bytes == 0 ? replacement : text.substr(i, bytes);
    i += bytes == 0 ? 1 : bytes;
  }
  return out;
}

std::string shortened(std::string_view text, std::size_t max_chars) {
  std::string out;
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); ++count) {
    if (count == max_chars) return out + "...";
    const std::size_t bytes = character_bytes(text.substr(i));
    const bool control = static_cast<std::uint8_t>(text[i]) < 0x20 || text[i] == 0x7F;
    if (bytes == 0) {
      out += replacement;
    } else {
      out += control ? std::string_view(" ") : text.substr(i, bytes);
    }
    i += bytes == 0 ? 1 : bytes;
  }
  return out;
}

}  // namespace duskwire
