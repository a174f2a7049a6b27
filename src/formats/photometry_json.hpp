// SPDX-License-Identifier: Apache-2.0
// The photometry of one lamp as JSON (docs/results.md), and what a program asks for it.
#pragma once

#include <string_view>

#include "formats/json_text.hpp"
#include "formats/requests.hpp"
#include "study/photometry.hpp"

namespace duskwire::formats {

// A table of 2.5 by 2.5 degrees over the whole sphere takes some 75,000 characters.
inline constexpr std::uint32_t longest_intensity_file = 200'000;

// A file's text, or a catalogue item.
struct PhotometryRequest {
  std::string file;
  std::optional<job::LuminaireItem> item;
  bool lm63 = false;
};

[[nodiscard]] ReadRequest<PhotometryRequest> read_photometry_request(std::string_view text);

[[nodiscard]] study::PhotometryAnswer answer_photometry(const PhotometryRequest& request);

// {"findings", "report" where there is one, "lm63" where it was asked for}.
[[nodiscard]] Json photometry_json(const study::PhotometryAnswer& answer);

}  // namespace duskwire::formats
