// SPDX-License-Identifier: Apache-2.0
// What photographs tell, as text: the camera and measured lengths of a view, and the first answer to a client.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "job/view.hpp"
#include "study/calibrate_view.hpp"
#include "study/first_look.hpp"

namespace duskwire::cli {

[[nodiscard]] std::string measure_text(const job::View& view, const study::CalibratedView& found,
                                       const TextStyle& style);
[[nodiscard]] std::string look_text(const study::FirstLook& look, const TextStyle& style);

}  // namespace duskwire::cli
