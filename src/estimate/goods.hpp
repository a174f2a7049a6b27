// SPDX-License-Identifier: Apache-2.0
// What is bought by the piece for its own sake: luminaires with their mounts, transformers, controls.
#pragma once

#include "estimate/line_book.hpp"

namespace duskwire::estimate {

void count_goods(const job::Job& job, const Stockroom& stockroom, LineBook& book);

}  // namespace duskwire::estimate
