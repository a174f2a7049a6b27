// SPDX-License-Identifier: Apache-2.0
#include "study/crew_joints.hpp"

#include <algorithm>
#include <string_view>
#include <unordered_map>

#include "estimate/cable_length.hpp"
#include "estimate/stockroom.hpp"
#include "job/plan_ground.hpp"

namespace duskwire::study {
namespace {

class Lister {
 public:
  Lister(const job::Job& job, const job::Catalogue& stock, const estimate::Materials& materials, const Report& report)
      : job_(job), shelf_(job.catalogue, stock), materials_(materials), ends_(job), ground_(job.plan) {
    for (std::size_t c = 0; c < job.cables.size(); ++c) {
      cables_.emplace(job.cables[c].id, &job.cables[c]);
      if (c < report.cables.size()) cable_reports_.emplace(report.cables[c].id, &report.cables[c]);
    }
  }

  std::vector<CrewJoint> list() {
    const auto wires = estimate::all_joint_wires(job_);
    std::vector<CrewJoint> joints;
    for (std::size_t j = 0; j < job_.joints.size() && j < materials_.splices.size(); ++j) {
      joints.push_back(joint(job_.joints[j], materials_.splices[j], wires[j]));
    }
    return joints;
  }

 private:
  CrewJoint joint(const job::Joint& source, const estimate::Splice& splice,
                  const std::vector<estimate::JointWire>& wires) {
    CrewJoint made;
    made.id = source.id;
    made.name = source.name;
    made.kind = splice.kind;
    made.connector = splice.connector;
    if (const auto picked = shelf_.pick(&job::Catalogue::connectors, splice.connector)) {
      made.connector_title = picked.item->title;
      made.holds_both = picked.item->serves_both_conductors;
    }
    made.suggested = splice.suggested;
    made.fits = splice.fits;
    made.pieces = splice.pieces;
    made.pieces_per_conductor = splice.pieces_per_conductor;
    made.wires_per_conductor = splice.wires_per_conductor;
    made.spare_ports = splice.spare_ports;
    made.note = splice.note;
    made.buried = source.buried;
    if (source.position) made.ground = ground_.at(*source.position);
    made.offsets = joint_offsets(job_.plan, source);
    made.recorded = source.as_built && source.as_built->done;
    for (const estimate::JointWire& wire : wires) add_wire(made, wire);
    if (source.as_built && source.as_built->depth_m) made.depth_m = source.as_built->depth_m;
    std::stable_partition(made.wires.begin(), made.wires.end(),
                          [](const CrewWire& wire) { return wire.towards_supply; });
    return made;
  }

  void add_wire(CrewJoint& made, const estimate::JointWire& wire) {
    CrewWire row;
    row.owner = wire.owner;
    row.id = wire.id;
    row.area_mm2 = wire.area_mm2;
    if (wire.owner == estimate::WireOwner::luminaire_lead) {
      row.other = wire.id;
      made.wires.push_back(std::move(row));
      return;
    }
    const job::Cable& cable = *cables_.at(wire.id);
    const bool at_from = wire.owner == estimate::WireOwner::cable_from;
    row.other = at_from ? cable.to : cable.from;
    row.slack_m = at_from ? estimate::slack_at_from_m(job_, ends_, cable) : estimate::slack_at_to_m(job_, ends_, cable);
    if (cable.depth_m) made.depth_m = std::max(made.depth_m.value_or(0), *cable.depth_m);
    if (const auto found = cable_reports_.find(cable.id); found != cable_reports_.end()) {
      const CableReport& report = *found->second;
      made.nominal_v = at_from ? report.from_v : report.to_v;
      if (!report.output.empty()) made.output = report.output;
      row.towards_supply = at_from ? report.to_v > report.from_v : report.from_v > report.to_v;
    }
    made.wires.push_back(std::move(row));
  }

  const job::Job& job_;
  estimate::Stockroom shelf_;
  const estimate::Materials& materials_;
  estimate::EndIndex ends_;
  job::PlanGround ground_;
  std::unordered_map<std::string_view, const job::Cable*> cables_;
  std::unordered_map<std::string_view, const CableReport*> cable_reports_;
};

}  // namespace

std::vector<CrewJoint> crew_joints(const job::Job& job, const job::Catalogue& stock,
                                   const estimate::Materials& materials, const Report& report) {
  return Lister(job, stock, materials, report).list();
}

}  // namespace duskwire::study
