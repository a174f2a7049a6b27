// SPDX-License-Identifier: Apache-2.0
// Where the head of a request ends in the bytes that have come so far. Stricter than the library's parser: two programs
// that read a head differently are how one request is smuggled inside another.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace duskwire::server {

struct HeadEnd {
  enum class State : std::uint8_t { more = 0, whole = 1, broken = 2 };
  State state = State::more;
  std::size_t bytes = 0;  // of the whole head, its empty line included
};

// Broken: a line that ends in a line feed alone or holds a carriage return or a zero byte within, a line that continues
// the one before it (RFC 9112, 5.2: obs-fold, to be refused), nothing before the empty line.
[[nodiscard]] HeadEnd find_head_end(std::string_view bytes);

}  // namespace duskwire::server
