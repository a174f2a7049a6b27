// SPDX-License-Identifier: Apache-2.0
// What a view's calibration comes to, as JSON (docs/results.md).
#pragma once

#include "formats/json_text.hpp"
#include "study/calibrate_view.hpp"

namespace duskwire::formats {

[[nodiscard]] Json calibration_json(const study::CalibratedView& view);

}  // namespace duskwire::formats
