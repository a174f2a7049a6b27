// SPDX-License-Identifier: Apache-2.0
// Looks at SQLite's write-ahead log before SQLite does. SQLite takes a log up to its first bad frame: right for the end
// that a power cut tore, wrong for a log damaged in its middle, whose later, answered commits would be lost in silence.
// Layout and checksum as in "WAL-mode File Format", sqlite.org/walformat.html.
#pragma once

#include <string_view>

namespace duskwire::store {

// True where frames of commits lie behind a frame that is broken, or frames behind a broken head. A torn end is sound:
// the head is synced before the first frame, each commit before the next begins.
[[nodiscard]] bool is_log_damaged(std::string_view log);

}  // namespace duskwire::store
