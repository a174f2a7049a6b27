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

// Where a person would draw: the outermost elements seen of a thing in each of so many bands from top to bottom.
constexpr int bands = 24;

std::vector<PixelPoint> outline_of(const std::vector<PixelPoint>& seen) {
  double top = seen.front().y_px;
  double bottom = top;
  for (const PixelPoint& p : seen) {
    top = std::min(top, p.y_px);
    bottom = std::max(bottom, p.y_px);
  }
  const double band_px = (bottom - top) / bands + 1e-9;
  std::vector<double> left(bands, 1e9);
  std::vector<double> right(bands, -1e9);
  for (const PixelPoint& p : seen) {
    const auto k = static_cast<std::size_t>(std::clamp((p.y_px - top) / band_px, 0.0, bands - 1.0));
    left[k] = std::min(left[k], p.x_px - 0.5);
    right[k] = std::max(right[k], p.x_px + 0.5);
  }
  std::vector<PixelPoint> outline;
  for (int k = 0; k < bands; ++k) {
    const double y = k == 0 ? top - 0.5 : top + (k + 0.5) * band_px;
    if (left[static_cast<std::size_t>(k)] < 1e9) outline.push_back({left[static_cast<std::size_t>(k)], y});
  }
  outline.push_back({left.back(), bottom + 0.5});
  outline.push_back({right.back(), bottom + 0.5});
  for (int k = bands - 1; k >= 0; --k) {
    const double y = k == 0 ? top - 0.5 : top + (k + 0.5) * band_px;
    if (right[static_cast<std::size_t>(k)] > -1e9) outline.push_back({right[static_cast<std::size_t>(k)], y});
  }
  return outline;
}

// How far down the sky reaches near a column, whatever the oak hides of it.
constexpr double skyline_step_px = 20;

double skyline_px(const Model& model, const Daylight& daylight, const light::Camera& camera, double x_px) {
  double least = camera.height_px;
  for (double x = x_px - skyline_step_px / 2 + 0.5; x < x_px + skyline_step_px / 2; ++x) {
    double y = 0.5;
    for (; y < camera.height_px; ++y) {
      const std::uint32_t thing = daylight.thing_seen(camera.position, way_from_pixel(camera, {x, y}));
      if (thing < model.things.size() && model.things[thing].name != "oak") break;
    }
    least = std::min(least, y - 0.5);
  }
  return least;
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
  out += "\n}, \"skyline\": [";
  for (double x = 0; x <= camera.width_px; x += skyline_step_px) {
    out += fmt::format("{}[{:.0f}, {:.0f}]", x > 0 ? ", " : "", x, skyline_px(model, daylight, camera, x));
  }
  return out + "]}\n";
}

}  // namespace duskwire::demo
