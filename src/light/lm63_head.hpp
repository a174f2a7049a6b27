// SPDX-License-Identifier: Apache-2.0
// The first part of an LM-63 file: edition, keywords and the TILT line.
#pragma once

#include <span>

#include "light/intensity_file.hpp"
#include "light/intensity_text.hpp"

namespace duskwire::light {

struct Lm63Head {
  IntensityFormat format = IntensityFormat::lm63_1986;
  std::vector<Keyword> keywords;
  std::string tilt;              // "" where the line is missing, which is an error
  std::size_t numbers_line = 0;  // index of the line behind TILT
};

[[nodiscard]] Lm63Head read_lm63_head(std::span<const std::string_view> lines, IntensityFindings& findings);

// "TILT = NONE" in any case; nothing where a line is no TILT line.
[[nodiscard]] std::optional<std::string_view> tilt_of(std::string_view line);

}  // namespace duskwire::light
