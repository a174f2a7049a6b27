// SPDX-License-Identifier: Apache-2.0
#include "study/level_places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/polygon.hpp"
#include "geometry/strip.hpp"
#include "job/plan_ground.hpp"
#include "study/level_points.hpp"
#include "study/lit_scene.hpp"
#include "study/step_flight.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;
using job::GroundKind;

constexpr double walk_cell_m = 0.25;
constexpr double wide_cell_m = 0.5;
constexpr double tread_cell_m = 0.15;
constexpr double face_cell_m = 0.5;
constexpr double shortest_face_m = 0.3;
constexpr std::size_t crown_count = 400;

const char* compass_side(const job::Plan& plan, Point2 out) {
  static constexpr const char* names[] = {"north", "north-east", "east", "south-east",
                                          "south", "south-west", "west", "north-west"};
  const double azimuth_deg = aim_of(plan, {out.x_m, out.y_m, 0}).azimuth_deg;
  return names[static_cast<std::size_t>(std::lround(azimuth_deg / 45)) % 8];
}

class Places {
 public:
  Places(const job::Job& job, const GardenLight& garden, const std::string& only)
      : job_(job), garden_(garden), only_(only), ground_(job.plan) {}

  std::vector<PlaceLevels> run() {
    for (std::size_t i = 0; i < job_.plan.areas.size(); ++i) {
      if (is_wanted(job_.plan.areas[i].id)) add_area(i);
    }
    for (std::size_t i = 0; i < job_.plan.trees.size(); ++i) {
      if (is_wanted(job_.plan.trees[i].id)) add_tree(i);
    }
    return std::move(out_);
  }

 private:
  // An id, or a face of it.
  bool is_wanted(const std::string& id) const { return only_.empty() || only_.substr(0, only_.rfind('/')) == id; }

  LuxFigures measure(const Receivers& points) const {
    std::vector<float> lx(points.size(), 0.0F);
    garden_.scene().illuminance_lx(points, lx);
    if (!garden_.bounce()) return lux_figures(points, lx.data());
    std::vector<float> bounced_lx(points.size(), 0.0F);
    garden_.add_bounced_lx(points, bounced_lx);
    for (std::size_t i = 0; i < lx.size(); ++i) lx[i] += bounced_lx[i];
    LuxFigures figures = lux_figures(points, lx.data());
    figures.bounced_lx = lux_figures(points, bounced_lx.data()).average_lx;
    return figures;
  }

  PlaceLevels place(const job::Area& area, std::size_t index, LitPlace kind) const {
    PlaceLevels place;
    place.id = area.id;
    place.name = area.name;
    place.pointer = fmt::format("/plan/areas/{}", index);
    place.place = kind;
    return place;
  }

  void add_area(std::size_t index) {
    const job::Area& area = job_.plan.areas[index];
    if (area.outline.size() < 3 || lies_beyond(area)) return;
    if (area.kind == GroundKind::building || area.kind == GroundKind::wall) add_faces(area, index);
    const std::optional<LitPlace> kind = place_of_area(area);
    if (!kind) return;
    if (area.kind == GroundKind::steps) {
      add_steps(area, index);
    } else {
      add_ground(area, index, *kind);
    }
  }

  // A public walk beyond the line is not this garden's to light.
  bool lies_beyond(const job::Area& area) const {
    const geometry::Polygon& line = job_.plan.property_line;
    return line.size() >= 3 && !contains(line, middle(area.outline));
  }

  void add_ground(const job::Area& area, std::size_t index, LitPlace kind) {
    const double z_m = area.kind == GroundKind::deck ? area.height_m : 0;
    const bool walk = kind == LitPlace::path || kind == LitPlace::drive;
    Receivers points = level_points(area.outline, z_m, walk ? walk_cell_m : wide_cell_m);
    std::erase_if(points, [&](const light::Receiver& point) {
      return ground_.at({point.position.x_m, point.position.y_m}) != area.kind;
    });
    if (points.empty()) return;
    PlaceLevels found = place(area, index, kind);
    found.lit = measure(points);
    const std::optional<geometry::Strip> strip = walk ? geometry::strip_of(area.outline) : std::nullopt;
    if (strip) {
      found.length_m = strip->length_m;
      found.width_m = strip->width_m;
      found.centreline = measure(centre_points(*strip, z_m, walk_cell_m));
    }
    if (kind != LitPlace::bed && kind != LitPlace::ground) found.upright = upright(points, strip, z_m);
    out_.push_back(std::move(found));
  }

  // Light on faces: along a walk both ways that people come, elsewhere all four.
  LuxFigures upright(const Receivers& points, const std::optional<geometry::Strip>& strip, double z_m) const {
    constexpr std::size_t most = 400;
    const Receivers places = strip ? centre_points(*strip, z_m, wide_cell_m) : points;
    const std::size_t stride = std::max<std::size_t>(1, places.size() / most);
    const std::size_t ways = strip ? 2 : 4;
    Receivers faces;
    Receivers kept;
    for (std::size_t i = 0; i < places.size(); i += stride) {
      geometry::Point3 at = places[i].position;
      at.z_m = z_m + eye_height_m;
      const Point2 way = strip ? way_at(*strip, at) : Point2{1, 0};
      const Receivers all = upright_points(at, way);
      faces.insert(faces.end(), all.begin(), all.begin() + static_cast<std::ptrdiff_t>(ways));
      kept.push_back({at, {0, 0, 1}});
    }
    std::vector<float> lx(faces.size(), 0.0F);
    garden_.illuminance_lx(faces, lx);
    std::vector<float> mean(kept.size(), 0.0F);
    for (std::size_t i = 0; i < lx.size(); ++i) mean[i / ways] += lx[i] / static_cast<float>(ways);
    return lux_figures(kept, mean.data());
  }

  static Point2 way_at(const geometry::Strip& strip, geometry::Point3 at) {
    const geometry::Polyline& line = strip.centreline;
    std::size_t best = 1;
    double best_m = 1e300;
    for (std::size_t i = 1; i < line.size(); ++i) {
      const double away_m = geometry::distance_to_segment_m({at.x_m, at.y_m}, line[i - 1], line[i]);
      if (away_m >= best_m) continue;
      best_m = away_m;
      best = i;
    }
    const double piece_m = std::max(geometry::distance_m(line[best - 1], line[best]), 1e-9);
    return {(line[best].x_m - line[best - 1].x_m) / piece_m, (line[best].y_m - line[best - 1].y_m) / piece_m};
  }

  void add_steps(const job::Area& area, std::size_t index) {
    PlaceLevels found = place(area, index, LitPlace::steps);
    Receivers all;
    for (const Tread& tread : step_flight(job_.plan, area).treads) {
      const Receivers points = level_points(tread.outline, tread.height_m, tread_cell_m, 600);
      if (points.empty()) continue;
      const auto number = static_cast<std::uint32_t>(found.treads.size() + 1);
      found.treads.push_back({number, tread.height_m, measure(points)});
      all.insert(all.end(), points.begin(), points.end());
    }
    if (all.empty()) return;
    found.lit = measure(all);
    found.upright = upright(all, std::nullopt, area.height_m / 2);
    out_.push_back(std::move(found));
  }

  void add_faces(const job::Area& area, std::size_t index) {
    for (std::size_t edge = 0; edge < area.outline.size(); ++edge) {
      const Point2 from = area.outline[edge];
      const Point2 to = area.outline[(edge + 1) % area.outline.size()];
      if (geometry::distance_m(from, to) < shortest_face_m) continue;
      const Point2 out = outward(area.outline, edge);
      Receivers points = face_points(from, to, out, 0, solid_height_m(area), face_cell_m);
      std::erase_if(points, [&](const auto& point) { return within_solid(job_.plan, point.position); });
      if (points.empty()) continue;
      if (!only_.empty() && only_ != fmt::format("{}/{}", area.id, edge)) continue;
      PlaceLevels found =
          place(area, index, area.kind == GroundKind::building ? LitPlace::facade : LitPlace::background);
      found.id = fmt::format("{}/{}", area.id, edge);
      found.name = fmt::format("{}, {} face", area.name.empty() ? area.id : area.name, compass_side(job_.plan, out));
      found.lit = measure(points);
      if (found.lit.maximum_lx >= least_face_lx) out_.push_back(std::move(found));
    }
  }

  void add_tree(std::size_t index) {
    const job::Tree& tree = job_.plan.trees[index];
    if (tree.crown_width_m <= 0 || tree.height_m <= tree.crown_base_m) return;
    light::Crown crown;
    crown.centre = {tree.position.x_m, tree.position.y_m, (tree.crown_base_m + tree.height_m) / 2};
    crown.half_width_m = tree.crown_width_m / 2;
    crown.half_height_m = (tree.height_m - tree.crown_base_m) / 2;
    Receivers points = crown_points(crown, crown_count);
    keep_seen(points);
    PlaceLevels found;
    found.id = tree.id;
    found.name = tree.name;
    found.pointer = fmt::format("/plan/trees/{}", index);
    found.place = LitPlace::tree;
    found.lit = measure(points);
    if (found.lit.maximum_lx >= least_face_lx) out_.push_back(std::move(found));
  }

  // The half of a crown that the first eye of the plan sees: what is lit behind is no picture to anyone.
  void keep_seen(Receivers& points) const {
    const auto& eyes = job_.plan.view_points;
    const auto eye = std::find_if(eyes.begin(), eyes.end(), [](const job::ViewPoint& each) {
      return each.kind != job::ViewPointKind::neighbour_window;
    });
    if (eye == eyes.end()) return;
    std::erase_if(points,
                  [&](const light::Receiver& point) { return dot(eye->position - point.position, point.normal) <= 0; });
  }

  const job::Job& job_;
  const GardenLight& garden_;
  const std::string& only_;
  job::PlanGround ground_;
  std::vector<PlaceLevels> out_;
};

}  // namespace

LuxFigures lux_figures(const std::vector<light::Receiver>& receivers, const float* lx) {
  LuxFigures figures;
  if (receivers.empty()) return figures;
  figures.points = static_cast<std::uint32_t>(receivers.size());
  figures.minimum_lx = static_cast<double>(lx[0]);
  figures.minimum_at = receivers[0].position;
  double sum_lx = 0;
  for (std::size_t i = 0; i < receivers.size(); ++i) {
    const double here_lx = static_cast<double>(lx[i]);
    sum_lx += here_lx;
    figures.maximum_lx = std::max(figures.maximum_lx, here_lx);
    if (here_lx >= figures.minimum_lx) continue;
    figures.minimum_lx = here_lx;
    figures.minimum_at = receivers[i].position;
  }
  figures.average_lx = sum_lx / figures.points;
  if (figures.average_lx > 0) figures.uniformity = figures.minimum_lx / figures.average_lx;
  return figures;
}

std::optional<LitPlace> place_of_area(const job::Area& area) {
  switch (area.kind) {
    case GroundKind::paving:
      return geometry::strip_of(area.outline) ? LitPlace::path : LitPlace::terrace;
    case GroundKind::gravel:
      return geometry::strip_of(area.outline) ? LitPlace::path : LitPlace::ground;
    case GroundKind::drive:
      return LitPlace::drive;
    case GroundKind::deck:
      return LitPlace::terrace;
    case GroundKind::steps:
      return LitPlace::steps;
    case GroundKind::bed:
      return LitPlace::bed;
    case GroundKind::lawn:
      return LitPlace::ground;
    default:
      return std::nullopt;
  }
}

std::vector<PlaceLevels> place_levels(const job::Job& job, const GardenLight& garden, const std::string& only) {
  return Places(job, garden, only).run();
}

}  // namespace duskwire::study
