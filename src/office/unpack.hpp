// SPDX-License-Identifier: Apache-2.0
// A zip archive from anywhere, taken apart in memory. Nothing of it is believed: one entry that could do harm and the
// whole is refused, with the entry named.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "office/archive.hpp"

namespace duskwire::office {

struct UnpackLimits {
  std::uint64_t entries = 2000;
  std::uint64_t unpacked_bytes = 512u << 20u;  // of all entries together
};

// The files in the order of the archive; folders are left out. Errors: invalid (no archive, damaged, an entry that is a
// link, is encrypted, leads outside, is named as a device, or as another but for upper and lower case), no_room (more
// than the limits).
[[nodiscard]] Result<std::vector<ArchiveEntry>> unpack(std::string_view archive, const UnpackLimits& limits = {});

// Whether a file of this name could be unpacked on any system: relative, of A-Z a-z 0-9 . _ - and "/", no part of it
// dots alone, ending in a dot, or a device.
[[nodiscard]] bool is_portable_name(std::string_view name);

}  // namespace duskwire::office
