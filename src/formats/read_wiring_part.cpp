// SPDX-License-Identifier: Apache-2.0
// Reads luminaires, transformers, cables and joints.
#include "formats/read_shape.hpp"
#include "formats/shape_job.hpp"

namespace duskwire::formats {

void read_part(Context& context, const Json& value, job::Luminaire& out) { read_shape(context, value, out); }

void read_part(Context& context, const Json& value, job::Transformer& out) { read_shape(context, value, out); }

void read_part(Context& context, const Json& value, job::Joint& out) { read_shape(context, value, out); }

void read_part(Context& context, const Json& value, job::Cable& out) {
  read_shape(context, value, out);
  if (!out.from.empty() && out.from == out.to) {
    context.report(
        Severity::error, out.to, "two different ends",
        fmt::format("Cable \"{}\" starts and ends at \"{}\": name the place that it leads to.", out.id, out.to));
  }
  if (value.is_object() && !out.length_m && out.path.empty()) {
    context.report(Severity::error, "", "length_m, or path of 2 points and more",
                   fmt::format("Cable \"{}\" has neither \"length_m\" nor \"path\": without its length no voltage can "
                               "be told.",
                               out.id));
  }
}

}  // namespace duskwire::formats
