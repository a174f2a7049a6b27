// SPDX-License-Identifier: Apache-2.0
// What the first and last horizontal angle of an LM-63 file say about the planes it does not list.
#pragma once

#include "light/intensity_file.hpp"
#include "light/intensity_text.hpp"

namespace duskwire::light {

// Checks the angles, sets the table's symmetry. `line` is where the list ends.
void check_horizontal_angles(ListedTable& listed, std::size_t line, IntensityFindings& findings);

}  // namespace duskwire::light
