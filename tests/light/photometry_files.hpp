// SPDX-License-Identifier: Apache-2.0
// The intensity files of tests/reference/photometry (SOURCES.md there says where each is from).
#pragma once

#include <string>

#include "light/intensity_file.hpp"

namespace duskwire::light {

// Bytes of tests/reference/<name>; throws where there is none.
[[nodiscard]] std::string reference_bytes(const std::string& name);

// A file that must be readable.
[[nodiscard]] IntensityFile reference_intensities(const std::string& name);

// A table of one plane, 0 to `end_deg`, of a function of gamma.
[[nodiscard]] Distribution one_plane(double step_deg, double end_deg, double (*value_cd)(double gamma_rad));

}  // namespace duskwire::light
