// SPDX-License-Identifier: Apache-2.0
// The photometry of one intensity file as text for people: facts, polar plot, zonal lumens, ratings, findings.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "study/photometry.hpp"

namespace duskwire::cli {

// Precondition: the answer has a report.
[[nodiscard]] std::string photometry_text(const study::PhotometryAnswer& answer, const TextStyle& style);

}  // namespace duskwire::cli
