// SPDX-License-Identifier: Apache-2.0
// Reads views.
#include "formats/read_shape.hpp"
#include "formats/shape_view.hpp"

namespace duskwire::formats {

void check_whole(Context& context, const job::PictureSurface& surface) {
  if (geometry::length(surface.normal) > 1e-3) return;
  const Context::Scope scope(context, "normal");
  context.report(Severity::error, "[0, 0, 0]", "a direction that is not zero",
                 fmt::format("Surface \"{}\" does not say which way it faces: give \"normal\" a length, such as "
                             "[0, 0, 1] for the ground.",
                             surface.id));
}

void read_part(Context& context, const Json& value, job::View& out) { read_shape(context, value, out); }

}  // namespace duskwire::formats
