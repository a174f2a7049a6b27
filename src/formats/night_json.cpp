// SPDX-License-Identifier: Apache-2.0
#include "formats/night_json.hpp"

#include <utility>

#include "formats/shape_night.hpp"
// After the shapes that they read and write.
#include "formats/read_shape.hpp"
#include "formats/write_result.hpp"

namespace duskwire::formats {

ReadRequest<study::NightWish> read_night_wish(std::string_view text) {
  ParsedText parsed = parse_text(text);
  Context context;
  context.add(std::move(parsed.problems));
  ReadRequest<study::NightWish> read;
  if (parsed.tree) read_shape(context, *parsed.tree, read.request.emplace());
  read.problems = context.take();
  if (has_errors(read.problems)) read.request.reset();
  return read;
}

Json night_facts_json(const study::NightFacts& facts) { return result_json(facts); }

Json night_probe_json(const study::NightProbe& probe) {
  const auto or_null = [](const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); };
  Json out;
  out["piece"] = probe.piece;
  out["lux"] = or_null(probe.lux);
  out["cd_m2"] = probe.cd_m2;
  out["reflectance"] = or_null(probe.reflectance);
  out["site"] = probe.site ? Json::array({probe.site->x_m, probe.site->y_m, probe.site->z_m}) : Json(nullptr);
  out["lamps"] = result_json(probe.lamps);
  return out;
}

}  // namespace duskwire::formats
