// SPDX-License-Identifier: Apache-2.0
// The joint list: each joint with its connector, every wire that lands in it, the ports that stay free, where it lies
// and what it will read. As estimate::Splice counts it; the drawings are made from this.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "estimate/joint_wires.hpp"
#include "estimate/materials.hpp"
#include "job/job.hpp"
#include "study/report.hpp"
#include "study/tape_offsets.hpp"

namespace duskwire::study {

// One cable end or lead: a wire on each conductor.
struct CrewWire {
  estimate::WireOwner owner = estimate::WireOwner::cable_from;
  std::string id;     // tag of the cable, or the luminaire whose lead it is
  std::string other;  // what is at its other end
  std::optional<double> area_mm2;
  double slack_m = 0;           // loose cable here
  bool towards_supply = false;  // the way to the transformer
};

struct CrewJoint {
  std::string id;
  std::string name;
  std::optional<job::JointKind> kind;  // as the wires make it
  std::string connector;               // item; empty: none chosen and none fits
  std::string connector_title;
  bool suggested = false;  // the job names none
  bool fits = false;
  bool holds_both = false;  // one piece holds both conductors apart (a hub box)
  std::uint32_t pieces = 0;
  std::uint32_t pieces_per_conductor = 0;
  std::uint32_t wires_per_conductor = 0;
  std::uint32_t spare_ports = 0;  // per conductor
  std::vector<CrewWire> wires;    // supply first
  bool buried = true;
  std::optional<job::GroundKind> ground;
  std::optional<double> depth_m;  // recorded, else the deepest cable that lands here
  std::optional<TapeOffsets> offsets;
  bool recorded = false;  // the as-built record is marked done
  double nominal_v = 0;
  std::string output;  // empty: nothing feeds it
  std::string note;    // of the list of materials
};

// In the order of the job's joints, index by index as materials.splices.
[[nodiscard]] std::vector<CrewJoint> crew_joints(const job::Job& job, const job::Catalogue& stock,
                                                 const estimate::Materials& materials, const Report& report);

}  // namespace duskwire::study
