// SPDX-License-Identifier: Apache-2.0
#include "store/log_check.hpp"

#include <cstddef>
#include <cstdint>

namespace duskwire::store {
namespace {

constexpr std::size_t head_bytes = 32;
constexpr std::size_t frame_head_bytes = 24;

struct Sums {
  std::uint32_t first = 0;
  std::uint32_t second = 0;
  bool operator==(const Sums& other) const { return first == other.first && second == other.second; }
};

std::uint32_t number_at(std::string_view bytes, std::size_t at, bool big_endian = true) {
  std::uint32_t number = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto byte = static_cast<unsigned char>(bytes[at + (big_endian ? i : 3 - i)]);
    number = number << 8 | byte;
  }
  return number;
}

Sums add(Sums sums, std::string_view bytes, bool big_endian) {
  for (std::size_t i = 0; i + 8 <= bytes.size(); i += 8) {
    sums.first += number_at(bytes, i, big_endian) + sums.second;
    sums.second += number_at(bytes, i + 4, big_endian) + sums.first;
  }
  return sums;
}

// A disk writes its sectors whole. Salts that fit vouch for the number beside them only in the same one: where a
// frame's head lies across two, the number may be what was there before.
bool is_commit(std::string_view log, std::size_t frame_at) {
  constexpr std::size_t sector_bytes = 512;
  const bool vouched_for = (frame_at + 4) / sector_bytes == (frame_at + 15) / sector_bytes;
  return vouched_for && number_at(log, frame_at + 4) != 0;
}

}  // namespace

bool is_log_damaged(std::string_view log) {
  if (log.size() < head_bytes + frame_head_bytes) return false;
  const std::uint32_t magic = number_at(log, 0);
  const std::size_t page_bytes = number_at(log, 8);
  const bool big_endian = (magic & 1u) != 0;
  Sums sums = add({}, log.substr(0, 24), big_endian);
  const bool sound_head = (magic & ~1u) == 0x377f0682u && page_bytes >= 512 && page_bytes <= 65536 &&
                          sums == Sums{number_at(log, 24), number_at(log, 28)};
  if (!sound_head) return true;

  const std::size_t frame_bytes = frame_head_bytes + page_bytes;
  bool broken = false;
  bool commit_behind = false;
  for (std::size_t at = head_bytes; at + frame_bytes <= log.size(); at += frame_bytes) {
    const std::string_view frame = log.substr(at, frame_bytes);
    // Frames of an earlier round have other salts: the log is written anew from its start.
    const bool of_this_round = frame.substr(8, 8) == log.substr(16, 8);
    if (!broken) {
      const Sums next = add(add(sums, frame.substr(0, 8), big_endian), frame.substr(frame_head_bytes), big_endian);
      broken = !of_this_round || !(next == Sums{number_at(frame, 16), number_at(frame, 20)});
      sums = next;
    }
    if (!broken || !of_this_round) continue;
    if (commit_behind) return true;
    commit_behind = is_commit(log, at);
  }
  return false;
}

}  // namespace duskwire::store
