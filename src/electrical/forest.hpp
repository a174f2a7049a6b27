// SPDX-License-Identifier: Apache-2.0
// Trees of a network as arrays: the radial half of the solver. Each tree hangs from a virtual ground; the first slots
// below it are the shared winding (if any) and the outputs, whose edges carry an emf. A slot has one parent edge and at
// most one load; further loads at a node hang below it over 0 ohm. Trees are packed into blocks of a few hundred slots
// in breadth-first order, so that a block stays in the first-level cache and neighbouring slots are independent.
// Internal to the room.
#pragma once

#include <cstdint>
#include <vector>

#include "electrical/careful.hpp"
#include "electrical/iteration.hpp"
#include "electrical/loads.hpp"
#include "electrical/network.hpp"
#include "electrical/partition.hpp"

namespace duskwire::electrical {

struct Forest {
  struct Block {
    std::uint32_t first = 0;     // slot of the virtual ground; tree slots follow
    std::uint32_t head_end = 0;  // slots before it may have an emf on their edge
    std::uint32_t last = 0;
    std::uint32_t special_first = 0;
    std::uint32_t special_last = 0;
    std::uint32_t most_loads_at_node = 1;
    bool convex = true;  // regulated LEDs alone, each faded in fully before its regulation range begins
  };
  std::vector<Block> blocks;
  std::vector<std::uint32_t> parent;  // absolute slot
  std::vector<double> copper_ohm;     // loop resistance of the parent edge
  std::vector<double> fixed_ohm;      // contacts, windings
  LoadBank bank;

  struct Head {  // an edge with an emf
    std::uint32_t slot = 0;
    std::uint32_t output = 0;
  };
  std::vector<Head> heads;

  std::vector<std::uint32_t> slot_of_node;    // nothing: dead, or in a mesh
  std::vector<std::int8_t> sign_of_node;      // -1: conductors swapped against the source
  std::vector<std::uint32_t> slot_of_load;    // nothing: no tree serves it
  std::vector<std::uint32_t> segment_child;   // slot whose parent edge the segment is; nothing: carries no current
  std::vector<std::uint32_t> slot_of_output;  // nothing: in a mesh
};

[[nodiscard]] Forest build_forest(const Network& network, const Partition& partition);

// Arrays of one solve, by slot.
struct ForestState {
  double loaded_copper_factor = -1;  // what r_ohm and s_va were made for; -1: nothing yet
  double loaded_load_factor = -1;
  std::vector<double> r_ohm;  // parent edge in force
  std::vector<double> emf_v;  // by slot, only heads are read
  std::vector<double> s_va;   // in force
  std::vector<double> special_s_va;
  std::vector<double> v;
  std::vector<double> slope_s;  // load lines
  std::vector<double> offset_a;
  std::vector<double> y_s;      // admittance of a slot and all below it
  std::vector<double> w_a;      // its current at 0 V
  std::vector<double> inverse;  // 1 / (1 + r y)
};

void resize(ForestState& state, const Forest& forest);
// Sets r, emf and powers in force.
void load_condition(ForestState& state, const Forest& forest, const Network& network, const Condition& condition);

// One block as the iteration sees it.
class ForestBlock {
 public:
  ForestBlock(const Forest& forest, const Forest::Block& block, ForestState& state)
      : forest_(forest), block_(block), state_(state) {}

  // What one lamp may miss: the misses of several lamps at one node add up.
  [[nodiscard]] double tolerance_a() const { return residual_tolerance_a / block_.most_loads_at_node; }
  void start_unloaded();
  LinearisationCheck linearise(Linearisation mode);
  // Volts for the present load lines. False if the linearised network has no sound answer.
  bool step();
  bool step_fully() { return step(); }
  [[nodiscard]] std::uint32_t dark_lamps() const { return count_dark(lamps(), state_.v.data()); }

  // The careful iteration, from the present volts: see careful.hpp.
  void begin_careful();
  double follow_laws(double stride);  // the residual of the lines held before
  void lay_flat();
  void save();
  void restore();
  [[nodiscard]] bool not_above_saved() const;
  // No steady state lies between this one and the saved volts: see lay_chords().
  [[nodiscard]] bool is_highest();

 private:
  const Forest& forest_;
  const Forest::Block& block_;
  ForestState& state_;
  // The pass from the leaves to the source; false if the linearised network does not stand.
  bool gather();
  [[nodiscard]] LampRange lamps() const;
  std::vector<double> at_v_;     // where careful lines touch, or chords end; by slot of the forest
  std::vector<double> saved_v_;  // only the slow path saves
};

}  // namespace duskwire::electrical
