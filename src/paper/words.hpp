// SPDX-License-Identifier: Apache-2.0
// A piece of text set to a width, in any script: its lines, how high they are, and drawing some of them. Each letter is
// taken from the first font of our list that has it.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "paper/document.hpp"
#include "paper/lux_colour.hpp"

struct _cairo;
struct _PangoLayout;

namespace duskwire::paper {

struct TextLook {
  double size_pt = 9.5;
  bool bold = false;
  bool italic = false;
  Side side = Side::start;
  double line_pitch = 1.3;  // of the size
  Colour colour{0, 0, 0, 1};
};

class Words {
 public:
  // Broken at `width_mm`; not broken where it is 0. With `one_line` cut off there with dots.
  Words(const std::string& text, const TextLook& look, double width_mm, bool one_line = false);

  [[nodiscard]] std::size_t line_count() const { return lines_.size(); }
  [[nodiscard]] double height_mm() const { return height_mm(0, lines_.size()); }
  [[nodiscard]] double height_mm(std::size_t from, std::size_t to) const;
  // How many lines from `from` on go into a height.
  [[nodiscard]] std::size_t lines_within(std::size_t from, double height_mm) const;
  [[nodiscard]] double width_mm() const { return width_mm_; }  // of the widest line
  [[nodiscard]] double left_mm() const;                        // of the line that begins farthest to the left
  [[nodiscard]] double base_line_mm() const;                   // of the first line, from the top
  [[nodiscard]] std::size_t unknown_glyphs() const { return unknown_glyphs_; }

  // Lines from..to with their top left corner there.
  void draw(_cairo* pen, double x_mm, double y_mm, std::size_t from, std::size_t to) const;
  void draw(_cairo* pen, double x_mm, double y_mm) const { draw(pen, x_mm, y_mm, 0, lines_.size()); }
  // The letters' outlines as a path, for a white edge around them. `at` as for draw().
  void trace(_cairo* pen, double x_mm, double y_mm) const;

 private:
  struct Line {
    double left_pt = 0;
    double base_pt = 0;  // from the top of the text
  };
  std::shared_ptr<_PangoLayout> layout_;
  std::vector<Line> lines_;
  double pitch_pt_ = 0;
  double width_mm_ = 0;
  std::size_t unknown_glyphs_ = 0;
  Colour colour_;
};

}  // namespace duskwire::paper
