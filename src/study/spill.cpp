// SPDX-License-Identifier: Apache-2.0
#include "study/spill.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "geometry/polygon.hpp"
#include "study/level_places.hpp"
#include "study/level_points.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;
using geometry::Vec3;

constexpr double line_cell_m = 0.5;

struct Strongest {
  std::string lamp;
  double lx = 0;
};

// The lamp that gives most at one receiver.
Strongest strongest_at(const job::Job& job, const light::LitScene& scene, const std::vector<LitLamp>& lamps,
                       const light::Receiver& receiver) {
  Strongest best;
  for (std::uint32_t i = 0; i < lamps.size(); ++i) {
    std::array<float, 1> lx{};
    scene.add_lamp_lx(i, std::span(&receiver, 1), lx);
    if (static_cast<double>(lx[0]) <= best.lx) continue;
    best = {job.luminaires[lamps[i].luminaire].id, static_cast<double>(lx[0])};
  }
  return best;
}

// What bounced comes from every side: sixteen ways that the window may face, and the one that straight light is most
// on.
double with_bounce_lx(const GardenLight& garden, geometry::Point3 at, Vec3 direct) {
  constexpr int ways = 16;
  Receivers faces;
  for (int i = 0; i < ways; ++i) {
    const double turn = 2 * std::numbers::pi * i / ways;
    faces.push_back({at, {std::cos(turn), std::sin(turn), 0}});
  }
  const double direct_lx = std::hypot(direct.x, direct.y);
  if (direct_lx > 0) faces.push_back({at, {direct.x / direct_lx, direct.y / direct_lx, 0}});
  std::vector<float> bounced_lx(faces.size(), 0.0F);
  garden.add_bounced_lx(faces, bounced_lx, 0);
  double most_lx = 0;
  for (std::size_t i = 0; i < faces.size(); ++i) {
    most_lx = std::max(most_lx, std::max(0.0, dot(direct, faces[i].normal)) + double{bounced_lx[i]});
  }
  return most_lx;
}

}  // namespace

std::vector<SpillEdge> property_line_spill(const job::Job& job, const GardenLight& garden,
                                           const std::vector<LitLamp>& lamps) {
  std::vector<SpillEdge> edges;
  const geometry::Polygon& line = job.plan.property_line;
  if (line.size() < 3) return edges;
  for (std::uint32_t edge = 0; edge < line.size(); ++edge) {
    // The plane that light going outwards falls on faces into the lot.
    const Point2 out = outward(line, edge);
    const Receivers points =
        face_points(line[edge], line[(edge + 1) % line.size()], {-out.x_m, -out.y_m}, 0, spill_top_m, line_cell_m);
    std::vector<float> lx(points.size(), 0.0F);
    garden.illuminance_lx(points, lx, 0);
    const auto most = static_cast<std::size_t>(std::max_element(lx.begin(), lx.end()) - lx.begin());
    SpillEdge spill;
    spill.edge = edge;
    spill.average_lx = lux_figures(points, lx.data()).average_lx;
    spill.maximum_lx = static_cast<double>(lx[most]);
    spill.maximum_at = points[most].position;
    const Strongest strongest = strongest_at(job, garden.scene(), lamps, points[most]);
    spill.lamp = strongest.lamp;
    spill.lamp_lx = strongest.lx;
    edges.push_back(std::move(spill));
  }
  return edges;
}

// Each lamp's light on a plane that looks at it, as an arrow; the level part of the sum is what an upright plane that
// faces along it catches, as long as no lamp lies behind that plane.
std::vector<WindowSpill> window_spill(const job::Job& job, const GardenLight& garden,
                                      const std::vector<LitLamp>& lamps) {
  std::vector<WindowSpill> windows;
  for (const job::ViewPoint& eye : job.plan.view_points) {
    if (eye.kind != job::ViewPointKind::neighbour_window) continue;
    WindowSpill window;
    window.view_point = eye.id;
    Vec3 sum{0, 0, 0};
    for (std::uint32_t i = 0; i < lamps.size(); ++i) {
      const Vec3 to_lamp = unit(lamps[i].position - eye.position);
      const light::Receiver facing{eye.position, to_lamp};
      std::array<float, 1> lx{};
      garden.scene().add_lamp_lx(i, std::span(&facing, 1), lx);
      const Vec3 arrow = static_cast<double>(lx[0]) * to_lamp;
      sum = sum + arrow;
      const double level_lx = std::hypot(arrow.x, arrow.y);
      if (level_lx <= window.lamp_lx) continue;
      window.lamp_lx = level_lx;
      window.lamp = job.luminaires[lamps[i].luminaire].id;
    }
    window.lx = garden.bounce() ? with_bounce_lx(garden, eye.position, sum) : std::hypot(sum.x, sum.y);
    windows.push_back(std::move(window));
  }
  return windows;
}

// Sums over rings of the lamp's own frame, each piece counted above the level by the height of its middle.
double upward_share(const light::Distribution& distribution, const light::Lamp& lamp) {
  constexpr int rings = 180;
  constexpr int pieces = 72;
  constexpr double degree = std::numbers::pi / 180;
  const Vec3 along = unit(lamp.aim);
  const Vec3 x = unit(lamp.zero - dot(lamp.zero, along) * along);
  const Vec3 y = cross(x, along);  // z of the luminaire's frame is against the aim
  double all = 0;
  double up = 0;
  for (int ring = 0; ring < rings; ++ring) {
    const double gamma = (ring + 0.5) * degree;
    for (int piece = 0; piece < pieces; ++piece) {
      const double turn = (piece + 0.5) * 2 * std::numbers::pi / pieces;
      const Vec3 own{std::sin(gamma) * std::cos(turn), std::sin(gamma) * std::sin(turn), -std::cos(gamma)};
      const double flux = direction_cd(distribution, own) * std::sin(gamma);
      const double height = own.x * x.z + own.y * y.z - own.z * along.z;
      all += flux;
      if (height > 0) up += flux;
    }
  }
  return all > 0 ? up / all : 0;
}

}  // namespace duskwire::study
