// SPDX-License-Identifier: Apache-2.0
#include "formats/plan_dxf.hpp"

#include <cmath>
#include <numbers>
#include <optional>
#include <unordered_map>

#include "formats/dxf_text.hpp"
#include "formats/shape_plan.hpp"

namespace duskwire::formats {
namespace {

using geometry::Point2;

constexpr double word_height_m = 0.25;
constexpr double symbol_m = 0.15;  // half the size of a light

const std::vector<DxfLayer>& layers() {
  static const std::vector<DxfLayer> list{
      {"0", 7, DxfLine::continuous},           {"PROPERTY-LINE", 6, DxfLine::dash_dot},
      {"BUILDING", 7, DxfLine::continuous},    {"GROUND-HARD", 8, DxfLine::continuous},
      {"GROUND-SOFT", 3, DxfLine::continuous}, {"GROUND-WATER", 5, DxfLine::continuous},
      {"GROUND-KEEP-OUT", 1, DxfLine::dashed}, {"TREE", 3, DxfLine::continuous},
      {"FIXED-POINT", 7, DxfLine::continuous}, {"VIEW-POINT", 4, DxfLine::continuous},
      {"RECEPTACLE", 1, DxfLine::continuous},  {"SLEEVE", 8, DxfLine::dashed},
      {"CABLE", 1, DxfLine::continuous},       {"CABLE-NOT-ROUTED", 1, DxfLine::dashed},
      {"JOINT", 1, DxfLine::continuous},       {"TRANSFORMER", 1, DxfLine::continuous},
      {"LIGHT", 2, DxfLine::continuous},       {"LIGHT-AIM", 2, DxfLine::continuous},
      {"WORDS", 7, DxfLine::continuous},       {"NOTE", 7, DxfLine::continuous}};
  return list;
}

const char* layer_of(job::GroundKind kind) {
  switch (kind) {
    case job::GroundKind::building:
    case job::GroundKind::wall:
      return "BUILDING";
    case job::GroundKind::bed:
    case job::GroundKind::lawn:
      return "GROUND-SOFT";
    case job::GroundKind::water:
    case job::GroundKind::pool:
      return "GROUND-WATER";
    case job::GroundKind::root_zone:
    case job::GroundKind::forbidden:
      return "GROUND-KEEP-OUT";
    default:
      return "GROUND-HARD";
  }
}

Point2 level(const geometry::Point3& p) { return {p.x_m, p.y_m}; }

Point2 middle_of(const geometry::Polygon& outline) {
  Point2 sum;
  for (const Point2& p : outline) sum = {sum.x_m + p.x_m, sum.y_m + p.y_m};
  const auto count = static_cast<double>(outline.size());
  return {sum.x_m / count, sum.y_m / count};
}

// Of lines: a polyline within a block is not read alike everywhere.
void rectangle(DxfText& out, double half_x_m, double half_y_m) {
  const Point2 corners[] = {{-half_x_m, -half_y_m}, {half_x_m, -half_y_m}, {half_x_m, half_y_m}, {-half_x_m, half_y_m}};
  for (std::size_t i = 0; i < 4; ++i) out.line("0", corners[i], corners[(i + 1) % 4]);
}

void blocks(DxfText& out) {
  out.begin_block("LIGHT");
  out.circle("0", {}, symbol_m);
  for (const double turn : {0.0, 0.5}) {
    const double a = std::numbers::pi * (turn + 0.25);
    const Point2 end{symbol_m * std::cos(a), symbol_m * std::sin(a)};
    out.line("0", {-end.x_m, -end.y_m}, end);
  }
  out.end_block();
  out.begin_block("TRANSFORMER");
  rectangle(out, 0.25, 0.15);
  out.line("0", {-0.25, -0.15}, {0.25, 0.15});
  out.end_block();
  out.begin_block("JOINT");
  rectangle(out, 0.08, 0.08);
  out.end_block();
  out.begin_block("FIXED-POINT");
  out.line("0", {-0.15, 0}, {0.15, 0});
  out.line("0", {0, -0.15}, {0, 0.15});
  out.end_block();
}

class PlanWriter {
 public:
  explicit PlanWriter(const job::Job& job) : job_(job), out_(layers()) {}

  std::string write() {
    blocks(out_);
    ground();
    points();
    fittings();
    cables();
    note();
    return out_.str();
  }

 private:
  static std::string label(const std::string& id, const std::string& name) {
    return name.empty() ? id : id + " " + name;
  }

  void words(Point2 at, const std::string& text) {
    out_.text("WORDS", {at.x_m + symbol_m * 1.5, at.y_m + symbol_m * 1.5}, word_height_m, text);
  }

  void ground() {
    out_.polyline("PROPERTY-LINE", job_.plan.property_line, true);
    for (const job::Area& area : job_.plan.areas) {
      if (area.outline.size() < 2) continue;
      out_.polyline(layer_of(area.kind), area.outline, true);
      const std::string kind = names(Of<job::GroundKind>{}).at(static_cast<std::size_t>(area.kind));
      out_.text("WORDS", middle_of(area.outline), word_height_m, area.name.empty() ? kind : area.name,
                DxfAnchor::middle);
    }
    for (const job::Tree& tree : job_.plan.trees) {
      if (tree.crown_width_m > 0) out_.circle("TREE", tree.position, tree.crown_width_m / 2);
      out_.circle("TREE", tree.position, 0.15);
      words(tree.position, label(tree.id, tree.name));
    }
    for (const job::Sleeve& sleeve : job_.plan.sleeves) out_.polyline("SLEEVE", sleeve.path, false);
  }

  void points() {
    for (const job::FixedPoint& fixed : job_.plan.fixed_points) {
      out_.insert("FIXED-POINT", "FIXED-POINT", fixed.position);
      words(fixed.position, label(fixed.id, fixed.name));
    }
    for (const job::ViewPoint& view : job_.plan.view_points) {
      out_.circle("VIEW-POINT", level(view.position), 0.1);
      words(level(view.position), label(view.id, view.name));
    }
    for (const job::Receptacle& receptacle : job_.plan.receptacles) {
      out_.circle("RECEPTACLE", receptacle.position, 0.1);
      words(receptacle.position, receptacle.id);
    }
  }

  void fittings() {
    for (const job::Transformer& transformer : job_.transformers) {
      if (!transformer.position) continue;
      out_.insert("TRANSFORMER", "TRANSFORMER", *transformer.position);
      words(*transformer.position, label(transformer.id, transformer.name));
      for (const job::Output& output : transformer.outputs) places_[output.id] = *transformer.position;
    }
    for (const job::Joint& joint : job_.joints) {
      if (!joint.position) continue;
      out_.insert("JOINT", "JOINT", *joint.position);
      words(*joint.position, joint.id);
      places_[joint.id] = *joint.position;
    }
    for (const job::Luminaire& light : job_.luminaires) {
      if (!light.position) continue;
      const Point2 at = level(*light.position);
      out_.insert("LIGHT", "LIGHT", at);
      words(at, light.id);
      aim(light, at);
      places_[light.id] = at;
    }
  }

  // A metre long where it looks level, shorter the steeper it looks. Azimuths run clockwise from the plan's north.
  void aim(const job::Luminaire& light, Point2 at) {
    const double length_m = std::cos(light.tilt_deg * std::numbers::pi / 180);
    if (length_m < 0.05) return;
    const double way = (job_.plan.north_deg - light.azimuth_deg) * std::numbers::pi / 180;
    out_.line("LIGHT-AIM", at, {at.x_m + length_m * std::cos(way), at.y_m + length_m * std::sin(way)});
  }

  std::optional<Point2> place(const std::string& id) const {
    const auto found = places_.find(id);
    return found == places_.end() ? std::nullopt : std::optional(found->second);
  }

  void cables() {
    for (const job::Cable& cable : job_.cables) {
      if (cable.path.size() >= 2) {
        out_.polyline("CABLE", cable.path, false);
        continue;
      }
      const auto from = place(cable.from);
      const auto to = place(cable.to);
      if (from && to) out_.line("CABLE-NOT-ROUTED", *from, *to);
    }
    for (const job::Luminaire& light : job_.luminaires) {
      const auto from = place(light.joint);
      const auto to = place(light.id);
      if (from && to) out_.line("CABLE", *from, *to);
    }
  }

  void note() {
    const Point2 foot = job_.plan.property_line.empty() ? Point2{} : job_.plan.property_line.front();
    const double turn_deg = job_.plan.north_deg;
    const double way = turn_deg * std::numbers::pi / 180;
    const Point2 tip{foot.x_m - 3 + 1.5 * std::cos(way), foot.y_m - 3 + 1.5 * std::sin(way)};
    out_.line("NOTE", {foot.x_m - 3, foot.y_m - 3}, tip);
    out_.text("NOTE", tip, word_height_m, "N", DxfAnchor::middle);
    out_.text("NOTE", {foot.x_m - 3, foot.y_m - 4}, word_height_m, job_.title);
    out_.text("NOTE", {foot.x_m - 3, foot.y_m - 4.5}, word_height_m, "1 unit = 1 m. As planned, not surveyed.");
  }

  const job::Job& job_;
  DxfText out_;
  std::unordered_map<std::string, Point2> places_;
};

}  // namespace

std::string plan_dxf(const job::Job& job) { return PlanWriter(job).write(); }

}  // namespace duskwire::formats
