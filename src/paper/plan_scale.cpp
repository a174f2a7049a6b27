// SPDX-License-Identifier: Apache-2.0
#include "paper/plan_scale.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/units.hpp"

namespace duskwire::paper {

std::vector<PlanScale> usual_scales(job::DisplayUnits units) {
  std::vector<PlanScale> scales;
  if (units == job::DisplayUnits::us) {
    const auto feet = [&](int feet) {
      scales.push_back({12.0 * feet, fmt::format("1 in = {} ft (1:{})", feet, 12 * feet)});
    };
    const auto part = [&](int parts) {
      scales.push_back({12.0 * parts, fmt::format("1/{} in = 1 ft (1:{})", parts, 12 * parts)});
    };
    part(4);
    feet(5);
    part(8);
    feet(10);
    part(16);
    for (const int each : {20, 30, 40, 50, 100, 200, 400}) feet(each);
    return scales;
  }
  for (const int ratio : {20, 50, 100, 200, 250, 500, 1000, 2000, 5000}) {
    scales.push_back({static_cast<double>(ratio), fmt::format("1:{}", ratio)});
  }
  return scales;
}

PlanScale scale_that_fits(const SiteBox& site, double width_mm, double height_mm, job::DisplayUnits units) {
  const std::vector<PlanScale> scales = usual_scales(units);
  for (const PlanScale& scale : scales) {
    if (site.width_m() * 1000 / scale.ratio <= width_mm && site.height_m() * 1000 / scale.ratio <= height_mm)
      return scale;
  }
  return scales.back();
}

ScaleBar scale_bar(const PlanScale& scale, job::DisplayUnits units, double most_mm) {
  const bool us = units == job::DisplayUnits::us;
  const double mm_per_unit = 1000 / scale.ratio * (us ? units::m_per_ft : 1);
  ScaleBar best;
  best.unit = us ? "ft" : "m";
  constexpr std::array<double, 11> steps{0.5, 1, 2, 5, 10, 20, 25, 50, 100, 200, 500};
  for (const double part : steps) {
    const double part_mm = part * mm_per_unit;
    if (part_mm < 8) continue;
    const int parts = std::min(5, static_cast<int>(std::floor(most_mm / part_mm)));
    if (parts < 2) continue;
    best = {parts * part_mm, parts, part, best.unit};
    break;
  }
  return best;
}

void draw_scale_bar(Pen& pen, PointMm at, const ScaleBar& bar) {
  if (bar.parts == 0) return;
  constexpr double high_mm = 1.8;
  const double part_mm = bar.length_mm / bar.parts;
  Lettering small{1.8, false, Anchor::middle};
  for (int i = 0; i <= bar.parts; ++i) {
    const double x_mm = at.x_mm + i * part_mm;
    const double value = i * bar.part;
    const std::string number = value == std::floor(value) ? fmt::format("{:.0f}", value) : fmt::format("{:.1f}", value);
    pen.letters({x_mm, at.y_mm - 0.9}, i == bar.parts ? number + " " + bar.unit : number, small);
    if (i == bar.parts) break;
    const PathMm box{
        {x_mm, at.y_mm}, {x_mm + part_mm, at.y_mm}, {x_mm + part_mm, at.y_mm + high_mm}, {x_mm, at.y_mm + high_mm}};
    pen.fill(box, i % 2 == 0 ? black : white);
    pen.path(box, {Width::w018}, true);
  }
}

void draw_north_arrow(Pen& pen, PointMm centre, double radius_mm, double north_deg) {
  // On paper y goes down.
  const double x = std::cos(north_deg * units::rad_per_deg);
  const double y = -std::sin(north_deg * units::rad_per_deg);
  const auto place = [&](double along, double across) {
    return PointMm{centre.x_mm + radius_mm * (along * x - across * y),
                   centre.y_mm + radius_mm * (along * y + across * x)};
  };
  pen.circle(centre, radius_mm, {Width::w025});
  pen.fill({place(0.95, 0), place(-0.7, 0.45), place(-0.35, 0)}, black);
  pen.path({place(0.95, 0), place(-0.7, 0.45), place(-0.35, 0), place(-0.7, -0.45)}, {Width::w025}, true);
  const PointMm letter = place(1.5, 0);
  pen.letters({letter.x_mm, letter.y_mm + 1.25}, "N", {2.5, true, Anchor::middle});
}

}  // namespace duskwire::paper
