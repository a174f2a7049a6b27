// SPDX-License-Identifier: Apache-2.0
// First cameras in closed form, as starts for the fit. Several are given, since a plane seen from afar fits two poses
// nearly alike and a plane seen square on does not tell the focal length.
#pragma once

#include <span>
#include <vector>

#include "light/calibrate.hpp"

namespace duskwire::light {

// Cameras that may have taken these places. `frame`: size, principal point and, where known, focal length (else 0).
// Places of a wall come first and lie on one plane; `plane_count` says how many these are, 0 for none.
[[nodiscard]] std::vector<Camera> first_cameras(const Camera& frame, std::span<const KnownPoint> points,
                                                std::size_t plane_count);

}  // namespace duskwire::light
