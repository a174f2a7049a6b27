// SPDX-License-Identifier: Apache-2.0
// Pages: their sizes, which way up, and the margins with a filing edge. Places on a page are millimetres from its top
// left corner, x to the right and y down.
#pragma once

#include <cstdint>

namespace duskwire::paper {

// One point of type: 1/72 inch.
inline constexpr double pt_per_mm = 72.0 / 25.4;

enum class PageSize : std::uint8_t { a4 = 0, letter = 1, a3 = 2, tabloid = 3 };

// Margins as in ISO 5457: 20 mm at the filing edge (left), 10 mm elsewhere (edition of 1999, from memory).
struct PageSetup {
  PageSize size = PageSize::a4;
  bool landscape = false;
  double filing_edge_mm = 20;
  double margin_mm = 10;

  bool operator==(const PageSetup&) const = default;
};

struct Box {
  double x_mm = 0;
  double y_mm = 0;
  double width_mm = 0;
  double height_mm = 0;

  [[nodiscard]] double right_mm() const { return x_mm + width_mm; }
  [[nodiscard]] double bottom_mm() const { return y_mm + height_mm; }
  bool operator==(const Box&) const = default;
};

// The whole sheet, and what is left within its margins.
[[nodiscard]] Box sheet_of(const PageSetup& setup);
[[nodiscard]] Box within_margins(const PageSetup& setup);

[[nodiscard]] bool overlap(const Box& one, const Box& other, double tolerance_mm = 0.01);

}  // namespace duskwire::paper
