// SPDX-License-Identifier: Apache-2.0
// Reads a visit.
#include "formats/read_shape.hpp"
#include "formats/shape_visit.hpp"

namespace duskwire::formats {

void read_part(Context& context, const Json& value, job::Visit& out) { read_shape(context, value, out); }

}  // namespace duskwire::formats
