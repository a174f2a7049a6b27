// SPDX-License-Identifier: Apache-2.0
// The shape of one change of a job. What text, other and number mean depends on the kind: job/change.hpp.
#pragma once

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "job/change.hpp"

namespace duskwire::formats {

constexpr auto names(Of<job::ChangeKind>) {
  return std::array{"set_tap",
                    "set_cable_item",
                    "move_cable_end",
                    "set_transformer_item",
                    "set_connector",
                    "set_connector_count",
                    "set_depth",
                    "set_slack",
                    "set_luminaire_item",
                    "move_luminaire_joint",
                    "add_cable",
                    "remove_cable",
                    "set_output_limit",
                    "set_mounting_height",
                    "set_extension_cord",
                    "set_joint_kind",
                    "set_crossed"};
}
static_assert(names(Of<job::ChangeKind>{}).size() == static_cast<std::size_t>(job::ChangeKind::set_crossed) + 1);

template <class Visitor>
void describe(Of<job::Change>, Visitor& v) {
  using T = job::Change;
  v.field("kind", &T::kind, OneOf{}, required, "What is changed");
  v.field("target", &T::target, Text{longest_id, Form::name}, required, "Id of the object that is changed");
  v.field("text", &T::text, Text{longest_id}, optional, "The item, or the end \"from\" or \"to\"");
  v.field("other", &T::other, Text{2 * longest_id + 1}, optional, "The other object; add_cable: both ends");
  v.field("number", &T::number, Number{-1e9, 1e9, "SI"}, optional, "The new value");
}

}  // namespace duskwire::formats
