// SPDX-License-Identifier: Apache-2.0
// Which planes of the whole turn a EULUMDAT file stores, by its symmetry Isym.
#pragma once

#include <span>

#include "light/intensity_file.hpp"
#include "light/intensity_text.hpp"

namespace duskwire::light {

[[nodiscard]] std::size_t eulumdat_plane_count(std::size_t isym, std::size_t c_count);

// Sets symmetry and horizontal angles of the table, in the order in which the planes are stored (Isym 3: -90 to 90).
void choose_eulumdat_planes(ListedTable& listed, std::size_t isym, std::span<const double> c_deg, std::size_t line,
                            IntensityFindings& findings);

}  // namespace duskwire::light
