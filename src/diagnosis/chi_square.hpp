// SPDX-License-Identifier: Apache-2.0
// How often a chi-square variable exceeds a value.
#pragma once

namespace duskwire::diagnosis {

// Closed sums for whole degrees of freedom (Abramowitz and Stegun 26.4.4 and 26.4.5; from memory).
[[nodiscard]] double chance_above(double value, int degrees);

}  // namespace duskwire::diagnosis
