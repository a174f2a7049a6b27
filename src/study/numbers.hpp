// SPDX-License-Identifier: Apache-2.0
// Numbers: everything that a report says in figures, as plain arrays by index of the network. No strings are made here:
// this is the part that must keep up with a moving hand, and what a cure is tried with. Internal to the room, and for
// the benchmark.
#pragma once

#include <cstdint>
#include <vector>

#include "electrical/solver.hpp"
#include "study/network_builder.hpp"

namespace duskwire::study {

// Volts are sizes: which conductor a lamp's wires are on makes no difference to it.
struct LampNumbers {
  double nominal_v = 0;
  double current_a = 0;  // nominal
  double light = 0;
  double low_v = 0;  // least over nominal and all corners
  double high_v = 0;
  std::uint32_t low_corner = 0;  // index into Built::corners
  std::uint32_t high_corner = 0;
  electrical::LampState state = electrical::LampState::off;      // nominal
  electrical::LampState low_state = electrical::LampState::off;  // at low_v
};

struct SegmentNumbers {
  double current_a = 0;  // the larger of both conductors, nominal
  double worst_current_a = 0;
  double drop_v = 0;  // both conductors
  double loss_w = 0;
};

struct OutputNumbers {
  double terminal_v = 0;  // nominal
  double current_a = 0;
  double worst_current_a = 0;
  double low_v = 0;  // least of its lamps over all corners; 0: no lamps
  double high_v = 0;
  std::uint32_t low_lamp = none;
  std::uint32_t high_lamp = none;
  std::uint32_t lamp_count = 0;
  double far_short_a = 0;  // least at any place of this output, in the weakest corner
  std::uint32_t far_short_node = none;
};

struct TransformerNumbers {
  double lamp_w = 0;  // rated, with dimming
  double lamp_va = 0;
  double load_va = 0;  // at the terminals, nominal
  double worst_load_va = 0;
  double copper_loss_w = 0;
  double cable_loss_w = 0;
  double lamp_input_w = 0;  // what its lamps take, nominal
};

struct CornerNumbers {
  double lowest_v = 0;
  double highest_v = 0;
  std::uint32_t lowest_lamp = none;
  std::uint32_t highest_lamp = none;
  bool converged = true;
};

// What to compute: a cure is often judged without the dearer parts.
struct Scope {
  bool corners = true;
  bool margins = true;
  bool shorts = true;
};

struct Numbers {
  std::vector<LampNumbers> lamps;
  std::vector<SegmentNumbers> segments;
  std::vector<double> node_v;  // nominal
  std::vector<OutputNumbers> outputs;
  std::vector<TransformerNumbers> transformers;
  std::vector<CornerNumbers> corners;  // as Built::corners
  electrical::Margin load_margin;
  electrical::Margin length_margin;
  electrical::ShortCircuit shorts;  // by node
};

[[nodiscard]] Numbers analyse(const Built& built, electrical::Workspace& workspace, const Scope& scope = {});
// With a workspace of its own.
[[nodiscard]] Numbers analyse(const Built& built, const Scope& scope = {});

}  // namespace duskwire::study
