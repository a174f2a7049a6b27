// SPDX-License-Identifier: Apache-2.0
// Reads site, client and practice.
#include "formats/read_shape.hpp"
#include "formats/shape_site.hpp"

namespace duskwire::formats {

void check_whole(Context& context, const job::Corners& corners) {
  if (corners.cable_cold_c <= corners.cable_nominal_c && corners.cable_nominal_c <= corners.cable_hot_c) return;
  context.report(Severity::error,
                 fmt::format("{}, {}, {} C", corners.cable_cold_c, corners.cable_nominal_c, corners.cable_hot_c),
                 "cable_cold_c <= cable_nominal_c <= cable_hot_c",
                 "The cable temperatures are out of order: cold, nominal and hot must ascend.");
}

void read_part(Context& context, const Json& value, job::Site& out) {
  read_shape(context, value, out);
  if (out.latitude_deg.has_value() == out.longitude_deg.has_value()) return;
  context.report(Severity::warning, "", "latitude_deg and longitude_deg, or neither",
                 "Sun times need both latitude and longitude: add the one that is missing.");
}

void read_part(Context& context, const Json& value, job::Client& out) { read_shape(context, value, out); }

void read_part(Context& context, const Json& value, job::Practice& out) { read_shape(context, value, out); }

}  // namespace duskwire::formats
