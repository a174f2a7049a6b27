// SPDX-License-Identifier: Apache-2.0
// Jobs with offers for the tests of the price, and the rules on deposits that they name.
#pragma once

#include <cstdint>

#include "estimate/price.hpp"
#include "job/job.hpp"

namespace duskwire::estimate::tests {

inline constexpr std::uint32_t random_jobs = 1000;

// "10 % or 1000.00, whichever is lower" and "a third".
[[nodiscard]] PriceOptions with_rules();

// A random job with a seeded offer: rates, margins and tax at random, extras, and options of every kind. Each light
// belongs to one phase at most.
[[nodiscard]] job::Job random_offered_job(std::uint32_t seed);

}  // namespace duskwire::estimate::tests
