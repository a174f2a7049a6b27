// SPDX-License-Identifier: Apache-2.0
// Reads the switching programme.
#include "formats/read_shape.hpp"
#include "formats/shape_programme.hpp"

namespace duskwire::formats {

void check_whole(Context& context, const job::SwitchRule& rule) {
  if (rule.at != job::SwitchBase::clock || !rule.time.empty()) return;
  context.report(Severity::error, "", "a time of day such as 22:30",
                 "A moment by the clock needs \"time\"; by the sun, set \"at\" to sunset or sunrise.");
}

void read_part(Context& context, const Json& value, job::ProgrammeEntry& out) { read_shape(context, value, out); }

}  // namespace duskwire::formats
