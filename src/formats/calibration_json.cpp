// SPDX-License-Identifier: Apache-2.0
#include "formats/calibration_json.hpp"

#include <array>

#include "formats/enum_names.hpp"

namespace duskwire::formats {
namespace {

Json json_of(geometry::Point3 p) { return Json::array({p.x_m, p.y_m, p.z_m}); }
Json json_of(geometry::Vec3 v) { return Json::array({v.x, v.y, v.z}); }

Json camera_json(const light::Camera& camera) {
  return {{"width_px", camera.width_px},
          {"height_px", camera.height_px},
          {"focal_px", camera.focal_px},
          {"principal_point_px", Json::array({camera.principal.x_px, camera.principal.y_px})},
          {"position", json_of(camera.position)},
          {"axes", Json::array({json_of(camera.axes[0]), json_of(camera.axes[1]), json_of(camera.axes[2])})}};
}

void add_camera(Json& out, const light::Calibrated& found) {
  static constexpr std::array sources{"picture", "given", "assumed"};
  out["camera"] = camera_json(found.camera);
  out["focal_from"] = sources.at(static_cast<std::size_t>(found.focal_from));
  out["residual_px"] = found.residual_px;
  out["distances_px"] = found.distances_px;
  out["focal_error_px"] = found.focal_error_px;
  out["position_error_m"] = found.position_error_m;
  out["turn_error_deg"] = found.turn_error_deg;
  if (found.adjoining_width_m) {
    out["adjoining_width_m"] = *found.adjoining_width_m;
    out["adjoining_error_m"] = found.adjoining_error_m;
  }
  if (found.wall_height_m) {
    out["wall_height_m"] = *found.wall_height_m;
    out["wall_height_error_m"] = found.wall_height_error_m;
  }
}

Json measure_json(const study::MeasuredLength& measure) {
  Json out = {{"id", measure.id}, {"name", measure.name}};
  if (!measure.length_m) {
    out["problem"] = measure.problem;
    return out;
  }
  out["length_m"] = *measure.length_m;
  out["error_m"] = measure.error_m;
  out["error_95_m"] = measure.error_95_m;
  return out;
}

Json plane_json(const study::ProposedPlane& plane) {
  return {{"id", plane.id},
          {"name", plane.name},
          {"kind", names(Of<job::SurfaceKind>{}).at(static_cast<std::size_t>(plane.kind))},
          {"on_plane", json_of(plane.on_plane)},
          {"normal", json_of(plane.normal)},
          {"note", plane.note}};
}

}  // namespace

Json calibration_json(const study::CalibratedView& view) {
  Json out = Json::object();
  if (view.calibrated) add_camera(out, *view.calibrated);
  if (!view.problem.empty()) out["problem"] = view.problem;
  out["measures"] = Json::array();
  for (const study::MeasuredLength& measure : view.measures) out["measures"].push_back(measure_json(measure));
  out["planes"] = Json::array();
  for (const study::ProposedPlane& plane : view.planes) out["planes"].push_back(plane_json(plane));
  out["findings"] = view.findings;
  return out;
}

}  // namespace duskwire::formats
