// SPDX-License-Identifier: Apache-2.0
// Checks the reserved parts: programme, offer, visits.
#include "formats/read_shape.hpp"
#include "formats/shape_reserved.hpp"

namespace duskwire::formats {

void check_whole(Context& context, const SwitchRule& rule) {
  if (rule.at != SwitchBase::clock || !rule.time.empty()) return;
  context.report(Severity::error, "", "a time of day such as 22:30",
                 "A moment by the clock needs \"time\"; by the sun, set \"at\" to sunset or sunrise.");
}

void read_part(Context& context, const Json& value, ProgrammeEntry& out) { read_shape(context, value, out); }

void read_part(Context& context, const Json& value, Offer& out) { read_shape(context, value, out); }

void read_part(Context& context, const Json& value, Visit& out) { read_shape(context, value, out); }

}  // namespace duskwire::formats
