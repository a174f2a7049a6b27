// SPDX-License-Identifier: Apache-2.0
// Seeded random networks for the tests that compare the solver with something else: chains, tees, hubs and loops with
// the faults that service work is made of. The same seed gives the same network on every platform.
#pragma once

#include <cstdint>
#include <string>

#include "electrical/network.hpp"

namespace duskwire::electrical::testing {

// A small generator of our own (splitmix64): the distributions of the standard library differ between libraries.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next();
  double uniform(double low, double high);
  double log_uniform(double low, double high);
  std::uint32_t below(std::uint32_t count);  // 0 ... count - 1
  bool chance(double probability);

 private:
  std::uint64_t state_;
};

// What a random network may contain beside trees of cable with lamps.
struct Mix {
  std::uint32_t nodes_per_output = 24;  // at most
  std::uint32_t transformers = 3;       // at most
  bool loops = true;                    // extra cables that close a ring
  bool opens = true;                    // one conductor broken
  bool bridges = true;                  // shorts and bridged taps, 0.01 ... 50 ohm
  bool crossed = true;                  // a cable joined the wrong way round
  bool ties = true;                     // a cable between the trees of two outputs
  bool zero_ohm = false;                // cables and bridges of no resistance at all
  bool islands = true;                  // a cable with a lamp and no supply
  bool only_regulated = false;          // every lamp a regulated LED
  double power_scale_low = 0.2;         // all powers are scaled by a factor drawn between these two
  double power_scale_high = 1.6;
};

// Which of those a network got: so that a test can prove that it met them.
struct Traits {
  bool loop = false;
  bool open_in_tree = false;
  bool open_in_loop = false;
  bool bridge = false;
  bool crossed = false;
  bool tie = false;
  bool hub = false;
  bool shared_resistance = false;  // two outputs coupled by it
  bool several_transformers = false;
  bool reversed_lamp = false;
  bool lamp_across_nodes = false;
  bool dimmed = false;
  bool island = false;
};

struct RandomCase {
  std::uint64_t seed = 0;
  Network network;
  Condition condition;
  Traits traits;
};

[[nodiscard]] RandomCase random_case(std::uint64_t seed, const Mix& mix = {});

// Deterministic shuffle of the loads (and of their levels with them). order[new index] = old index.
[[nodiscard]] RandomCase shuffled_loads(const RandomCase& original, std::vector<std::uint32_t>* order);

}  // namespace duskwire::electrical::testing
