// SPDX-License-Identifier: Apache-2.0
#include "paper/plan_sheet_parts.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/units.hpp"
#include "base/utf8.hpp"
#include "geometry/polygon.hpp"
#include "paper/plan_symbols.hpp"

namespace duskwire::paper {
namespace {

constexpr std::size_t many_labels = 60;
constexpr double lead_keep_mm = 1.6;

geometry::Point2 ground_of(const geometry::Point3& point) { return {point.x_m, point.y_m}; }

Box around(PointMm at, double radius_mm) {
  return {at.x_mm - radius_mm, at.y_mm - radius_mm, 2 * radius_mm, 2 * radius_mm};
}

void draw_areas(Pen& pen, const job::Job& job, const PlanFrame& frame) {
  for (const job::Area& area : job.plan.areas) {
    const PathMm outline = frame.at(area.outline);
    draw_ground(pen, outline, area.kind);
    if (area.kind != job::GroundKind::steps || !area.riser_count || !area.ascent_deg || outline.size() < 3) continue;
    // Risers lie across the way up, evenly from foot to landing.
    const double up_deg = job.plan.north_deg - *area.ascent_deg;
    const double ux = std::cos(up_deg * units::rad_per_deg);
    const double uy = std::sin(up_deg * units::rad_per_deg);
    double low = 1e300, high = -1e300, left = 1e300, right = -1e300;
    for (const auto& p : area.outline) {
      const double along = p.x_m * ux + p.y_m * uy;
      const double across = -p.x_m * uy + p.y_m * ux;
      low = std::min(low, along), high = std::max(high, along);
      left = std::min(left, across), right = std::max(right, across);
    }
    for (std::uint32_t i = 1; i < std::min(*area.riser_count, 40u); ++i) {
      const double along = low + (high - low) * i / *area.riser_count;
      const auto place = [&](double across) {
        return frame.at(geometry::Point2{along * ux - across * uy, along * uy + across * ux});
      };
      pen.line(place(left), place(right), {Width::w018});
    }
  }
}

void draw_wiring(Pen& pen, const job::Job& job, const PlanLook& look, const PlanFrame& frame) {
  if (look.sleeves) {
    for (const job::Sleeve& sleeve : job.plan.sleeves) draw_sleeve(pen, frame.at(sleeve.path));
  }
  if (look.cables) {
    for (const job::Cable& cable : job.cables) pen.path(frame.at(cable.path), cable_stroke(job, cable.item));
    for (const job::Luminaire& lamp : job.luminaires) {
      if (lamp.joint.empty() || !lamp.position) continue;
      for (const job::Joint& joint : job.joints) {
        if (joint.id == lamp.joint && joint.position) {
          pen.line(frame.at(*joint.position), frame.at(ground_of(*lamp.position)), {Width::w018});
        }
      }
    }
  }
  if (!look.joints) return;
  for (const job::Joint& joint : job.joints) {
    if (joint.position) draw_joint(pen, frame.at(*joint.position), joint.kind);
  }
}

void draw_things(Pen& pen, const job::Job& job, const PlanLook& look, const PlanFrame& frame) {
  if (look.receptacles) {
    for (const job::Receptacle& receptacle : job.plan.receptacles) draw_receptacle(pen, frame.at(receptacle.position));
  }
  if (look.fixed_points) {
    for (const job::FixedPoint& point : job.plan.fixed_points) draw_fixed_point(pen, frame.at(point.position));
  }
  if (look.view_points) {
    for (const job::ViewPoint& point : job.plan.view_points) draw_view_point(pen, frame.at(ground_of(point.position)));
  }
  if (look.transformers) {
    for (const job::Transformer& transformer : job.transformers) {
      if (transformer.position) draw_transformer(pen, frame.at(*transformer.position));
    }
  }
  for (const job::Luminaire& lamp : job.luminaires) {
    const job::LuminaireItem* item = job::find_luminaire(job.catalogue, lamp.item);
    if (!lamp.position) continue;
    draw_luminaire(pen, frame.at(ground_of(*lamp.position)), item == nullptr ? job::LuminaireKind::path : item->kind,
                   lamp.azimuth_deg - job.plan.north_deg);
  }
}

// What is seen of an outline, as a box on paper.
Box seen_box(const PathMm& outline, const Box& paper) {
  double left_mm = paper.right_mm();
  double right_mm = paper.x_mm;
  double top_mm = paper.bottom_mm();
  double bottom_mm = paper.y_mm;
  for (const PointMm& p : outline) {
    left_mm = std::min(left_mm, std::max(p.x_mm, paper.x_mm));
    right_mm = std::max(right_mm, std::min(p.x_mm, paper.right_mm()));
    top_mm = std::min(top_mm, std::max(p.y_mm, paper.y_mm));
    bottom_mm = std::max(bottom_mm, std::min(p.y_mm, paper.bottom_mm()));
  }
  return {left_mm, top_mm, right_mm - left_mm, bottom_mm - top_mm};
}

// Whether a point of the paper belongs to that area and to none that is drawn over it.
bool is_ground_of(std::size_t area, PointMm at, const std::vector<geometry::Polygon>& outlines) {
  const geometry::Point2 point{at.x_mm, at.y_mm};
  if (!geometry::contains(outlines[area], point)) return false;
  return std::none_of(outlines.begin() + static_cast<std::ptrdiff_t>(area) + 1, outlines.end(),
                      [&](const geometry::Polygon& above) { return geometry::contains(above, point); });
}

// As near to the middle of its area as there is room for a name.
void draw_area_names(Pen& pen, const job::Job& job, const PlanFrame& frame, const Box& paper, std::vector<Box> taken) {
  const Lettering look{1.8, false, Anchor::middle, 0, true, grey(0.3)};
  const double height_mm = 1.5 * look.height_mm;
  // In millimetres of paper.
  std::vector<geometry::Polygon> outlines;
  for (const job::Area& area : job.plan.areas) {
    geometry::Polygon outline;
    for (const PointMm& p : frame.at(area.outline)) outline.push_back({p.x_mm, p.y_mm});
    outlines.push_back(std::move(outline));
  }
  for (std::size_t a = 0; a < job.plan.areas.size(); ++a) {
    const job::Area& area = job.plan.areas[a];
    if (area.name.empty() || area.outline.size() < 3) continue;
    const std::string name = shortened(area.name, 40);
    const double width_mm = width_of_letters_mm(name, look);
    const Box seen = seen_box(frame.at(area.outline), paper);
    const PointMm middle{seen.x_mm + seen.width_mm / 2, seen.y_mm + seen.height_mm / 2};
    std::optional<Box> best;
    double least_mm = 1e9;
    const int across = std::min(12, static_cast<int>(seen.width_mm / 8));
    const int down = std::min(20, static_cast<int>(seen.height_mm / 5));
    for (int i = -across; i <= across; ++i) {
      for (int j = -down; j <= down; ++j) {
        const PointMm at{middle.x_mm + i * seen.width_mm / (2.0 * across + 1),
                         middle.y_mm + j * seen.height_mm / (2.0 * down + 1)};
        const double away_mm = std::hypot(at.x_mm - middle.x_mm, at.y_mm - middle.y_mm);
        const Box box{at.x_mm - width_mm / 2, at.y_mm - height_mm / 2, width_mm, height_mm};
        const bool inside = box.x_mm >= paper.x_mm && box.right_mm() <= paper.right_mm() && box.y_mm >= paper.y_mm &&
                            box.bottom_mm() <= paper.bottom_mm();
        if (away_mm >= least_mm || !inside) continue;
        if (!is_ground_of(a, at, outlines) || !is_ground_of(a, {box.x_mm, at.y_mm}, outlines) ||
            !is_ground_of(a, {box.right_mm(), at.y_mm}, outlines)) {
          continue;
        }
        if (std::any_of(taken.begin(), taken.end(), [&](const Box& other) { return overlap(box, other); })) continue;
        best = box;
        least_mm = away_mm;
      }
    }
    if (!best) continue;
    pen.letters({best->x_mm + width_mm / 2, best->y_mm + height_mm / 2 + look.height_mm / 2}, name, look);
    taken.push_back(*best);
  }
}

}  // namespace

PlanLabels plan_labels(const job::Job& job, const PlanLook& look, const PlanFrame& frame, const Box& paper) {
  PlanLabels out;
  out.room.within = paper;
  const double height_mm = job.luminaires.size() > many_labels ? 1.8 : 2.2;
  const auto add = [&](PointMm at, const std::string& text, double clear_mm, bool bold) {
    if (!text.empty()) out.labels.push_back({shortened(text, 24), at, clear_mm, height_mm, bold});
  };
  for (const job::Luminaire& lamp : job.luminaires) {
    if (!lamp.position) continue;
    const PointMm at = frame.at(ground_of(*lamp.position));
    out.room.taken.push_back(around(at, lead_keep_mm));
    add(at, lamp.id, 2.1, false);
  }
  for (const job::Transformer& transformer : job.transformers) {
    if (!transformer.position || !look.transformers) continue;
    const PointMm at = frame.at(*transformer.position);
    out.room.taken.push_back(around(at, 2.6));
    add(at, transformer.id, 3, true);
  }
  for (const job::Joint& joint : job.joints) {
    if (!joint.position || !look.joints) continue;
    const PointMm at = frame.at(*joint.position);
    out.room.taken.push_back(around(at, joint.kind == job::JointKind::hub ? 1.7 : 0.9));
    if (look.joint_labels) add(at, joint.id, 1.4, false);
  }
  if (look.fixed_points) {
    for (const job::FixedPoint& point : job.plan.fixed_points) {
      const PointMm at = frame.at(point.position);
      out.room.taken.push_back(around(at, 1.4));
      add(at, point.id, 2, true);
    }
  }
  if (look.receptacles) {
    for (const job::Receptacle& receptacle : job.plan.receptacles)
      out.room.taken.push_back(around(frame.at(receptacle.position), 1.6));
  }
  if (look.view_points) {
    for (const job::ViewPoint& point : job.plan.view_points)
      out.room.taken.push_back(around(frame.at(ground_of(point.position)), 1.9));
  }
  if (!look.cables) return out;
  for (const job::Cable& cable : job.cables) {
    if (cable.path.size() < 2) continue;
    out.room.lines.push_back(frame.at(cable.path));
    if (!look.cable_labels) continue;
    const PathMm& path = out.room.lines.back();
    const std::size_t mid = (path.size() - 1) / 2;
    add({(path[mid].x_mm + path[mid + 1].x_mm) / 2, (path[mid].y_mm + path[mid + 1].y_mm) / 2}, cable.id, 0.8, false);
  }
  return out;
}

void draw_garden(Pen& pen, const job::Job& job, const PlanLook& look, const PlanFrame& frame, const Box& paper) {
  pen.confine(paper);
  draw_areas(pen, job, frame);
  if (look.trees) {
    for (const job::Tree& tree : job.plan.trees)
      draw_tree(pen, frame.at(tree.position), frame.mm(tree.crown_width_m / 2));
  }
  if (job.plan.property_line.size() > 2) draw_property_line(pen, frame.at(job.plan.property_line));
  draw_wiring(pen, job, look, frame);
  draw_things(pen, job, look, frame);
  const PlanLabels labels = plan_labels(job, look, frame, paper);
  const auto places = place_labels(labels.labels, labels.room);
  std::vector<Box> taken = labels.room.taken;
  for (const auto& place : places) {
    if (place) taken.push_back(place->box);
  }
  draw_area_names(pen, job, frame, paper, taken);
  draw_labels(pen, labels.labels, places);
  pen.release();
  pen.path({{paper.x_mm, paper.y_mm},
            {paper.right_mm(), paper.y_mm},
            {paper.right_mm(), paper.bottom_mm()},
            {paper.x_mm, paper.bottom_mm()}},
           {Width::w018}, true);
}

}  // namespace duskwire::paper
