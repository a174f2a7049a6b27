// SPDX-License-Identifier: Apache-2.0
// What each lamp sees: one line a lamp, grouped by output, in the order of the job, with its volts drawn.
#pragma once

#include <string>

#include "cli/names.hpp"
#include "cli/text_style.hpp"
#include "study/report.hpp"

namespace duskwire::cli {

// The state of a lamp in a word or three, over the corners: "good", "low at worst", "off" ...
struct LampVerdict {
  std::string text;
  Ink ink = Ink::good;
};
[[nodiscard]] LampVerdict verdict_of(const study::LampReport& lamp);

// How far the lamp's volts stay inside its window at worst; negative: outside.
[[nodiscard]] double room_v(const study::LampReport& lamp);

[[nodiscard]] std::string lamps_page(const study::Report& report, const Names& names, const TextStyle& style);

}  // namespace duskwire::cli
