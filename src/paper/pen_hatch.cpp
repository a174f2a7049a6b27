// SPDX-License-Identifier: Apache-2.0
// Hatches: patterns that tell kinds of ground apart on a black-and-white copy. Anchored to the drawing, not to the
// outline, so that neighbours of one kind run into each other.
#include <cairo.h>

#include <algorithm>
#include <cmath>

#include "paper/pen.hpp"

namespace duskwire::paper {
namespace {

// Fewer marks than this on a large area: a hatch must never weigh megabytes.
constexpr double most_marks = 2500;

double pitch_of(Hatch kind) {
  switch (kind) {
    case Hatch::dotted:
      return 2.6;
    case Hatch::tufts:
      return 4;
    case Hatch::wide:
      return 4.5;
    default:
      return 2.2;
  }
}

}  // namespace

void Pen::hatch(const PathMm& outline, Hatch kind, const Stroke& stroke) {
  if (kind == Hatch::none || outline.size() < 3) return;
  PointMm low = outline.front();
  PointMm high = low;
  for (const PointMm& point : outline) {
    low = {std::min(low.x_mm, point.x_mm), std::min(low.y_mm, point.y_mm)};
    high = {std::max(high.x_mm, point.x_mm), std::max(high.y_mm, point.y_mm)};
  }
  const double wide_mm = high.x_mm - low.x_mm;
  const double high_mm = high.y_mm - low.y_mm;
  const bool points = kind == Hatch::dotted || kind == Hatch::tufts;
  double pitch_mm = pitch_of(kind);
  if (points) pitch_mm = std::max(pitch_mm, std::sqrt(wide_mm * high_mm / most_marks));
  cairo_save(pen_);
  trace(outline, true);
  cairo_clip(pen_);
  const auto from = [&](double low_mm) { return std::floor(low_mm / pitch_mm) * pitch_mm; };
  if (points) {
    for (double y_mm = from(low.y_mm); y_mm < high.y_mm; y_mm += pitch_mm) {
      const double shift_mm = (static_cast<long>(std::lround(y_mm / pitch_mm)) % 2 != 0) ? pitch_mm / 2 : 0;
      for (double x_mm = from(low.x_mm) + shift_mm; x_mm < high.x_mm; x_mm += pitch_mm) {
        if (kind == Hatch::dotted) {
          disc({x_mm, y_mm}, 0.25, stroke.colour);
        } else {
          path({{x_mm - 0.5, y_mm - 0.8}, {x_mm, y_mm}, {x_mm + 0.5, y_mm - 0.8}}, stroke);
        }
      }
    }
  } else if (kind == Hatch::level) {
    for (double y_mm = from(low.y_mm); y_mm < high.y_mm; y_mm += pitch_mm)
      line({low.x_mm, y_mm}, {high.x_mm, y_mm}, stroke);
  } else {
    // Where x + y, and x - y, is a whole number of pitches.
    for (double sum_mm = from(low.x_mm + low.y_mm); sum_mm < high.x_mm + high.y_mm; sum_mm += pitch_mm) {
      line({sum_mm - high.y_mm, high.y_mm}, {sum_mm - low.y_mm, low.y_mm}, stroke);
    }
    if (kind == Hatch::crossed) {
      for (double gap_mm = from(low.x_mm - high.y_mm); gap_mm < high.x_mm - low.y_mm; gap_mm += pitch_mm) {
        line({gap_mm + low.y_mm, low.y_mm}, {gap_mm + high.y_mm, high.y_mm}, stroke);
      }
    }
  }
  cairo_restore(pen_);
}

}  // namespace duskwire::paper
