// SPDX-License-Identifier: Apache-2.0
// A shop's own catalogue over the stock, item by item.
#pragma once

#include <string>
#include <vector>

#include "base/problem.hpp"
#include "job/catalogue.hpp"

namespace duskwire::job {

struct MergedCatalogue {
  Catalogue catalogue;
  Problems problems;  // pointers are into the shop's file
};

// Items of `remove` go, items of `shop` replace the stock's of the same id at its place, new ones follow at the end.
// Prices cannot be mixed: where the currencies differ, a warning says so and what the stock prices is priced 0.
[[nodiscard]] MergedCatalogue merge_catalogue(const Catalogue& stock, const Catalogue& shop,
                                              const std::vector<std::string>& remove = {});

}  // namespace duskwire::job
