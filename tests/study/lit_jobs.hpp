// SPDX-License-Identifier: Apache-2.0
// Small gardens for the tests of light: a bare lot, north up, with articles whose light is easy to reckon.
#pragma once

#include <string>

#include "job/job.hpp"

namespace duskwire::study::tests {

// Articles: "bullet-36" and "bullet-60" (450 lm), "well-60", "wash-90" (380 lm), "path" (140 lm, all round),
// "step" (60 lm), "downlight-60" (420 lm); all 6 W regulated.
[[nodiscard]] job::Job bare_lot();

job::Luminaire& place_lamp(job::Job& job, const std::string& id, const std::string& item, geometry::Point3 position);
job::Area& add_area(job::Job& job, const std::string& id, job::GroundKind kind, geometry::Polygon outline,
                    double height_m = 0);
job::ViewPoint& add_eye(job::Job& job, const std::string& id, job::ViewPointKind kind, geometry::Point3 position);

// A rectangle from its south-west to its north-east corner.
[[nodiscard]] geometry::Polygon rectangle(double west_m, double south_m, double east_m, double north_m);

}  // namespace duskwire::study::tests
