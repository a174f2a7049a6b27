// SPDX-License-Identifier: Apache-2.0
// A night picture's request and facts as JSON.
#pragma once

#include <string_view>

#include "formats/json_text.hpp"
#include "formats/requests.hpp"
#include "study/night_session.hpp"

namespace duskwire::formats {

[[nodiscard]] ReadRequest<study::NightWish> read_night_wish(std::string_view text);

[[nodiscard]] Json night_facts_json(const study::NightFacts& facts);

// What is not known is null.
[[nodiscard]] Json night_probe_json(const study::NightProbe& probe);

}  // namespace duskwire::formats
