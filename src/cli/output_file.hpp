// SPDX-License-Identifier: Apache-2.0
// Reading and writing files whole: nothing half-written is ever left under the name that was asked for.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "cli/parse.hpp"

namespace duskwire::cli {

// The whole of a file, or of standard input for "-". A job is some hundred kilobytes: the limit only keeps a wrong name
// (a video, a device) from filling memory.
inline constexpr std::size_t most_job_bytes = 64u << 20u;
[[nodiscard]] Result<std::string> read_file(const std::string& path, std::size_t most_bytes = most_job_bytes);

// Whether write_file will find a folder that takes the file and, unless it may replace it, no file there: asked before
// work that takes a while. The same errors.
[[nodiscard]] Result<bool> may_write(const std::string& path, bool replace);

// Writes beside `path` under a temporary name, flushes to the disk, then renames. Errors: conflict where the file
// exists and `replace` is false, unavailable where the disk refuses.
[[nodiscard]] Result<bool> write_file(const std::string& path, const std::string& text, bool replace);

// All of them or none: each is whole on the disk under a temporary name before the first gets its own. Makes the last
// folder of a path where it is missing. Errors as for write_file.
[[nodiscard]] Result<bool> write_files(const std::vector<WrittenFile>& files, bool replace);

}  // namespace duskwire::cli
