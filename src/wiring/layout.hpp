// SPDX-License-Identifier: Apache-2.0
// A wiring while it is searched for: trees of cables from outputs over spots to lamps, each cable along a way on the
// ground graph, and how many cables lie in each trench. Structure alone; copper.hpp sizes it, units.hpp feeds it.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "wiring/plan_problem.hpp"

namespace duskwire::wiring {

struct Way {
  std::vector<std::uint32_t> nodes;  // one more than edges
  std::vector<std::uint32_t> edges;
  double length_m = 0;
};
using WayPtr = std::shared_ptr<const Way>;

[[nodiscard]] WayPtr make_way(const GroundGraph& ground, std::uint32_t from, std::vector<std::uint32_t> edges);

// Where cables end: a joint, or the lamp in which one cable ends.
struct Spot {
  std::uint32_t node = 0;
  std::uint32_t in = none;         // cable
  std::uint32_t first_out = none;  // cables, chained by Lay::next
  std::uint32_t outs = 0;
  std::uint32_t first_lamp = none;  // chained by Layout::next_lamp
  std::uint32_t lamps = 0;
  bool joint = false;   // even where one lamp alone hangs on it: a kept cable ends at a joint
  bool closed = false;  // a kept cable ends in its lamp: nothing may be joined here
  bool alive = false;
};

// A cable as it is laid.
struct Lay {
  std::uint32_t from = none;  // spot; none: an output
  std::uint32_t to = none;    // spot
  std::uint32_t output = none;
  std::uint32_t next = none;  // sibling
  std::uint32_t type = 0;
  WayPtr way;
  double kept_cut_m = 0;  // of a kept cable: its own length
  bool kept = false;
  std::uint32_t kept_id = none;  // among all kept cables, tree by tree
  bool alive = false;
};

// What sizing found for an output.
struct Sized {
  double cost = 0;       // cables, ends, joints
  double current_a = 0;  // worst
  double tap_v = 0;
  double device_a = 0;
  double load_va = 0;
  std::uint32_t unit = 0;  // of its place
  double siblings_a = 0;   // of the other outputs of that unit
};

struct Output : Sized {
  std::uint32_t place = 0;
  std::uint32_t first_out = none;  // cables, chained
  std::uint32_t outs = 0;
  std::uint32_t lamps = 0;
  bool own = false;   // for one lamp alone
  bool kept = false;  // a kept tree begins here
  bool alive = false;
};

class Layout {
 public:
  explicit Layout(const PlanProblem& problem);  // which outlives it
  // The same layout of a problem that differs in numbers only.
  void rebind(const PlanProblem& problem) { problem_ = &problem; }

  std::vector<Spot> spots;
  std::vector<Lay> lays;
  std::vector<Output> outputs;
  std::vector<std::uint32_t> spot_of_lamp;  // none: not placed
  std::vector<std::uint32_t> next_lamp;
  std::vector<std::uint16_t> laid;  // by edge: cables in it
  double trench_cost = 0;
  double trench_m = 0;

  // Returns a dead one's index where there is one.
  std::uint32_t new_output(std::uint32_t place);
  // A cable from a spot (or an output where `from` is none) to a new spot at the end of the way.
  std::uint32_t lay(std::uint32_t from, std::uint32_t output, WayPtr way);
  // Takes up the cable that leads to a spot from which none leads on, and the spot; and the output it left bare.
  void take_up(std::uint32_t spot);
  // A joint in the middle of a cable: at the node of that index of its way. The cable keeps its beginning; a new one
  // leads on.
  std::uint32_t split(std::uint32_t cable, std::size_t at);
  // The same ends, another way.
  void reroute(std::uint32_t cable, WayPtr way);
  void put(std::uint32_t lamp, std::uint32_t spot);
  void lift(std::uint32_t lamp);  // leaves the spot
  // After something left a spot: takes it up where nothing needs it, or joins its two cables, and so on upwards.
  void tidy(std::uint32_t spot);
  void take_out(std::uint32_t lamp);  // lift and tidy

  [[nodiscard]] std::uint32_t output_of(std::uint32_t spot) const { return lays[spots[spot].in].output; }
  // Wires per conductor that meet; 0 where a cable just ends in a lamp or nothing is joined.
  [[nodiscard]] std::uint32_t wires_at(const Spot& spot) const;
  // The one lamp in which the cable to this spot ends; none: it is a joint.
  [[nodiscard]] std::uint32_t lamp_end(const Spot& spot) const;

 private:
  std::uint32_t new_spot(std::uint32_t node);
  std::uint32_t new_lay();
  void chain(std::uint32_t lay);
  void unchain(std::uint32_t lay);
  void dig(const Way& way);
  void fill(const Way& way);
  void recount(std::uint32_t output, int lamps) { outputs[output].lamps += static_cast<std::uint32_t>(lamps); }

  const PlanProblem* problem_;
  std::vector<std::uint32_t> free_spots_, free_lays_;
};

}  // namespace duskwire::wiring
