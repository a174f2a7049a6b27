// SPDX-License-Identifier: Apache-2.0
// What a program asks of the light beside a job, as JSON: how to take levels, what to choose lamps for.
#pragma once

#include <string_view>

#include "formats/requests.hpp"
#include "study/choose.hpp"
#include "study/levels.hpp"

namespace duskwire::formats {

[[nodiscard]] ReadRequest<study::LevelsOptions> read_levels_request(std::string_view text);
[[nodiscard]] ReadRequest<study::ChooseRequest> read_choose_request(std::string_view text);

}  // namespace duskwire::formats
