// SPDX-License-Identifier: Apache-2.0
// Reads the offer.
#include "formats/read_shape.hpp"
#include "formats/shape_offer.hpp"

namespace duskwire::formats {

void read_part(Context& context, const Json& value, job::Offer& out) { read_shape(context, value, out); }

}  // namespace duskwire::formats
