// SPDX-License-Identifier: Apache-2.0
// What the shape of a wiring tells before anything is solved: which output feeds each place and how far away it is,
// islands, outputs joined by cables, loops closed with their conductors crossed. Internal to the room.
#pragma once

#include "electrical/network.hpp"
#include "study/network_builder.hpp"

namespace duskwire::study {

// Fills supply, dead_short and the troubles of the shape. Precondition: the rest of `built` but `prepared` is complete.
void examine_shape(Built& built, const electrical::Network& network);

}  // namespace duskwire::study
