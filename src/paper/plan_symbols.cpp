// SPDX-License-Identifier: Apache-2.0
#include "paper/plan_symbols.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "base/units.hpp"

namespace duskwire::paper {
namespace {

constexpr double radius_mm = sign_mm / 2;

PathMm turned(PointMm at, double towards_deg, const PathMm& shape) {
  const double c = std::cos(towards_deg * units::rad_per_deg);
  const double s = std::sin(towards_deg * units::rad_per_deg);
  PathMm out;
  for (const PointMm& p : shape) {
    out.push_back({at.x_mm + radius_mm * (p.x_mm * c - p.y_mm * s), at.y_mm + radius_mm * (p.x_mm * s + p.y_mm * c)});
  }
  return out;
}

void outlined(Pen& pen, const PathMm& shape, const Colour& inside, Width width = Width::w035) {
  pen.fill(shape, inside);
  pen.path(shape, {width}, true);
}

void ring(Pen& pen, PointMm at, double share, const Colour& inside) {
  pen.disc(at, share * radius_mm, inside);
  pen.circle(at, share * radius_mm, {Width::w035});
}

PathMm half_disc() {
  PathMm shape;
  for (int i = 0; i <= 12; ++i) {
    const double angle = (-90 + 15 * i) * units::rad_per_deg;
    shape.push_back({std::cos(angle), std::sin(angle)});
  }
  return shape;
}

}  // namespace

void draw_luminaire(Pen& pen, PointMm at, job::LuminaireKind kind, double towards_deg) {
  const PathMm arrow_head{{1.1, 0}, {-0.8, 0.85}, {-0.8, -0.85}};
  const PathMm square{{0.85, 0.85}, {-0.85, 0.85}, {-0.85, -0.85}, {0.85, -0.85}};
  const PathMm diamond{{1.05, 0}, {0, 1.05}, {-1.05, 0}, {0, -1.05}};
  switch (kind) {
    case job::LuminaireKind::path:
      ring(pen, at, 0.9, white);
      pen.disc(at, 0.35 * radius_mm, black);
      break;
    case job::LuminaireKind::bullet:
      outlined(pen, turned(at, towards_deg, arrow_head), black);
      break;
    case job::LuminaireKind::wall_wash:
      outlined(pen, turned(at, towards_deg, half_disc()), grey(0.55));
      break;
    case job::LuminaireKind::well:
      outlined(pen, turned(at, 0, square), white);
      ring(pen, at, 0.5, white);
      break;
    case job::LuminaireKind::tree_downlight:
      ring(pen, at, 1, white);
      pen.fill(turned(at, 90, {{0.75, 0}, {-0.45, 0.65}, {-0.45, -0.65}}), black);
      break;
    case job::LuminaireKind::step:
      outlined(pen, turned(at, 0, {{1, 0.4}, {-1, 0.4}, {-1, -0.4}, {1, -0.4}}), black);
      break;
    case job::LuminaireKind::strip:
      outlined(pen, turned(at, towards_deg + 90, {{1.5, 0.35}, {-1.5, 0.35}, {-1.5, -0.35}, {1.5, -0.35}}), white);
      break;
    case job::LuminaireKind::bollard:
      ring(pen, at, 0.95, white);
      pen.line({at.x_mm - 0.95 * radius_mm, at.y_mm}, {at.x_mm + 0.95 * radius_mm, at.y_mm}, {Width::w025});
      pen.line({at.x_mm, at.y_mm - 0.95 * radius_mm}, {at.x_mm, at.y_mm + 0.95 * radius_mm}, {Width::w025});
      break;
    case job::LuminaireKind::underwater:
      ring(pen, at, 1, white);
      for (const double y : {-0.3, 0.35}) {
        pen.path(turned(at, 0, {{-0.75, y}, {-0.35, y - 0.25}, {0, y}, {0.35, y + 0.25}, {0.75, y}}), {Width::w025});
      }
      break;
    case job::LuminaireKind::retrofit_lamp:
      outlined(pen, turned(at, 0, diamond), white);
      break;
    case job::LuminaireKind::halogen_lamp:
      outlined(pen, turned(at, 0, diamond), black);
      break;
  }
}

void draw_transformer(Pen& pen, PointMm at) {
  constexpr double half_mm = 2.3;
  const PathMm box{{at.x_mm - half_mm, at.y_mm - half_mm},
                   {at.x_mm + half_mm, at.y_mm - half_mm},
                   {at.x_mm + half_mm, at.y_mm + half_mm},
                   {at.x_mm - half_mm, at.y_mm + half_mm}};
  outlined(pen, box, white, Width::w070);
  // Two windings.
  pen.circle({at.x_mm - 0.6, at.y_mm}, 1.0, {Width::w025});
  pen.circle({at.x_mm + 0.6, at.y_mm}, 1.0, {Width::w025});
}

void draw_joint(Pen& pen, PointMm at, job::JointKind kind) {
  switch (kind) {
    case job::JointKind::in_line:
      pen.disc(at, 0.75, black);
      break;
    case job::JointKind::branch:
      pen.fill({{at.x_mm, at.y_mm - 1.2}, {at.x_mm + 1.1, at.y_mm + 0.8}, {at.x_mm - 1.1, at.y_mm + 0.8}}, black);
      break;
    case job::JointKind::hub: {
      PathMm hexagon;
      for (int i = 0; i < 6; ++i) {
        const double angle = 60 * i * units::rad_per_deg;
        hexagon.push_back({at.x_mm + 1.7 * std::cos(angle), at.y_mm + 1.7 * std::sin(angle)});
      }
      outlined(pen, hexagon, white);
      pen.disc(at, 0.6, black);
      break;
    }
    case job::JointKind::end_of_run:
      pen.disc(at, 0.8, white);
      pen.circle(at, 0.8, {Width::w035});
      break;
  }
}

void draw_receptacle(Pen& pen, PointMm at) {
  pen.disc(at, 1.5, white);
  pen.circle(at, 1.5, {Width::w025});
  for (const double x_mm : {-0.5, 0.5}) {
    pen.line({at.x_mm + x_mm, at.y_mm - 0.7}, {at.x_mm + x_mm, at.y_mm + 0.7}, {Width::w035});
  }
}

void draw_fixed_point(Pen& pen, PointMm at) {
  pen.circle(at, 1.3, {Width::w025});
  pen.line({at.x_mm - 2.1, at.y_mm}, {at.x_mm + 2.1, at.y_mm}, {Width::w025});
  pen.line({at.x_mm, at.y_mm - 2.1}, {at.x_mm, at.y_mm + 2.1}, {Width::w025});
}

void draw_view_point(Pen& pen, PointMm at) {
  pen.path({{at.x_mm - 1.8, at.y_mm}, {at.x_mm, at.y_mm - 1.1}, {at.x_mm + 1.8, at.y_mm}, {at.x_mm, at.y_mm + 1.1}},
           {Width::w025}, true);
  pen.disc(at, 0.55, black);
}

void draw_tree(Pen& pen, PointMm at, double radius) {
  pen.circle(at, std::max(radius, 1.0), {Width::w018, Dash::dotted, grey(0.3)});
  pen.line({at.x_mm - 0.8, at.y_mm - 0.8}, {at.x_mm + 0.8, at.y_mm + 0.8}, {Width::w025});
  pen.line({at.x_mm - 0.8, at.y_mm + 0.8}, {at.x_mm + 0.8, at.y_mm - 0.8}, {Width::w025});
}

void draw_sleeve(Pen& pen, const PathMm& path) {
  // A tube: its two walls.
  pen.path(path, {Width::w200, Dash::solid, grey(0.2)});
  pen.path(path, {Width::w140, Dash::solid, white});
}

void draw_property_line(Pen& pen, const PathMm& outline, bool closed) {
  pen.path(outline, {Width::w035, Dash::double_chain}, closed);
}

void draw_ground(Pen& pen, const PathMm& outline, job::GroundKind kind) {
  const Stroke faint{Width::w013, Dash::solid, grey(0.55)};
  pen.fill(outline, white);
  switch (kind) {
    case job::GroundKind::lawn:
      break;
    case job::GroundKind::bed:
      pen.hatch(outline, Hatch::tufts, faint);
      break;
    case job::GroundKind::gravel:
      pen.hatch(outline, Hatch::dotted, {Width::w013, Dash::solid, grey(0.35)});
      break;
    case job::GroundKind::paving:
    case job::GroundKind::steps:
      pen.fill(outline, grey(0.94));
      break;
    case job::GroundKind::drive:
    case job::GroundKind::street:
      pen.fill(outline, grey(0.88));
      break;
    case job::GroundKind::building:
      pen.hatch(outline, Hatch::slanted, faint);
      break;
    case job::GroundKind::deck:
      pen.hatch(outline, Hatch::level, faint);
      break;
    case job::GroundKind::wall:
      pen.fill(outline, grey(0.6));
      break;
    case job::GroundKind::water:
    case job::GroundKind::pool:
      pen.fill(outline, grey(0.9));
      pen.hatch(outline, Hatch::level, {Width::w025, Dash::dashed, grey(0.45)});
      break;
    case job::GroundKind::root_zone:
      pen.hatch(outline, Hatch::wide, faint);
      break;
    case job::GroundKind::forbidden:
      pen.hatch(outline, Hatch::crossed, faint);
      break;
  }
  const bool built = kind == job::GroundKind::building || kind == job::GroundKind::wall;
  const bool loose = kind == job::GroundKind::root_zone || kind == job::GroundKind::forbidden;
  pen.path(outline, {built ? Width::w050 : Width::w018, loose ? Dash::dashed : Dash::solid, built ? black : grey(0.3)},
           true);
}

const char* words_of(job::LuminaireKind kind) {
  constexpr std::array<const char*, 11> words{
      "path light",  "bullet uplight", "wall wash",        "in-ground uplight",      "tree downlight", "step light",
      "light strip", "bollard",        "underwater light", "lamp in an old fixture", "halogen lamp"};
  return words.at(static_cast<std::size_t>(kind));
}

const char* words_of(job::JointKind kind) {
  constexpr std::array<const char*, 4> words{"in-line joint", "branch joint", "hub", "end of a run"};
  return words.at(static_cast<std::size_t>(kind));
}

const char* words_of(job::GroundKind kind) {
  constexpr std::array<const char*, 14> words{"bed",       "lawn",    "gravel",   "paving",
                                              "drive",     "street",  "building", "deck",
                                              "wall",      "steps",   "water",    "pool (people in it)",
                                              "root zone", "keep off"};
  return words.at(static_cast<std::size_t>(kind));
}

Stroke cable_stroke(const job::Job& job, const std::string& item) {
  constexpr std::array<Stroke, 5> strokes{{{Width::w070, Dash::solid},
                                           {Width::w035, Dash::solid},
                                           {Width::w050, Dash::dashed},
                                           {Width::w050, Dash::chain},
                                           {Width::w050, Dash::dotted}}};
  // Thickest copper first.
  std::vector<const job::CableItem*> used;
  std::set<std::string> seen;
  for (const job::Cable& cable : job.cables) {
    const job::CableItem* found = job::find_cable(job.catalogue, cable.item);
    if (found != nullptr && seen.insert(cable.item).second) used.push_back(found);
  }
  std::stable_sort(used.begin(), used.end(), [](const auto* a, const auto* b) { return a->area_mm2 > b->area_mm2; });
  const auto at = std::find_if(used.begin(), used.end(), [&](const auto* each) { return each->id == item; });
  return strokes.at(std::min<std::size_t>(static_cast<std::size_t>(at - used.begin()), strokes.size() - 1));
}

}  // namespace duskwire::paper
