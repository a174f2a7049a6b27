// SPDX-License-Identifier: Apache-2.0
// The table of embedded files; the build makes its source from data/ (cmake/embed.cmake).
#pragma once

#include <cstddef>
#include <string_view>

namespace duskwire::formats {

struct EmbeddedFile {
  std::string_view name;  // below data/: "rulesets/us.json"
  std::string_view text;
};

extern const EmbeddedFile embedded_files[];
extern const std::size_t embedded_file_count;

}  // namespace duskwire::formats
