// SPDX-License-Identifier: Apache-2.0
// Network: the electrical problem, free of any job. Two conductors everywhere: each node is a place with a point on
// conductor A and a point on conductor B. Plain arrays of SI numbers; ids and names stay with the caller, who refers to
// things by index. Read-only while solving, so that one network may be solved from several threads.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace duskwire::electrical {

enum class Conductor : std::uint8_t { a = 0, b = 1 };

// A point of the network: one conductor at one node.
struct Terminal {
  std::uint32_t node = 0;
  Conductor conductor = Conductor::a;
};

// A length of twin cable. Positive current runs from `from` to `to` in conductor A.
struct Segment {
  std::uint32_t from = 0;
  std::uint32_t to = 0;
  double copper_a_ohm = 0;   // conductor A of the cable itself, >= 0: scaled by Condition::copper_factor
  double copper_b_ohm = 0;   // conductor B
  double contact_a_ohm = 0;  // splices at both ends in conductor A, >= 0: never scaled
  double contact_b_ohm = 0;
  bool open_a = false;  // conductor A is broken
  bool open_b = false;
  bool crossed = false;  // A of `from` runs to B of `to` and the other way round
};

enum class LoadKind : std::uint8_t {
  regulated_led = 0,  // keeps its apparent power inside its regulation range
  filament = 1,       // power ~ V^1.6
  resistive = 2,
  constant_current_led = 3,  // keeps its current from regulation up
};

// One lamp. How current follows voltage, by kind: docs/algorithms/electrical.md and loads.hpp.
struct Load {
  Terminal plus;   // usually {node, a}
  Terminal minus;  // usually {node, b}
  LoadKind kind = LoadKind::regulated_led;
  double power_va = 0;          // apparent power at rated volts, >= 0; filament and resistive: watts = VA
  double rated_v = 12;          // where filament, resistive and constant current draw power_va, > 0
  double v_cut_off = 0;         // LED kinds: below it no current (it fades in over cut_off_band_v of loads.hpp)
  double v_regulation_min = 0;  // below it light falls; LED kinds: > 0; other kinds: where it is called dim
  double v_max = 0;             // above it the lamp is over its voltage; 0: no limit known
};

// One output of a transformer at one tap. It drives conductor A of `node` against B.
struct Output {
  std::uint32_t node = 0;
  std::uint32_t transformer = 0;
  double emf_v = 0;      // no-load volts of the chosen tap at nominal mains, >= 0
  double r_own_ohm = 0;  // series resistance of this winding and its tap, >= 0
  double limit_a = 0;    // protective device of this output; 0: none
};

struct Transformer {
  double r_shared_ohm = 0;  // drop in common with its siblings per ampere of their summed current, >= 0
  double rating_va = 0;     // of the whole; 0: not known
  double core_loss_w = 0;   // no-load loss at nominal mains
};

// A resistance between any two points: a short, a bridged tap, a half-made joint.
struct Bridge {
  Terminal p;
  Terminal q;
  double r_ohm = 0;  // >= 0
};

struct Network {
  std::uint32_t node_count = 0;
  std::vector<Segment> segments;
  std::vector<Load> loads;
  std::vector<Output> outputs;
  std::vector<Transformer> transformers;
  std::vector<Bridge> bridges;
};

// What may differ from the nominal case of a network without changing its shape.
struct Condition {
  double mains_factor = 1;   // scales every emf
  double copper_factor = 1;  // scales cable resistance: temperature and length tolerance
  double load_factor = 1;    // scales every load's power
  // Per load 0..1 (off ... full, in between dimmed); a load beyond its end is full, so that empty means all full.
  std::vector<float> load_level;
};

[[nodiscard]] inline double level_of(const Condition& condition, std::size_t load) {
  return load < condition.load_level.size() ? static_cast<double>(condition.load_level[load]) : 1.0;
}

}  // namespace duskwire::electrical
