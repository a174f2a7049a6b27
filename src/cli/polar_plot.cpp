// SPDX-License-Identifier: Apache-2.0
#include "cli/polar_plot.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "cli/quantity.hpp"

namespace duskwire::cli {
namespace {

constexpr int radius_rows = 10;
constexpr int radius_cells = 2 * radius_rows;  // a character is about twice as high as it is wide
constexpr int margin = 4;

enum class Mark { none, scale, axis, across, along };

// Which half has light worth drawing: half a percent of the whole, or more.
struct Halves {
  bool down = true;
  bool up = true;
};

Halves halves_of(const light::Photometry& light) {
  const Halves halves{light.down_pct >= 0.5, light.up_pct >= 0.5};
  return halves.down || halves.up ? halves : Halves{};
}

class Canvas {
 public:
  explicit Canvas(Halves halves)
      : top_(halves.up ? radius_rows : 0), cells_(rows(halves), std::vector<Mark>(2 * radius_cells + 1, Mark::none)) {}

  // `share` of the radius at a gamma, to the right or to the left.
  void put(double gamma_deg, double share, int side, Mark mark) {
    const double gamma = gamma_deg * std::numbers::pi / 180;
    const long column = radius_cells + side * std::lround(share * radius_cells * std::sin(gamma));
    const long row = top_ + std::lround(share * radius_rows * std::cos(gamma));
    if (row < 0 || row >= static_cast<long>(cells_.size())) return;
    Mark& there = cells_[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
    if (mark > there) there = mark;
  }

  [[nodiscard]] std::string text(const TextStyle& style) const {
    std::string out;
    for (const std::vector<Mark>& line : cells_) {
      std::string drawn;
      for (const Mark mark : line) drawn += mark == Mark::none ? " " : painted(mark, style);
      const std::size_t end = drawn.find_last_not_of(' ');
      if (end != std::string::npos) out += std::string(margin, ' ') + drawn.substr(0, end + 1);
      out += '\n';
    }
    return out;
  }

 private:
  static std::size_t rows(Halves halves) { return 1 + radius_rows * ((halves.up ? 1U : 0U) + (halves.down ? 1U : 0U)); }

  static std::string painted(Mark mark, const TextStyle& style) {
    if (mark == Mark::along) return paint(style, Ink::strong, style.glyphs.now);
    if (mark == Mark::across) return "x";
    if (mark == Mark::axis) return "+";
    return paint(style, Ink::faint, style.glyphs.inside);
  }

  int top_;
  std::vector<std::vector<Mark>> cells_;
};

void draw_curve(Canvas& canvas, const light::PolarCurve& curve, double peak_cd, int side, Mark mark) {
  for (std::size_t i = 0; i + 1 < curve.points.size(); ++i) {
    const light::PolarPoint& a = curve.points[i];
    const light::PolarPoint& b = curve.points[i + 1];
    constexpr int pieces = 5;
    for (int piece = 0; piece <= pieces; ++piece) {
      const double t = static_cast<double>(piece) / pieces;
      const double cd = a.intensity_cd + t * (b.intensity_cd - a.intensity_cd);
      if (cd > 0.02 * peak_cd) canvas.put(a.gamma_deg + t * (b.gamma_deg - a.gamma_deg), cd / peak_cd, side, mark);
    }
  }
}

bool same_curves(const light::PolarCurve& a, const light::PolarCurve& b, double peak_cd) {
  for (std::size_t i = 0; i < a.points.size(); ++i) {
    if (std::abs(a.points[i].intensity_cd - b.points[i].intensity_cd) > 0.01 * peak_cd) return false;
  }
  return true;
}

}  // namespace

std::string polar_plot(const light::Photometry& light, const TextStyle& style) {
  const double peak_cd = light.peak_cd;
  if (!(peak_cd > 0) || light.curves.size() != 4) return "";
  Canvas canvas(halves_of(light));
  for (double gamma_deg = 0; gamma_deg <= 180; gamma_deg += 6) {
    for (const int side : {-1, 1}) {
      canvas.put(gamma_deg, 0.5, side, Mark::scale);
      canvas.put(gamma_deg, 1, side, Mark::scale);
    }
  }
  const bool alike =
      same_curves(light.curves[0], light.curves[1], peak_cd) && same_curves(light.curves[2], light.curves[3], peak_cd);
  if (!alike) {
    draw_curve(canvas, light.curves[1], peak_cd, 1, Mark::across);
    draw_curve(canvas, light.curves[3], peak_cd, -1, Mark::across);
  }
  draw_curve(canvas, light.curves[0], peak_cd, 1, Mark::along);
  draw_curve(canvas, light.curves[2], peak_cd, -1, Mark::along);
  canvas.put(0, 0, 1, Mark::axis);
  const std::string along = fmt::format("{} C 180 (left) and C 0 (right)", style.glyphs.now);
  const std::string across = alike ? "; C 90 and C 270 look the same" : "; x C 270 (left) and C 90 (right)";
  return canvas.text(style) + std::string(margin, ' ') +
         paint(style, Ink::faint, fmt::format("{}{}; outer dots {} cd", along, across, number(peak_cd, 0))) + "\n";
}

}  // namespace duskwire::cli
