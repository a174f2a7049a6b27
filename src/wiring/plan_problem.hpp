// SPDX-License-Identifier: Apache-2.0
// The planner's problem and its answer, free of any job: lamps and transformer places on a graph of ways, goods with
// what they cost put in, the conditions under which every lamp must stay in its window. Money is in one unit
// throughout, resistances are at 20 C, lengths one way. Method: docs/algorithms/planner.md.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "electrical/network.hpp"
#include "wiring/ground_graph.hpp"

namespace duskwire::wiring {

inline constexpr std::uint32_t none = 0xffffffffu;

struct CableType {       // the list runs from thin to thick
  double ohm_per_m = 0;  // of one conductor
  double cost_per_m = 0;
  double ampacity_a = 0;
  std::uint32_t size = 0;  // rank among the wire sizes of JointCosts
};

struct PlanLamp {
  std::uint32_t node = 0;
  electrical::Load load;    // terminals are not read; power_va in force, dimming and reserve included
  double floor_v = 0;       // least that it should see
  double window_max_v = 0;  // 0: none known
  double lead_ohm = 0;      // loop resistance of its own lead
  bool has_lead = true;
  double rise_m = 0;  // more cable where a cable ends in it, up a tree or a wall
  std::uint32_t lead_size = 0;
  bool own_output = false;
};

// A transformer that can be had.
struct UnitType {
  double rating_va = 0;  // what may be drawn of it, headroom taken off
  std::uint32_t outputs = 1;
  double limit_a = 25;         // of each output as built
  std::vector<double> taps_v;  // ascending
  double r_own_ohm = 0;
  double r_shared_ohm = 0;
  double cost = 0;
};

struct Place {
  std::uint32_t node = 0;
  std::vector<std::uint32_t> types;  // that may hang there, cheapest first
  bool kept = false;                 // exactly one unit of the one type hangs there whatever it feeds
  double unit_cost = 0;              // of each unit beside its own: clock, post
};

// What a joint of so many wires per conductor costs, by the thinnest and the thickest that meet.
class JointCosts {
 public:
  struct Entry {
    double cost = 0;
    double contact_ohm = 0;  // of one wire, one conductor
    bool possible = false;
  };
  static constexpr std::uint32_t most_wires = 16;
  explicit JointCosts(std::uint32_t sizes = 0) : sizes_(sizes), entries_((most_wires + 1) * sizes * sizes) {}
  [[nodiscard]] Entry& at(std::uint32_t wires, std::uint32_t thin, std::uint32_t thick) {
    return entries_[(wires * sizes_ + thin) * sizes_ + thick];
  }
  [[nodiscard]] const Entry& of(std::uint32_t wires, std::uint32_t thin, std::uint32_t thick) const {
    static const Entry impossible;
    return wires > most_wires ? impossible : entries_[(wires * sizes_ + thin) * sizes_ + thick];
  }

 private:
  std::uint32_t sizes_ = 0;
  std::vector<Entry> entries_;
};

// Worst cases: mains and copper as factors.
struct Extremes {
  double low_mains = 0.95;  // all lamps on, mains low, copper hot, runs long: least volts, weakest short
  double low_copper = 1.13;
  double high_mains = 1.05;  // one lamp on, mains high: most volts
};

// Cables that stay as they are, as a tree. Its first end hangs from whatever the plan feeds it with, or is an output.
struct KeptCable {
  std::uint32_t from = none;         // kept cable whose end it begins at; none: begins at the tree's own beginning
  std::vector<std::uint32_t> edges;  // of the ground graph, from its beginning to its end
  std::uint32_t type = 0;            // of the list of cables
  double cut_m = 0;                  // one way, slack included
  std::uint32_t lamp = none;         // it ends in that lamp
};
struct KeptTree {
  std::uint32_t node = 0;         // where it begins
  std::uint32_t place = none;     // begins at an output there; none: is fed by a cable to `node`
  std::vector<KeptCable> cables;  // each after the one it begins at
};

struct PlanProblem {
  GroundGraph ground;
  std::vector<PlanLamp> lamps;
  std::vector<Place> places;
  std::vector<CableType> cables;
  std::vector<UnitType> units;
  std::vector<double> devices_a;  // protective devices that may be fitted, ascending
  JointCosts joints;
  Extremes extremes;
  std::vector<KeptTree> kept;

  double output_share = 0.8;  // of a device's amperes that may be drawn
  double slack_luminaire_m = 0.6;
  double slack_splice_m = 0.3;
  double slack_output_m = 1.0;
  double cable_end_cost = 0;                          // tag at an output or a joint
  double joint_away_cost = 0;                         // preference: what a joint away from every fixture counts more
  double safety_v = 0.02;                             // kept from every window against what the search leaves out
  std::uint32_t most_wires = JointCosts::most_wires;  // per conductor in one joint
  bool splice_every_lead = false;
  std::uint32_t most_cable_types = 0;  // 0: no cap
};

// Where a cable of the answer begins or ends.
struct PlanCable {
  std::uint32_t from = none;  // cable at whose end it begins; none: at the output
  std::uint32_t output = 0;
  std::vector<std::uint32_t> nodes;  // of the ground graph, beginning to end
  std::vector<std::uint32_t> edges;
  std::uint32_t type = 0;
  bool ends_in_lamp = false;         // no joint: the cable ends in the one lamp of its end
  std::vector<std::uint32_t> lamps;  // at its end
  std::uint32_t kept_id = none;      // which of the kept cables it is, counted tree by tree
};

struct PlanOutput {
  std::uint32_t place = 0;
  std::uint32_t unit = 0;  // of the answer's units
  double tap_v = 0;
  double device_a = 0;
  double current_a = 0;  // worst
};

struct PlanUnit {
  std::uint32_t place = 0;
  std::uint32_t type = 0;
};

struct PlanAnswer {
  std::vector<PlanUnit> units;
  std::vector<PlanOutput> outputs;
  std::vector<PlanCable> cables;        // each after the one it begins at
  std::vector<std::uint32_t> left_out;  // lamps for which no sound way was found
  double cost = 0;
  double trench_m = 0;
  double cable_m = 0;
  std::uint32_t joints = 0;
};

}  // namespace duskwire::wiring
