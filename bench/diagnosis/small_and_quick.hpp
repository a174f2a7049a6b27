// SPDX-License-Identifier: Apache-2.0
// The order of reading against the exact optimum of small cases, and what one diagnosis costs in processor time.
#pragma once

#include <string>

namespace duskwire::bench {

// 12 causes and 20 readings each, seeded, of gardens of 8 lamps of every shape.
void print_small_cases(int count);

// 12 to 60 causes of gardens of 30 to 60 lamps, every reading above ground: minutes against the entropy bound, and
// against the best order of reading that there is. `count` cases together, and a fifth of it by number of causes.
void print_many_causes(int count);

// Of a job of 60 lamps in each shape (or in one), with the lamps seen and four numbers read.
void print_time(const std::string& shape_only);

}  // namespace duskwire::bench
