// SPDX-License-Identifier: Apache-2.0
#include "light/intensity_reader.hpp"

#include <algorithm>

#include "light/eulumdat_reader.hpp"
#include "light/intensity_text.hpp"
#include "light/lm63_head.hpp"
#include "light/lm63_reader.hpp"

namespace duskwire::light {
namespace {

// An LM-63 file has its edition in the first line or, the oldest, at least a TILT line.
bool looks_like_lm63(const std::vector<std::string_view>& lines) {
  if (trimmed(lines[0]).substr(0, 3) == "IES") return true;
  return std::any_of(lines.begin(), lines.end(), [](std::string_view line) { return tilt_of(line).has_value(); });
}

}  // namespace

ReadIntensities read_intensities(std::string_view text) {
  const std::vector<std::string_view> lines = lines_of(text.substr(0, intensity_text_limit_bytes));
  if (std::all_of(lines.begin(), lines.end(), [](std::string_view line) { return trimmed(line).empty(); })) {
    IntensityFindings findings;
    findings.error(0, "", "an LM-63 or EULUMDAT file", "The file is empty. Get it anew from its maker.");
    return {std::nullopt, findings.take()};
  }
  return looks_like_lm63(lines) ? read_lm63(text) : read_eulumdat(text);
}

}  // namespace duskwire::light
