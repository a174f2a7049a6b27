// SPDX-License-Identifier: Apache-2.0
// Jobs with offers for the tests of the price, and the rules on deposits that they name.
#pragma once

#include <cstdint>
#include <vector>

#include "estimate/price.hpp"
#include "job/job.hpp"

namespace duskwire::estimate::tests {

inline constexpr std::uint32_t random_jobs = 1000;

// "10 % or 1000.00, whichever is lower" and "a third".
[[nodiscard]] PriceOptions with_rules();

// A random job with a seeded offer: rates, margins and tax at random, extras, and options of every kind. Each light
// belongs to one phase at most.
[[nodiscard]] job::Job random_offered_job(std::uint32_t seed);

// The prices of random_offered_job(0) to random_offered_job(random_jobs - 1) with with_rules(), made once for all
// tests: to price a thousand jobs under the sanitizers takes longer than to look at the prices.
[[nodiscard]] const std::vector<Price>& prices_of_random_jobs();

}  // namespace duskwire::estimate::tests
