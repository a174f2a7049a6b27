// SPDX-License-Identifier: Apache-2.0
// Cable by type: what is cut, from which reel, and what is bought for it.
#pragma once

#include "estimate/cable_length.hpp"
#include "estimate/line_book.hpp"
#include "estimate/materials.hpp"

namespace duskwire::estimate {

// Up to the next whole step, sums of decimals forgiven their rounding. No step: as it is.
[[nodiscard]] double rounded_up_m(double length_m, double step_m);

// Fills cables, reels and cuts of `materials` and adds the lines of cable to the book.
void count_cables(const job::Job& job, const EndIndex& ends, const Stockroom& stockroom,
                  const MaterialsOptions& options, LineBook& book, Materials& materials);

}  // namespace duskwire::estimate
