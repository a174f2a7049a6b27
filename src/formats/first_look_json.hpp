// SPDX-License-Identifier: Apache-2.0
// The first answer to a photograph, as JSON (docs/results.md).
#pragma once

#include "formats/json_text.hpp"
#include "study/first_look.hpp"

namespace duskwire::formats {

[[nodiscard]] Json first_look_json(const study::FirstLook& look);

}  // namespace duskwire::formats
