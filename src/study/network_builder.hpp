// SPDX-License-Identifier: Apache-2.0
// From a job to the electrical problem and back: the prepared network, and which index of it is which thing of the job.
// Whatever does not hang together is left out or bounded and told as a Trouble, so that every job can be solved.
// Internal to the room; the job must outlive what is built from it.
//
//   nodes         outputs (in the order of the job), then joints, then luminaires
//   loads         one per luminaire, index by index
//   segments      the cables that lead from somewhere to somewhere else, and the leads of luminaires that hang on a
//   joint transformers  index by index
#pragma once

#include <cstdint>
#include <memory>
#include <string_view>
#include <vector>

#include "electrical/solver.hpp"
#include "estimate/cable_length.hpp"
#include "job/job.hpp"
#include "study/corners.hpp"
#include "study/trouble.hpp"

namespace duskwire::study {

struct OutputRef {
  std::uint32_t transformer = 0;
  std::uint32_t output = 0;  // within it
};

// What a segment of the network is in the job.
struct Wire {
  std::uint32_t index = 0;  // of the cable, or of the luminaire whose lead it is
  bool is_lead = false;
  double length_m = 0;  // one way, slack included
};

struct Lamp {
  double window_min_v = 0;
  double window_max_v = 0;  // 0: none known
  double floor_v = 0;       // least it should see: the window's lower end, for an LED not below its regulation range
  double power_factor = 1;  // watts per VA
  bool counts = false;      // draws power when it is on
};

// Where each node gets its supply from: the shortest way along the cables. Loops have other ways too.
struct Supply {
  std::uint32_t output = none;          // network output
  std::uint32_t parent_segment = none;  // towards it; none at the output itself and where there is no supply
  double distance_m = 0;
};

struct Built {
  explicit Built(const job::Job& source) : job(&source), ends(source) {}

  const job::Job* job;
  estimate::EndIndex ends;
  std::vector<OutputRef> outputs;           // by network output, which is also its node
  std::vector<std::uint32_t> first_output;  // by transformer
  std::uint32_t joint_base = 0;             // node of the first joint
  std::uint32_t luminaire_base = 0;
  std::vector<Wire> wires;                      // by segment
  std::vector<std::uint32_t> segment_of_cable;  // none: left out
  std::vector<std::uint32_t> segment_of_lead;   // by luminaire; none: it hangs on no joint
  std::vector<Lamp> lamps;
  std::vector<Supply> supply;    // by node
  std::vector<bool> dead_short;  // by node: part of a network that a crossed loop shorts
  std::shared_ptr<const electrical::Prepared> prepared;
  electrical::Condition nominal;
  std::vector<Corner> corners;  // nominal first
  Corner weakest;
  Troubles troubles;  // of the description and of the shape

  // none for an id that is no output, joint or luminaire.
  [[nodiscard]] std::uint32_t node_of(std::string_view id) const;
  [[nodiscard]] std::uint32_t node_of_luminaire(std::uint32_t luminaire) const { return luminaire_base + luminaire; }
  [[nodiscard]] Spot spot_of_node(std::uint32_t node) const;
  [[nodiscard]] Spot spot_of_output(std::uint32_t output) const;
  // The end of a segment that is nearer to the supply.
  [[nodiscard]] std::uint32_t parent_node(std::uint32_t node) const;
};

[[nodiscard]] Built build(const job::Job& job);

}  // namespace duskwire::study
