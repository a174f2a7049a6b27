// SPDX-License-Identifier: Apache-2.0
#include "paper/joint_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "paper/crew_words.hpp"
#include "paper/pen.hpp"
#include "study/wording.hpp"

namespace duskwire::paper {
namespace {

constexpr double pitch_mm = 8;          // between the rows of wires
constexpr double block_width_mm = 6.5;  // of a connector
constexpr double between_mm = 6;        // the connectors of A and B
constexpr double least_block_mm = 24;
constexpr double part_mm = 1.7;  // how far the conductors of a cable part
constexpr double hop_mm = 1;     // a line that goes behind a connector stops so far from it
constexpr double title_mm = 9.5;
constexpr double foot_mm = 7;
constexpr std::size_t most_free_shown = 2;
constexpr double jacket_mm = 5;  // of twin cable, before its conductors part
constexpr Stroke line_a{Width::w050, Dash::solid, black};
constexpr Stroke line_b{Width::w050, Dash::dotted, black};
constexpr Lettering small{2.2, false, Anchor::start, 0, true, black};

void mark_a(Pen& pen, PointMm at) { pen.disc(at, 0.9, black); }

void mark_b(Pen& pen, PointMm at) {
  const PathMm square{{at.x_mm - 0.9, at.y_mm - 0.9},
                      {at.x_mm + 0.9, at.y_mm - 0.9},
                      {at.x_mm + 0.9, at.y_mm + 0.9},
                      {at.x_mm - 0.9, at.y_mm + 0.9}};
  pen.fill(square, white);
  pen.path(square, {Width::w035}, true);
}

// A lamp: a circle with a cross (IEC 60617, from memory).
void lamp_symbol(Pen& pen, PointMm at, double radius_mm) {
  const double leg = radius_mm * 0.7071;
  pen.disc(at, radius_mm, white);
  pen.circle(at, radius_mm, {Width::w035});
  pen.line({at.x_mm - leg, at.y_mm - leg}, {at.x_mm + leg, at.y_mm + leg}, {Width::w025});
  pen.line({at.x_mm - leg, at.y_mm + leg}, {at.x_mm + leg, at.y_mm - leg}, {Width::w025});
}

// Two lines in one jacket.
void twin(Pen& pen, double from_x_mm, double to_x_mm, double y_mm) {
  const PathMm jacket{{from_x_mm, y_mm - 1.4}, {to_x_mm, y_mm - 1.4}, {to_x_mm, y_mm + 1.4}, {from_x_mm, y_mm + 1.4}};
  pen.fill(jacket, grey(0.9));
  pen.path(jacket, {Width::w018}, true);
  pen.line({from_x_mm, y_mm - 0.6}, {to_x_mm, y_mm - 0.6}, line_a);
  pen.line({from_x_mm, y_mm + 0.6}, {to_x_mm, y_mm + 0.6}, line_b);
}

std::string size_words(const study::CrewWire& wire, job::DisplayUnits units) {
  if (!wire.area_mm2) return {};
  // A figure and its unit stay on one line.
  std::string words = study::conductor_words(*wire.area_mm2, units);
  const std::size_t unit = words.find(" mm");
  return unit == std::string::npos ? words : words.replace(unit, 1, "\u00a0");
}

std::string wire_words(const study::CrewWire& wire) {
  if (wire.owner == estimate::WireOwner::luminaire_lead) return "lead of " + wire.id;
  return fmt::format("{} {} {}", wire.id, wire.towards_supply ? "from" : "to", wire.other);
}

class Joining {
 public:
  Joining(study::CrewJoint joint, std::string title, job::DisplayUnits units, double width_mm)
      : joint_(std::move(joint)), title_(std::move(title)), units_(units), width_mm_(width_mm) {
    if (!joint_.wires.empty()) {
      supply_ = joint_.wires.front();
      others_.assign(joint_.wires.begin() + 1, joint_.wires.end());
    }
    shown_free_ = std::min<std::size_t>(joint_.spare_ports, most_free_shown);
    block_mm_ = std::max(least_block_mm, static_cast<double>(others_.size() + shown_free_) * pitch_mm);
  }

  [[nodiscard]] double height_mm() const { return title_mm + block_mm_ + foot_mm + note_mm(); }

  void draw(Pen& pen) const {
    pen.path({{0, 0}, {width_mm_, 0}, {width_mm_, height_mm()}, {0, height_mm()}},
             {Width::w018, Dash::solid, grey(0.5)}, true);
    pen.letters({2.5, 5.5}, title_, {2.8, true});
    if (joint_.holds_both) draw_box(pen);
    draw_block(pen, a_x(), "A");
    draw_block(pen, b_x(), "B");
    if (!joint_.wires.empty()) draw_supply(pen);
    for (std::size_t i = 0; i < others_.size(); ++i) draw_other(pen, i);
    for (std::size_t i = others_.size(); i < others_.size() + shown_free_; ++i) draw_free(pen, i);
    pen.words({2.5, height_mm() - note_mm() - 1}, width_mm_ - 5, note(), {2.2});
  }

 private:
  [[nodiscard]] double a_x() const { return width_mm_ * 0.24; }
  [[nodiscard]] double b_x() const { return a_x() + block_width_mm + between_mm; }
  [[nodiscard]] double row_y(std::size_t row) const { return title_mm + (static_cast<double>(row) + 0.5) * pitch_mm; }

  // B's conductor goes behind the connector of A, and A's behind that of B: the line stops short of it on both sides.
  void draw_supply(Pen& pen) const {
    const double y = row_y(0);
    const double end = jacket_mm + 2.5;
    const PointMm a{a_x(), y - part_mm};
    const PointMm b{b_x(), y + part_mm};
    pen.path({{end, y - 0.6}, {end + 4, a.y_mm}, a}, line_a);
    pen.path({{end, y + 0.6}, {end + 4, b.y_mm}, {a_x() - hop_mm, b.y_mm}}, line_b);
    pen.line({a_x() + block_width_mm + hop_mm, b.y_mm}, b, line_b);
    twin(pen, 2.5, end, y);
    mark_a(pen, a);
    mark_b(pen, b);
    const double text_y = y + 4;
    const double used_mm = pen.words({2.5, text_y}, a_x() - 4, wire_words(supply_), {2.2, true});
    pen.words({2.5, text_y + used_mm}, a_x() - 4, size_words(supply_, units_), small);
  }

  void draw_other(Pen& pen, std::size_t row) const {
    const study::CrewWire& wire = others_[row];
    const double y = row_y(row);
    const PointMm a{a_x() + block_width_mm, y - part_mm};
    const PointMm b{b_x() + block_width_mm, y + part_mm};
    const double split = b.x_mm + 8;
    pen.line(a, {b_x() - hop_mm, a.y_mm}, line_a);
    pen.path({{b.x_mm + hop_mm, a.y_mm}, {split - 4, a.y_mm}, {split, y - 0.6}}, line_a);
    pen.path({b, {split - 4, b.y_mm}, {split, y + 0.6}}, line_b);
    twin(pen, split, split + jacket_mm, y);
    mark_a(pen, a);
    mark_b(pen, b);
    double text_x = split + jacket_mm + 1.5;
    if (wire.owner == estimate::WireOwner::luminaire_lead) {
      lamp_symbol(pen, {text_x + 1.3, y}, 1.8);
      text_x += 4.5;
    }
    pen.confine({0, 0, width_mm_ - 0.5, height_mm()});
    pen.letters({text_x, y - 0.2}, wire_words(wire), {2.2, true});
    pen.letters({text_x, y + 2.9}, size_words(wire, units_), small);
    pen.release();
  }

  void draw_free(Pen& pen, std::size_t row) const {
    for (const double x : {a_x() + block_width_mm, b_x() + block_width_mm}) {
      pen.disc({x, row_y(row)}, 1.3, white);
      pen.circle({x, row_y(row)}, 1.3, {Width::w035});
    }
    pen.letters({b_x() + block_width_mm + 3.5, row_y(row) + 0.9}, "free on A and on B", {2.2});
  }

  // One body, or several linked by pigtails.
  void draw_block(Pen& pen, double x, const char* name) const {
    const std::size_t pieces = std::max<std::size_t>(1, joint_.pieces_per_conductor);
    const double piece_mm = block_mm_ / static_cast<double>(pieces);
    for (std::size_t p = 0; p < pieces; ++p) {
      const double y = title_mm + static_cast<double>(p) * piece_mm;
      pen.path({{x, y + 0.4},
                {x + block_width_mm, y + 0.4},
                {x + block_width_mm, y + piece_mm - 0.4},
                {x, y + piece_mm - 0.4}},
               {Width::w070}, true);
      if (p > 0) pen.line({x + block_width_mm / 2, y - 1.2}, {x + block_width_mm / 2, y + 1.2}, line_a);
    }
    pen.letters({x + block_width_mm / 2, title_mm + block_mm_ + 5}, name, {2.8, true, Anchor::middle});
  }

  void draw_box(Pen& pen) const {
    const double left = a_x() - 2;
    const double right = b_x() + block_width_mm + 2;
    const double bottom = title_mm + block_mm_ + 1;
    pen.path({{left, title_mm - 1.4}, {right, title_mm - 1.4}, {right, bottom}, {left, bottom}},
             {Width::w025, Dash::chain}, true);
  }

  [[nodiscard]] std::string note() const {
    if (joint_.connector_title.empty()) return "No connector chosen: choose one that is sealed, held and fits.";
    std::string text =
        joint_.holds_both
            ? fmt::format("{} \u00d7 {}: one box for both, A and B apart.", joint_.pieces, joint_.connector_title)
            : fmt::format("{} \u00d7 {}: {} on A, {} on B.", joint_.pieces, joint_.connector_title,
                          joint_.pieces_per_conductor, joint_.pieces_per_conductor);
    if (joint_.pieces_per_conductor > 1) text += " Link the pieces of one conductor by a pigtail.";
    if (!joint_.fits) text += " It does not take these wires: ask the office.";
    if (joint_.spare_ports > 0) {
      text += fmt::format(" Room for {} more on each: leave it sealed.", joint_.spare_ports);
    } else if (joint_.fits) {
      text += " Full: no port is free.";
    }
    return text;
  }

  [[nodiscard]] double note_mm() const { return height_of_words_mm(width_mm_ - 5, note(), {2.2}) + 2; }

  study::CrewJoint joint_;
  std::string title_;
  job::DisplayUnits units_;
  double width_mm_;
  study::CrewWire supply_;
  std::vector<study::CrewWire> others_;
  std::size_t shown_free_ = 0;
  double block_mm_ = 0;
};

}  // namespace

Drawing joint_drawing(const study::CrewJoint& joint, const std::string& title, job::DisplayUnits units,
                      double width_mm) {
  const Joining picture(joint, title, units, width_mm);
  Drawing drawing;
  drawing.width_mm = width_mm;
  drawing.height_mm = picture.height_mm();
  drawing.draw = [picture](Pen& pen) { picture.draw(pen); };
  std::vector<std::string> wires;
  for (const study::CrewWire& wire : joint.wires) wires.push_back(wire_words(wire));
  drawing.alternative = fmt::format(
      "Joint drawing, {}: {} wires on each of the conductors A and B, with {}; {} free on each. Wires: {}.", title,
      joint.wires_per_conductor, joint.holds_both ? "one box that keeps A and B apart" : "a connector for each",
      joint.spare_ports, joined(wires, "; "));
  return drawing;
}

study::CrewJoint example_joint(job::JointKind kind) {
  study::CrewJoint joint;
  joint.kind = kind;
  joint.connector_title = "sealed connector";
  joint.fits = true;
  joint.pieces_per_conductor = 1;
  joint.pieces = 2;
  joint.spare_ports = 1;
  const auto cable = [](const char* id, const char* other, bool supply) {
    return study::CrewWire{
        supply ? estimate::WireOwner::cable_to : estimate::WireOwner::cable_from, id, other, {}, 0, supply};
  };
  const study::CrewWire lead{estimate::WireOwner::luminaire_lead, "a lamp", "a lamp", {}, 0, false};
  joint.wires = {cable("cable", "supply", true)};
  switch (kind) {
    case job::JointKind::in_line:
      joint.wires.push_back(cable("cable", "next joint", false));
      break;
    case job::JointKind::branch:
      joint.wires.push_back(cable("cable", "next joint", false));
      joint.wires.push_back(lead);
      break;
    case job::JointKind::hub:
      for (int i = 0; i < 4; ++i) joint.wires.push_back(lead);
      break;
    case job::JointKind::end_of_run:
      joint.wires.push_back(lead);
      break;
  }
  joint.wires_per_conductor = static_cast<std::uint32_t>(joint.wires.size());
  return joint;
}

Drawing joint_legend(double width_mm) {
  Drawing drawing;
  drawing.width_mm = width_mm;
  drawing.height_mm = 8;
  drawing.alternative =
      "Legend: conductor A is a full line with round marks, conductor B a dotted line with square marks, a free port "
      "is "
      "an open circle, a lamp a circle with a cross.";
  drawing.draw = [](Pen& pen) {
    pen.line({0, 4}, {10, 4}, line_a);
    mark_a(pen, {5, 4});
    pen.letters({12, 5}, "conductor A, smooth", {2.2});
    pen.line({48, 4}, {58, 4}, line_b);
    mark_b(pen, {53, 4});
    pen.letters({60, 5}, "conductor B, ribbed or marked", {2.2});
    pen.circle({108, 4}, 1.3, {Width::w035});
    pen.letters({111, 5}, "free port, sealed", {2.2});
    lamp_symbol(pen, {142, 4}, 1.8);
    pen.letters({146, 5}, "lamp on its lead", {2.2});
  };
  return drawing;
}

}  // namespace duskwire::paper
