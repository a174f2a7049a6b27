// SPDX-License-Identifier: Apache-2.0
#include "server/head_end.hpp"

namespace duskwire::server {

HeadEnd find_head_end(std::string_view bytes) {
  constexpr HeadEnd broken{HeadEnd::State::broken, 0};
  std::size_t begin = 0;
  while (true) {
    const std::size_t feed = bytes.find('\n', begin);
    const std::string_view so_far = bytes.substr(begin, feed == std::string_view::npos ? feed : feed - begin);
    const bool first_line = begin == 0;
    if (!first_line && !so_far.empty() && (so_far.front() == ' ' || so_far.front() == '\t')) return broken;
    if (so_far.find('\0') != std::string_view::npos) return broken;
    const std::size_t carriage_return = so_far.find('\r');
    if (carriage_return != std::string_view::npos && carriage_return + 1 != so_far.size()) return broken;
    if (feed == std::string_view::npos) return {};
    if (carriage_return == std::string_view::npos) return broken;
    if (so_far.size() == 1) return first_line ? broken : HeadEnd{HeadEnd::State::whole, feed + 1};
    begin = feed + 1;
  }
}

}  // namespace duskwire::server
