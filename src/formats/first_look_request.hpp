// SPDX-License-Identifier: Apache-2.0
// What a program asks of a first look at a photograph, as JSON.
#pragma once

#include <string_view>

#include "formats/requests.hpp"
#include "study/first_look.hpp"

namespace duskwire::formats {

[[nodiscard]] ReadRequest<study::FirstLookRequest> read_first_look_request(std::string_view text);

}  // namespace duskwire::formats
