// SPDX-License-Identifier: Apache-2.0
// A night picture as it is handed to a client: below it a strip that says what it is and what was assumed.
#pragma once

#include <string>
#include <vector>

#include "paper/night_render.hpp"
#include "pictures/picture.hpp"

namespace duskwire::paper {

struct NightCaption {
  std::string title;               // "From the street"
  std::vector<std::string> lines;  // assumptions, a sentence each
};

// "Night impression, calculated ..." and what was assumed, for a view as it was rendered.
[[nodiscard]] NightCaption night_caption(const study::NightView& view, const std::string& view_name,
                                         const std::string& job_title, double adaptation_cd_m2);

[[nodiscard]] pictures::Picture night_sheet(const RenderedNight& night, const NightCaption& caption);

}  // namespace duskwire::paper
