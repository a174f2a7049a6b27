// SPDX-License-Identifier: Apache-2.0
// Back from a backup, and what can still be had from a damaged file. Neither changes the file that it reads; both make
// a new one.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "store/workspace.hpp"

namespace duskwire::store {

// Copies a backup to a file that does not exist yet, opens it there and checks all of it. On an error nothing is left
// at the new place.
[[nodiscard]] Result<Contents> restore(const std::string& backup, const std::string& target, Environment environment);

// Opens a copy that was just made and checks all of it: every document, picture and link of the chain.
[[nodiscard]] Result<Contents> checked_copy(const std::string& path, Environment environment);

struct Salvaged {
  std::int64_t jobs = 0;
  std::int64_t revisions = 0;
  std::int64_t pictures = 0;
  std::int64_t shop_catalogues = 0;
  std::vector<std::string> lost;     // one line for each thing that is not there or does not match its hash
  std::vector<std::string> doubted;  // saved, but something about it could not be checked
};

// Reads row by row what a damaged workspace still holds and puts what matches its hash into a new workspace at
// `output`, which must not exist yet. The log beside the file is taken in where it can be. An error where nothing
// could be read; then there is no new file.
[[nodiscard]] Result<Salvaged> salvage(const std::string& damaged, const std::string& output,
                                       const Environment& environment);

}  // namespace duskwire::store
