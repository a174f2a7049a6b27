// SPDX-License-Identifier: Apache-2.0
#include "paper/pen.hpp"

#include <cairo.h>

#include <array>
#include <cmath>

#include "base/units.hpp"
#include "paper/words.hpp"

namespace duskwire::paper {
namespace {

// A capital of Noto Sans is 0.714 of the font's size high.
constexpr double capital_share = 0.714;

TextLook look_of(const Lettering& look) {
  TextLook text;
  text.size_pt = look.height_mm / capital_share * pt_per_mm;
  text.bold = look.bold;
  text.line_pitch = 1.2;
  text.side = look.anchor == Anchor::start ? Side::start : look.anchor == Anchor::middle ? Side::middle : Side::end;
  text.colour = look.colour;
  return text;
}

std::vector<double> pattern_of(Dash dash, double width_mm) {
  const double unit = std::max(width_mm, 0.25);
  switch (dash) {
    case Dash::solid:
      return {};
    case Dash::dashed:
      return {8 * unit, 4 * unit};
    case Dash::dotted:
      return {1.2 * unit, 3 * unit};
    case Dash::chain:
      return {14 * unit, 3.5 * unit, 1.2 * unit, 3.5 * unit};
    case Dash::long_dashed:
      return {18 * unit, 5 * unit};
    case Dash::double_chain:
      return {14 * unit, 3.5 * unit, 1.2 * unit, 2.5 * unit, 1.2 * unit, 3.5 * unit};
  }
  return {};
}

}  // namespace

double mm_of(Width width) {
  constexpr std::array<double, 9> widths_mm{0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0};
  return widths_mm.at(static_cast<std::size_t>(width));
}

void Pen::set(const Colour& colour) {
  cairo_set_source_rgba(pen_, colour.red, colour.green, colour.blue, colour.alpha);
}

void Pen::trace(const PathMm& points, bool closed) {
  cairo_new_path(pen_);
  for (const PointMm& point : points)
    cairo_line_to(pen_, (x_mm_ + point.x_mm) * pt_per_mm, (y_mm_ + point.y_mm) * pt_per_mm);
  if (closed) cairo_close_path(pen_);
}

void Pen::stroke_now(const Stroke& stroke) {
  const double width_mm = mm_of(stroke.width);
  cairo_set_line_width(pen_, width_mm * pt_per_mm);
  std::vector<double> pattern = pattern_of(stroke.dash, width_mm);
  for (double& length : pattern) length *= pt_per_mm;
  cairo_set_dash(pen_, pattern.data(), static_cast<int>(pattern.size()), 0);
  cairo_set_line_cap(pen_, stroke.dash == Dash::solid ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(pen_, CAIRO_LINE_JOIN_ROUND);
  set(stroke.colour);
  cairo_stroke(pen_);
}

void Pen::line(PointMm from, PointMm to, const Stroke& stroke) { path({from, to}, stroke); }

void Pen::path(const PathMm& points, const Stroke& stroke, bool closed) {
  if (points.size() < 2) return;
  trace(points, closed);
  stroke_now(stroke);
}

void Pen::fill(const PathMm& outline, const Colour& colour) {
  if (outline.size() < 3) return;
  trace(outline, true);
  set(colour);
  cairo_fill(pen_);
}

void Pen::circle(PointMm centre, double radius_mm, const Stroke& stroke) { arc(centre, radius_mm, 0, 360, stroke); }

void Pen::disc(PointMm centre, double radius_mm, const Colour& colour) {
  cairo_new_path(pen_);
  cairo_arc(pen_, (x_mm_ + centre.x_mm) * pt_per_mm, (y_mm_ + centre.y_mm) * pt_per_mm, radius_mm * pt_per_mm, 0,
            2 * M_PI);
  set(colour);
  cairo_fill(pen_);
}

void Pen::arc(PointMm centre, double radius_mm, double from_deg, double to_deg, const Stroke& stroke) {
  cairo_new_path(pen_);
  cairo_arc(pen_, (x_mm_ + centre.x_mm) * pt_per_mm, (y_mm_ + centre.y_mm) * pt_per_mm, radius_mm * pt_per_mm,
            from_deg * units::rad_per_deg, to_deg * units::rad_per_deg);
  stroke_now(stroke);
}

void Pen::curve(const PathMm& points, const Stroke& stroke) {
  if (points.size() < 3) return path(points, stroke);
  const auto x = [&](double x_mm) { return (x_mm_ + x_mm) * pt_per_mm; };
  const auto y = [&](double y_mm) { return (y_mm_ + y_mm) * pt_per_mm; };
  cairo_new_path(pen_);
  cairo_move_to(pen_, x(points.front().x_mm), y(points.front().y_mm));
  for (std::size_t i = 1; i + 1 < points.size(); ++i) {
    const bool last = i + 2 == points.size();
    const PointMm& bend = points[i];
    const PointMm& next = points[i + 1];
    const PointMm to = last ? next : PointMm{(bend.x_mm + next.x_mm) / 2, (bend.y_mm + next.y_mm) / 2};
    double from_x = 0;
    double from_y = 0;
    cairo_get_current_point(pen_, &from_x, &from_y);
    // A quadratic curve with its control at the bend, as a cubic one.
    cairo_curve_to(pen_, from_x + 2.0 / 3 * (x(bend.x_mm) - from_x), from_y + 2.0 / 3 * (y(bend.y_mm) - from_y),
                   x(to.x_mm) + 2.0 / 3 * (x(bend.x_mm) - x(to.x_mm)),
                   y(to.y_mm) + 2.0 / 3 * (y(bend.y_mm) - y(to.y_mm)), x(to.x_mm), y(to.y_mm));
  }
  stroke_now(stroke);
}

void Pen::letters(PointMm at, const std::string& text, const Lettering& look) {
  const Words words(text, look_of(look), 0);
  const double share = look.anchor == Anchor::start ? 0 : look.anchor == Anchor::middle ? 0.5 : 1;
  cairo_save(pen_);
  cairo_translate(pen_, (x_mm_ + at.x_mm) * pt_per_mm, (y_mm_ + at.y_mm) * pt_per_mm);
  cairo_rotate(pen_, look.turned_deg * units::rad_per_deg);
  const double left_mm = -share * words.width_mm();
  if (look.on_white) {
    cairo_new_path(pen_);
    words.trace(pen_, left_mm, -words.base_line_mm());
    cairo_set_dash(pen_, nullptr, 0, 0);
    cairo_set_line_join(pen_, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_width(pen_, 0.35 * look.height_mm * pt_per_mm);
    set(white);
    cairo_stroke(pen_);
  }
  words.draw(pen_, left_mm, -words.base_line_mm());
  cairo_restore(pen_);
}

double Pen::words(PointMm at, double width_mm, const std::string& text, const Lettering& look) {
  const Words set_words(text, look_of(look), width_mm);
  set_words.draw(pen_, x_mm_ + at.x_mm, y_mm_ + at.y_mm);
  return set_words.height_mm();
}

void Pen::confine(const Box& box) {
  cairo_save(pen_);
  cairo_rectangle(pen_, (x_mm_ + box.x_mm) * pt_per_mm, (y_mm_ + box.y_mm) * pt_per_mm, box.width_mm * pt_per_mm,
                  box.height_mm * pt_per_mm);
  cairo_clip(pen_);
}

void Pen::release() { cairo_restore(pen_); }

double width_of_letters_mm(const std::string& text, const Lettering& look) {
  return Words(text, look_of(look), 0).width_mm();
}

double height_of_words_mm(double width_mm, const std::string& text, const Lettering& look) {
  return Words(text, look_of(look), width_mm).height_mm();
}

}  // namespace duskwire::paper
