// SPDX-License-Identifier: Apache-2.0
// Least cost: what no order of reading undercuts, of small cases with more causes than their subsets can be counted of.
// Branch and bound over the parts into which readings divide the causes; computed from the outcomes alone, without the
// diagnosis. Shared by the tests and the bench.
#pragma once

#include "faulty/small_case.hpp"

namespace duskwire::faulty {

struct LeastCost {
  double minutes = 0;
  bool exact = true;  // false: the search was cut short, and the least may be higher
};

// Mean minutes until no reading tells the causes that are left apart. `most_parts`: how many parts may be searched
// through; what is left then counts with a bound of its own.
[[nodiscard]] LeastCost least_cost(const SmallCase& one, std::size_t most_parts);

}  // namespace duskwire::faulty
