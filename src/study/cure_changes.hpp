// SPDX-License-Identifier: Apache-2.0
// Changes of a job by the shape of what they carry. Internal to the room.
#pragma once

#include <string>

#include "job/change.hpp"

namespace duskwire::study {

[[nodiscard]] inline job::Change number_change(job::ChangeKind kind, const std::string& target, double number) {
  job::Change change;
  change.kind = kind;
  change.target = target;
  change.number = number;
  return change;
}

[[nodiscard]] inline job::Change text_change(job::ChangeKind kind, const std::string& target, const std::string& text) {
  job::Change change;
  change.kind = kind;
  change.target = target;
  change.text = text;
  return change;
}

[[nodiscard]] inline job::Change moved_end(const std::string& cable, const char* end, const std::string& place) {
  job::Change change = text_change(job::ChangeKind::move_cable_end, cable, end);
  change.other = place;
  return change;
}

[[nodiscard]] inline job::Change added_cable(const std::string& id, const std::string& item, const std::string& from,
                                             const std::string& to, double length_m) {
  job::Change change = text_change(job::ChangeKind::add_cable, id, item);
  change.other = from + " " + to;
  change.number = length_m;
  return change;
}

}  // namespace duskwire::study
