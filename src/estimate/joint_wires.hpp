// SPDX-License-Identifier: Apache-2.0
// What meets in a joint: one wire per conductor for each cable end and for each luminaire lead that lands there. The
// list is that of one conductor; the other has the same. Used by the list of materials and by the checks of connectors.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.hpp"

namespace duskwire::estimate {

enum class WireOwner : std::uint8_t { cable_from = 0, cable_to = 1, luminaire_lead = 2 };

struct JointWire {
  std::optional<double> area_mm2;  // absent: the item is not in the job's catalogue or gives no area
  WireOwner owner = WireOwner::cable_from;
  std::string id;  // of the cable or the luminaire
};

// Cable ends first, in the order of the job, then leads. A cable with both ends here gives two wires.
[[nodiscard]] std::vector<JointWire> joint_wires(const job::Job& job, std::string_view joint_id);

// The same for every joint at once, index by index as in job.joints: linear in the size of the job.
[[nodiscard]] std::vector<std::vector<JointWire>> all_joint_wires(const job::Job& job);

// What the wires make of the joint: one cable and leads up to two wires is the end of a run, two wires in line, three a
// branch, more a hub. Empty where fewer than two wires meet: then nothing is joined.
[[nodiscard]] std::optional<job::JointKind> joint_kind(const std::vector<JointWire>& wires);

}  // namespace duskwire::estimate
