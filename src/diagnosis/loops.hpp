// SPDX-License-Identifier: Apache-2.0
// Which cables of a network lie on a loop.
#pragma once

#include <vector>

#include "electrical/network.hpp"

namespace duskwire::diagnosis {

// By segment: true where a fault need not darken a lamp, since current has another way.
[[nodiscard]] std::vector<bool> segments_on_loops(const electrical::Network& network);

}  // namespace duskwire::diagnosis
