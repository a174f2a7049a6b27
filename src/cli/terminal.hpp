// SPDX-License-Identifier: Apache-2.0
// What the terminal can do, asked once at start: width, colour, characters.
#pragma once

#include <map>
#include <string>

#include "cli/text_style.hpp"

namespace duskwire::cli {

enum class ColourChoice { automatic, always, never };

// What was found out about the place that output goes to. `environment` holds only the variables that were set.
struct Surroundings {
  bool is_terminal = false;
  int columns = 0;  // as the terminal tells, 0: it does not
  std::map<std::string, std::string> environment = {};
};

[[nodiscard]] Surroundings look_around();

// Colour on a terminal unless NO_COLOR is set (no-color.org: any value but empty) or the terminal is dumb; line art
// unless a locale without UTF-8 was chosen; 80 columns where no width is known.
[[nodiscard]] TextStyle style_for(const Surroundings& surroundings, ColourChoice colour);

}  // namespace duskwire::cli
