// SPDX-License-Identifier: Apache-2.0
// A small drawing of one lamp's volts: the window as two edges, worst low to worst high as a line, nominal as a dot.
// Each bar is scaled to its own lamp's window, so that trouble is where a line crosses an edge.
#pragma once

#include <string>

#include "cli/text_style.hpp"

namespace duskwire::cli {

struct VoltSpan {
  double nominal_v = 0;
  double low_v = 0;   // worst
  double high_v = 0;  // worst
  double window_min_v = 0;
  double window_max_v = 0;
};

// `cells` wide, colours included: the line is bad outside the window. Precondition: cells >= 10.
[[nodiscard]] std::string volt_bar(const VoltSpan& span, int cells, const TextStyle& style);

// A share 0..1 as a filled bar of `cells`.
[[nodiscard]] std::string share_bar(double share, int cells, Ink ink, const TextStyle& style);

}  // namespace duskwire::cli
