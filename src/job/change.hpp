// SPDX-License-Identifier: Apache-2.0
// Change: one small edit of a job, as data. Computed cures, the planner and the page all speak in lists of changes, so
// that each can be shown, tried on a copy and undone.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "job/job.hpp"

namespace duskwire::job {

// Numbers are part of the stored and sent form: never reuse one.
enum class ChangeKind : std::uint8_t {
  set_tap = 0,               // target: output id; number: tap_v
  set_cable_item = 1,        // target: cable id; text: cable item id
  move_cable_end = 2,        // target: cable id; text: "from" or "to"; other: new end's id
  set_transformer_item = 3,  // target: transformer id; text: transformer item id (outputs kept, added as needed)
  set_connector = 4,         // target: joint id; text: connector item id
  set_connector_count = 5,   // target: joint id; number: pieces
  set_depth = 6,             // target: cable id; number: depth_m
  set_slack = 7,             // target: cable id; text: "from" or "to"; number: slack_m
  set_luminaire_item = 8,    // target: luminaire id; text: luminaire item id
  move_luminaire_joint = 9,  // target: luminaire id; other: joint id
  add_cable = 10,  // target: new cable id; text: item id; other: "from to" ids separated by a space; number: length_m
  remove_cable = 11,         // target: cable id
  set_output_limit = 12,     // target: output id; number: limit_a
  set_mounting_height = 13,  // target: transformer id; number: metres
  set_extension_cord = 14,   // target: transformer id; number: 0 or 1
  set_joint_kind = 15,       // target: joint id; number: JointKind
  set_crossed = 16,          // target: cable id; number: 0 or 1
};

struct Change {
  ChangeKind kind = ChangeKind::set_tap;
  std::string target;
  std::string text;
  std::string other;
  double number = 0;

  bool operator==(const Change&) const = default;
};

// Applies all or nothing. Items that a change names and the job's catalogue lacks are copied from `stock`.
// A moved cable end takes the end of its path along where the new place has a position. A new transformer item keeps
// the outputs, on its nearest taps, and adds those that the item has more ("T1-B" ...) behind them.
// Errors: not_found for an id that is not in the job (or item in neither catalogue), invalid for a value that no job
// may have.
[[nodiscard]] Result<Job> apply(const Job& job, const std::vector<Change>& changes, const Catalogue& stock);

}  // namespace duskwire::job
