// SPDX-License-Identifier: Apache-2.0
// The pen that drawings are made with: lines of the widths of technical drawing, dashes, hatches and lettering, in
// millimetres of paper. What it draws is the same in a PDF, an SVG and a PNG.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "paper/lux_colour.hpp"
#include "paper/page.hpp"

struct _cairo;

namespace duskwire::paper {

struct PointMm {
  double x_mm = 0;
  double y_mm = 0;
};
using PathMm = std::vector<PointMm>;

// Widths in ratios of the square root of two (ISO 128, from memory), so that a line stays a line and wide stays apart
// from narrow on a copy at 70 %.
enum class Width : std::uint8_t {
  w013 = 0,
  w018 = 1,
  w025 = 2,
  w035 = 3,
  w050 = 4,
  w070 = 5,
  w100 = 6,
  w140 = 7,
  w200 = 8
};
[[nodiscard]] double mm_of(Width width);

// Kinds of line that are told apart without colour.
enum class Dash : std::uint8_t { solid = 0, dashed = 1, dotted = 2, chain = 3, long_dashed = 4, double_chain = 5 };

enum class Hatch : std::uint8_t { none = 0, slanted = 1, crossed = 2, dotted = 3, level = 4, wide = 5, tufts = 6 };

inline constexpr Colour black{0, 0, 0, 1};
inline constexpr Colour white{1, 1, 1, 1};
[[nodiscard]] constexpr Colour grey(double lightness) { return {lightness, lightness, lightness, 1}; }

struct Stroke {
  Width width = Width::w025;
  Dash dash = Dash::solid;
  Colour colour = black;
};

enum class Anchor : std::uint8_t { start = 0, middle = 1, end = 2 };

struct Lettering {
  double height_mm = 2.5;  // of a capital letter (ISO 3098: 2.5, titles 3.5; from memory)
  bool bold = false;
  Anchor anchor = Anchor::start;
  double turned_deg = 0;  // clockwise
  bool on_white = false;  // a white edge around the letters, over lines
  Colour colour = black;
};

class Pen {
 public:
  explicit Pen(_cairo* surface, double x_mm = 0, double y_mm = 0) : pen_(surface), x_mm_(x_mm), y_mm_(y_mm) {}

  void line(PointMm from, PointMm to, const Stroke& stroke = {});
  void path(const PathMm& points, const Stroke& stroke = {}, bool closed = false);
  void fill(const PathMm& outline, const Colour& colour);
  void hatch(const PathMm& outline, Hatch kind, const Stroke& stroke = {Width::w013, Dash::solid, grey(0.55)});
  void circle(PointMm centre, double radius_mm, const Stroke& stroke = {});
  void disc(PointMm centre, double radius_mm, const Colour& colour);
  // Clockwise on the paper from one direction to the other; 0 points to the right, 90 down.
  void arc(PointMm centre, double radius_mm, double from_deg, double to_deg, const Stroke& stroke = {});
  // Smooth through the middle points of its legs: how a cable lies.
  void curve(const PathMm& points, const Stroke& stroke = {});
  // One line of text; `at` is on its base line.
  void letters(PointMm at, const std::string& text, const Lettering& look = {});
  // Text broken to a width; `at` is its top left corner. The height that it took.
  double words(PointMm at, double width_mm, const std::string& text, const Lettering& look = {});

  // What follows is drawn within the box alone, until release().
  void confine(const Box& box);
  void release();

 private:
  void trace(const PathMm& points, bool closed);
  void set(const Colour& colour);
  void stroke_now(const Stroke& stroke);

  _cairo* pen_;
  double x_mm_;  // where (0, 0) of the drawing lies on the page
  double y_mm_;
};

// Of one line of text, without its white edge.
[[nodiscard]] double width_of_letters_mm(const std::string& text, const Lettering& look = {});
// The height of text broken to a width, as Pen::words will draw it.
[[nodiscard]] double height_of_words_mm(double width_mm, const std::string& text, const Lettering& look = {});

}  // namespace duskwire::paper
