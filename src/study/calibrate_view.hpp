// SPDX-License-Identifier: Apache-2.0
// The verb `calibrate`: the camera of a view, what its marked lengths come to and how sure they are, planes that may be
// outlined next, and what to do where the picture does not tell enough.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "job/site.hpp"
#include "job/view.hpp"
#include "light/calibrate.hpp"

namespace duskwire::study {

struct MeasuredLength {
  std::string id;
  std::string name;
  std::optional<double> length_m;  // absent: see `problem`
  double error_m = 0;              // one standard deviation
  double error_95_m = 0;           // 95 of 100 lie within it
  std::string problem;
};

struct ProposedPlane {
  std::string id;
  std::string name;
  job::SurfaceKind kind = job::SurfaceKind::wall;
  geometry::Point3 on_plane;
  geometry::Vec3 normal;
  std::string note;  // what is assumed
};

struct CalibratedView {
  std::optional<light::Calibrated> calibrated;
  std::string problem;  // why there is no camera
  std::vector<MeasuredLength> measures;
  std::vector<ProposedPlane> planes;
  std::vector<std::string> findings;  // sentences, each with its cure
};

// The camera for a picture of this size: marks are scaled where the view's own size is another. A view whose size is
// not known is taken to have this one.
[[nodiscard]] Result<light::Calibrated> calibrated_view(const job::View& view, double width_px, double height_px);

// At the view's own size; sentences in these units.
[[nodiscard]] CalibratedView calibrate_view(const job::View& view, job::DisplayUnits units = job::DisplayUnits::metric);

}  // namespace duskwire::study
