// SPDX-License-Identifier: Apache-2.0
#include "estimate/joint_wires.hpp"

#include <algorithm>
#include <unordered_map>

namespace duskwire::estimate {
namespace {

std::optional<double> positive(double area_mm2) {
  return area_mm2 > 0 ? std::optional<double>(area_mm2) : std::nullopt;
}

std::optional<double> cable_area_mm2(const job::Job& job, const job::Cable& cable) {
  const job::CableItem* item = job::find_cable(job.catalogue, cable.item);
  return item ? positive(item->area_mm2) : std::nullopt;
}

std::optional<double> lead_area_mm2(const job::Job& job, const job::Luminaire& luminaire) {
  const job::LuminaireItem* item = job::find_luminaire(job.catalogue, luminaire.item);
  return item ? positive(item->lead_area_mm2) : std::nullopt;
}

// Calls visit(joint id, wire) for every wire of the job that lands somewhere by name.
template <class Visit>
void for_each_wire(const job::Job& job, Visit visit) {
  for (const job::Cable& cable : job.cables) {
    const std::optional<double> area_mm2 = cable_area_mm2(job, cable);
    visit(cable.from, JointWire{area_mm2, WireOwner::cable_from, cable.id});
    visit(cable.to, JointWire{area_mm2, WireOwner::cable_to, cable.id});
  }
  for (const job::Luminaire& luminaire : job.luminaires) {
    if (luminaire.joint.empty()) continue;
    visit(luminaire.joint, JointWire{lead_area_mm2(job, luminaire), WireOwner::luminaire_lead, luminaire.id});
  }
}

}  // namespace

std::vector<JointWire> joint_wires(const job::Job& job, std::string_view joint_id) {
  std::vector<JointWire> wires;
  for_each_wire(job, [&](const std::string& end, JointWire wire) {
    if (end == joint_id) wires.push_back(std::move(wire));
  });
  return wires;
}

std::vector<std::vector<JointWire>> all_joint_wires(const job::Job& job) {
  std::unordered_map<std::string_view, std::size_t> index_by_id;
  for (std::size_t i = 0; i < job.joints.size(); ++i) index_by_id.emplace(job.joints[i].id, i);
  std::vector<std::vector<JointWire>> wires(job.joints.size());
  for_each_wire(job, [&](const std::string& end, JointWire wire) {
    const auto found = index_by_id.find(end);
    if (found != index_by_id.end()) wires[found->second].push_back(std::move(wire));
  });
  return wires;
}

std::optional<job::JointKind> joint_kind(const std::vector<JointWire>& wires) {
  if (wires.size() < 2) return std::nullopt;
  if (wires.size() > 3) return job::JointKind::hub;
  if (wires.size() == 3) return job::JointKind::branch;
  const auto cable_ends = std::count_if(wires.begin(), wires.end(),
                                        [](const JointWire& wire) { return wire.owner != WireOwner::luminaire_lead; });
  return cable_ends == 1 ? job::JointKind::end_of_run : job::JointKind::in_line;
}

}  // namespace duskwire::estimate
