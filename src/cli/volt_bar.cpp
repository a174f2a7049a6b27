// SPDX-License-Identifier: Apache-2.0
#include "cli/volt_bar.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::cli {
namespace {

// Cells kept on each side for volts beyond the window; what lies farther out is drawn at the outermost cell.
constexpr int beyond_cells = 2;

}  // namespace

std::string volt_bar(const VoltSpan& span, int cells, const TextStyle& style) {
  const int left = beyond_cells;
  const int right = cells - 1 - beyond_cells;
  const double window_v = std::max(span.window_max_v - span.window_min_v, 1e-9);
  const auto cell_of = [&](double value_v) {
    const double at = left + (value_v - span.window_min_v) / window_v * (right - left);
    int cell = static_cast<int>(std::lround(std::clamp(at, 0.0, cells - 1.0)));
    // Rounding must not draw a volt on the wrong side of an edge.
    if (value_v < span.window_min_v) cell = std::min(cell, left - 1);
    if (value_v > span.window_max_v) cell = std::max(cell, right + 1);
    return cell;
  };
  const int low = cell_of(span.low_v);
  const int high = cell_of(span.high_v);
  const int now = cell_of(span.nominal_v);
  std::string out;
  for (int cell = 0; cell < cells; ++cell) {
    const bool beyond = cell < left || cell > right;
    const Ink ink = beyond ? Ink::bad : Ink::good;
    if (cell == now) {
      out += paint(style, ink, style.glyphs.now);
    } else if (cell == left || cell == right) {
      out += style.glyphs.edge;
    } else if (cell >= low && cell <= high) {
      out += paint(style, ink, style.glyphs.range);
    } else {
      out += beyond ? style.glyphs.outside : paint(style, Ink::faint, style.glyphs.inside);
    }
  }
  return out;
}

std::string share_bar(double share, int cells, Ink ink, const TextStyle& style) {
  const int full = static_cast<int>(std::lround(std::clamp(share, 0.0, 1.0) * cells));
  std::string filled;
  std::string rest;
  for (int cell = 0; cell < cells; ++cell)
    (cell < full ? filled : rest) += cell < full ? style.glyphs.full : style.glyphs.empty;
  return paint(style, ink, filled) + paint(style, Ink::faint, rest);
}

}  // namespace duskwire::cli
