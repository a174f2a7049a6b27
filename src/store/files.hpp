// SPDX-License-Identifier: Apache-2.0
// A workspace's file and what SQLite keeps beside it, as bytes. Internal to the room.
#pragma once

#include <string>

namespace duskwire::store {

// Makes the file for its owner alone where there is none (SQLite gives its helpers the same rights), and its entry in
// the folder lasting. False where it cannot be opened for writing. A link is not followed.
[[nodiscard]] bool make_private(const std::string& path);

// Empty where there is none.
[[nodiscard]] std::string read_bytes(const std::string& path);
// For its owner alone, in place of what was there; false where not all could be written.
[[nodiscard]] bool write_bytes(const std::string& path, const std::string& bytes);

// From the cache to the disk; false where that failed.
[[nodiscard]] bool sync_file(const std::string& path);
// The file gets its lasting name at once, whole; false where that failed, or where there is something of that name.
[[nodiscard]] bool put_in_place(const std::string& path, const std::string& name);

// The file, its log and its journal.
void remove_workspace(const std::string& path);

}  // namespace duskwire::store
