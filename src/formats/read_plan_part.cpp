// SPDX-License-Identifier: Apache-2.0
// Reads the plan.
#include "formats/read_shape.hpp"
#include "formats/shape_plan.hpp"

namespace duskwire::formats {

void check_whole(Context& context, const job::Tree& tree) {
  if (tree.crown_base_m <= tree.height_m) return;
  const Context::Scope scope(context, "crown_base_m");
  context.report(Severity::warning, fmt::format("{}", tree.crown_base_m), "no more than height_m",
                 fmt::format("Tree \"{}\" is {} m high, yet its crown begins at {} m: correct one of them.", tree.id,
                             tree.height_m, tree.crown_base_m));
}

void read_part(Context& context, const Json& value, job::Plan& out) { read_shape(context, value, out); }

}  // namespace duskwire::formats
