// SPDX-License-Identifier: Apache-2.0
// The photometry of one lamp: of a file of light intensities, or of a catalogue item as the lamps of a job use it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "job/catalogue.hpp"
#include "light/intensity_file.hpp"
#include "light/photometry.hpp"

namespace duskwire::study {

struct PhotometryReport {
  std::string source;                   // "LM-63-2002", "EULUMDAT" ... or "beam": made from beam angle and lumens
  std::optional<job::BeamShape> shape;  // of such a beam
  std::vector<light::Keyword> labels;
  std::string origin;  // how a file of LM-63-2019 came about
  light::PhotometricType type = light::PhotometricType::c;
  light::IntensitySymmetry symmetry = light::IntensitySymmetry::none;
  std::uint32_t vertical_count = 0;  // angles as listed
  std::uint32_t horizontal_count = 0;
  double power_w = 0;
  std::optional<double> lamp_flux_lm;      // of the bare lamps, where the photometry is relative to them
  std::optional<double> output_ratio_pct;  // what leaves the luminaire of that
  std::optional<double> efficacy_lm_w;
  light::Opening opening;
  std::string tilt;  // NONE, INCLUDE or a file's name
  light::Photometry light;
};

struct PhotometryAnswer {
  std::optional<PhotometryReport> report;  // none where the file cannot be used
  Problems findings;
  std::string lm63;  // the same light as an LM-63 file, where that was asked for
};

[[nodiscard]] PhotometryAnswer photometry_of_file(std::string_view text, bool with_lm63);

// With the light turned to the item's aim, as distribution_of() gives it.
[[nodiscard]] PhotometryAnswer photometry_of_item(const job::LuminaireItem& item, bool with_lm63);

}  // namespace duskwire::study
