// SPDX-License-Identifier: Apache-2.0
#include "study/lit_jobs.hpp"

namespace duskwire::study::tests {
namespace {

job::LuminaireItem article(const std::string& id, job::LuminaireKind kind, double flux_lm, double beam_deg) {
  job::LuminaireItem item;
  item.id = id;
  item.title = id;
  item.kind = kind;
  item.power_w = 6;
  item.power_va = 8;
  item.window_min_v = 10;
  item.window_max_v = 15;
  item.v_cut_off = 6;
  item.v_regulation_min = 10;
  item.flux_lm = flux_lm;
  item.beam_deg = beam_deg;
  return item;
}

}  // namespace

job::Job bare_lot() {
  using Kind = job::LuminaireKind;
  job::Job job;
  job.id = "lot";
  job.site.units = job::DisplayUnits::metric;
  job.catalogue.luminaires = {article("bullet-36", Kind::bullet, 450, 36),
                              article("bullet-60", Kind::bullet, 450, 60),
                              article("well-60", Kind::well, 450, 60),
                              article("wash-90", Kind::wall_wash, 380, 90),
                              article("path", Kind::path, 140, 360),
                              article("step", Kind::step, 60, 120),
                              article("downlight-60", Kind::tree_downlight, 420, 60)};
  return job;
}

job::Luminaire& place_lamp(job::Job& job, const std::string& id, const std::string& item, geometry::Point3 position) {
  job::Luminaire lamp;
  lamp.id = id;
  lamp.item = item;
  lamp.position = position;
  return job.luminaires.emplace_back(lamp);
}

job::Area& add_area(job::Job& job, const std::string& id, job::GroundKind kind, geometry::Polygon outline,
                    double height_m) {
  job::Area area;
  area.id = id;
  area.kind = kind;
  area.outline = std::move(outline);
  area.height_m = height_m;
  return job.plan.areas.emplace_back(area);
}

job::ViewPoint& add_eye(job::Job& job, const std::string& id, job::ViewPointKind kind, geometry::Point3 position) {
  job::ViewPoint eye;
  eye.id = id;
  eye.kind = kind;
  eye.position = position;
  return job.plan.view_points.emplace_back(eye);
}

geometry::Polygon rectangle(double west_m, double south_m, double east_m, double north_m) {
  return {{west_m, south_m}, {east_m, south_m}, {east_m, north_m}, {west_m, north_m}};
}

}  // namespace duskwire::study::tests
