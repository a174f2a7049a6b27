// SPDX-License-Identifier: Apache-2.0
// Worlds: every fault, or pair of faults, at every place where it may sit, with its chance given the readings.
// Internal to the room.
#pragma once

#include <vector>

#include "diagnosis/fit.hpp"

namespace duskwire::diagnosis {

struct World {
  std::vector<Fault> faults;          // empty: sound
  std::vector<std::uint32_t> places;  // of each fault
  double chance = 0;
  double log_sigma = 0;  // of the first fault's parameter
  std::vector<Piece> pieces;
};

// Most likely first; what has less than 1e-7 of the chance is left out. The chances sum up to 1.
[[nodiscard]] std::vector<World> worlds(const Model& model);

// A first fault with its fit, from which pairs are made.
struct Single {
  const Group* group = nullptr;
  std::vector<PlaceFit> fits;
  std::vector<Eigen::VectorXd> trials;  // what the numeric observations should have shown, by trial of its parameter
  double log_weight = 0;                // prior times evidence, all its places together
};

// The pairs that may explain more than the best single does, with their log weights in `chance`; see worlds.cpp.
[[nodiscard]] std::vector<World> pairs(const Model& model, const std::vector<Single>& singles);

}  // namespace duskwire::diagnosis
