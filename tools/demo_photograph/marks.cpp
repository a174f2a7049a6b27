// SPDX-License-Identifier: Apache-2.0
#include "marks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace duskwire::demo {
namespace {

using geometry::PixelPoint;

// Where a person would draw: the outermost elements seen of a thing in each of so many directions from its middle.
constexpr int directions = 40;

std::vector<PixelPoint> outline_of(const std::vector<PixelPoint>& seen) {
  PixelPoint middle;
  for (const PixelPoint& p : seen) {
    middle.x_px += p.x_px / static_cast<double>(seen.size());
    middle.y_px += p.y_px / static_cast<double>(seen.size());
  }
  std::vector<double> reach(directions, 0);
  for (const PixelPoint& p : seen) {
    const double angle = std::atan2(p.y_px - middle.y_px, p.x_px - middle.x_px) + std::numbers::pi;
    const auto k = static_cast<std::size_t>(angle / (2 * std::numbers::pi) * directions) % directions;
    reach[k] = std::max(reach[k], std::hypot(p.x_px - middle.x_px, p.y_px - middle.y_px));
  }
  std::vector<PixelPoint> outline;
  for (int k = 0; k < directions; ++k) {
    const double angle = 2 * std::numbers::pi * (k + 0.5) / directions - std::numbers::pi;
    const double out = reach[static_cast<std::size_t>(k)] + 2;
    if (out > 2) outline.push_back({middle.x_px + out * std::cos(angle), middle.y_px + out * std::sin(angle)});
  }
  return outline;
}

}  // namespace

light::Camera demo_camera(double share) {
  constexpr double yaw_deg = -13.5;
  constexpr double pitch_deg = 6.5;
  const double yaw = yaw_deg * std::numbers::pi / 180;
  const double pitch = pitch_deg * std::numbers::pi / 180;
  light::Camera camera;
  camera.width_px = std::round(1600 * share);
  camera.height_px = std::round(1067 * share);
  camera.focal_px = 1000 * share;
  camera.principal = {camera.width_px / 2, camera.height_px / 2};
  camera.position = {16.9, -3, 1.6};
  const Vec3 ahead{std::sin(yaw) * std::cos(pitch), std::cos(yaw) * std::cos(pitch), std::sin(pitch)};
  const Vec3 right{std::cos(yaw), -std::sin(yaw), 0};
  camera.axes = {right, cross(ahead, right), ahead};
  return camera;
}

std::string marks_json(const Model& model, const Daylight& daylight, const light::Camera& camera) {
  std::map<std::string, std::vector<PixelPoint>> seen;
  for (double y = 0.5; y < camera.height_px; ++y) {
    for (double x = 0.5; x < camera.width_px; ++x) {
      const std::uint32_t thing = daylight.thing_seen(camera.position, way_from_pixel(camera, {x, y}));
      if (thing < model.things.size() && !model.things[thing].name.empty())
        seen[model.things[thing].name].push_back({x, y});
    }
  }
  std::string out =
      fmt::format("{{\"camera\": {{\"width_px\": {}, \"height_px\": {}, \"focal_px\": {}}}, \"outlines\": {{",
                  camera.width_px, camera.height_px, camera.focal_px);
  bool first = true;
  for (const auto& [name, points] : seen) {
    if (name == "window" || name == "ground" || name == "roof") continue;
    out += fmt::format("{}\n\"{}\": [", first ? "" : ",", name);
    first = false;
    bool first_point = true;
    for (const PixelPoint& p : outline_of(points)) {
      out += fmt::format("{}[{:.0f}, {:.0f}]", first_point ? "" : ", ", p.x_px, p.y_px);
      first_point = false;
    }
    out += "]";
  }
  return out + "\n}}\n";
}

}  // namespace duskwire::demo
