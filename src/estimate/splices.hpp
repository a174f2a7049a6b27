// SPDX-License-Identifier: Apache-2.0
// Connectors: what each joint takes, chosen where the job does not, counted per conductor.
#pragma once

#include "estimate/line_book.hpp"
#include "estimate/materials.hpp"

namespace duskwire::estimate {

// Fills splices of `materials` and adds the lines of connectors to the book.
void count_connectors(const job::Job& job, const Stockroom& stockroom, LineBook& book, Materials& materials);

}  // namespace duskwire::estimate
