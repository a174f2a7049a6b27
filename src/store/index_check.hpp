// SPDX-License-Identifier: Apache-2.0
// Whether every index says what its table says: a damaged one hides rows, or gives an earlier revision for the last.
// Together with SQLite's quick_check this finds what its integrity_check finds. That one looks up each row in each
// index, page by page all over the file; this one reads each table and each index once, in order.
#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

namespace duskwire::store {

// False where an index is out of order, holds a key twice that must be there once, or holds other keys and rows than
// its table. The tables must be ours: their names are taken as they are. Throws where the disk fails.
[[nodiscard]] bool indexes_agree(SQLite::Database& database);

}  // namespace duskwire::store
