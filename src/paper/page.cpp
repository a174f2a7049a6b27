// SPDX-License-Identifier: Apache-2.0
#include "paper/page.hpp"

#include <algorithm>

namespace duskwire::paper {

Box sheet_of(const PageSetup& setup) {
  Box sheet;
  switch (setup.size) {
    case PageSize::a4:
      sheet = {0, 0, 210, 297};
      break;
    case PageSize::letter:
      sheet = {0, 0, 215.9, 279.4};
      break;
    case PageSize::a3:
      sheet = {0, 0, 297, 420};
      break;
    case PageSize::tabloid:
      sheet = {0, 0, 279.4, 431.8};
      break;
  }
  if (setup.landscape) std::swap(sheet.width_mm, sheet.height_mm);
  return sheet;
}

Box within_margins(const PageSetup& setup) {
  const Box sheet = sheet_of(setup);
  return {setup.filing_edge_mm, setup.margin_mm, sheet.width_mm - setup.filing_edge_mm - setup.margin_mm,
          sheet.height_mm - 2 * setup.margin_mm};
}

bool overlap(const Box& one, const Box& other, double tolerance_mm) {
  return one.x_mm + tolerance_mm < other.right_mm() && other.x_mm + tolerance_mm < one.right_mm() &&
         one.y_mm + tolerance_mm < other.bottom_mm() && other.y_mm + tolerance_mm < one.bottom_mm();
}

}  // namespace duskwire::paper
