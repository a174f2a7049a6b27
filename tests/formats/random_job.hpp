// SPDX-License-Identifier: Apache-2.0
// Valid jobs made at random from a seed, by the shapes of the format: every field gets a value that its rule allows, at
// its edges more often than elsewhere.
#pragma once

#include <cstdint>

#include "job/job.hpp"

namespace duskwire::formats {

[[nodiscard]] job::Job random_job(std::uint32_t seed);

}  // namespace duskwire::formats
