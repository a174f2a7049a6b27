// SPDX-License-Identifier: Apache-2.0
// A trouble put into words, with where its limit comes from. Internal to the room.
#pragma once

#include "study/finding.hpp"
#include "study/network_builder.hpp"
#include "study/numbers.hpp"
#include "study/trouble.hpp"

namespace duskwire::study {

[[nodiscard]] Finding to_finding(const Built& built, const Numbers& numbers, const Trouble& trouble);

}  // namespace duskwire::study
