// SPDX-License-Identifier: Apache-2.0
#include "light/night_pieces.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace duskwire::light {
namespace {

using geometry::PixelPoint;

// Where a row's middle crosses the outline, from left to right.
void crossings_of_row(const geometry::PixelOutline& outline, double y_px, std::vector<double>& out) {
  out.clear();
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const PixelPoint& p = outline[i];
    const PixelPoint& q = outline[(i + 1) % outline.size()];
    if ((p.y_px <= y_px) == (q.y_px <= y_px)) continue;
    out.push_back(p.x_px + (y_px - p.y_px) / (q.y_px - p.y_px) * (q.x_px - p.x_px));
  }
  std::sort(out.begin(), out.end());
}

// The first element whose middle lies at or past x.
std::uint32_t element_from(double x_px, std::uint32_t width_px) {
  return static_cast<std::uint32_t>(std::clamp(std::ceil(x_px - 0.5), 0.0, static_cast<double>(width_px)));
}

}  // namespace

void for_each_run(const geometry::PixelOutline& outline, std::uint32_t width_px, std::uint32_t height_px,
                  const std::function<void(std::uint32_t, std::uint32_t, std::uint32_t)>& run) {
  if (outline.size() < 3) return;
  const auto [top, bottom] =
      std::minmax_element(outline.begin(), outline.end(), [](const auto& p, const auto& q) { return p.y_px < q.y_px; });
  const std::uint32_t from = element_from(top->y_px, height_px);
  const std::uint32_t to = element_from(bottom->y_px, height_px);
  std::vector<double> at;
  for (std::uint32_t row = from; row < to; ++row) {
    crossings_of_row(outline, row + 0.5, at);
    for (std::size_t i = 0; i + 1 < at.size(); i += 2) {
      const std::uint32_t first = element_from(at[i], width_px);
      const std::uint32_t last = element_from(at[i + 1], width_px);
      if (first < last) run(row, first, last);
    }
  }
}

}  // namespace duskwire::light
