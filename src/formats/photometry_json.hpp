// SPDX-License-Identifier: Apache-2.0
// The photometry of one lamp as JSON (docs/results.md), and what a program asks for it.
#pragma once

#include <string_view>

#include "formats/json_text.hpp"
#include "formats/requests.hpp"
#include "study/photometry.hpp"

namespace duskwire::formats {

// A file's text, or a catalogue item; with both the file is put in the place of the item's own.
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
