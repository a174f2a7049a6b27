// SPDX-License-Identifier: Apache-2.0
// Files as one zip archive, in memory. The same files give the same bytes.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace duskwire::office {

struct ArchiveEntry {
  std::string name;  // with folders by "/", relative, none twice
  std::string bytes;
};

// `moment_utc_s`: what each file is dated, seconds of UTC since 1970.
[[nodiscard]] Result<std::string> zip_archive(const std::vector<ArchiveEntry>& entries, std::int64_t moment_utc_s);

}  // namespace duskwire::office
