// SPDX-License-Identifier: Apache-2.0
// Where the camera stands, and where parts of the garden lie on the picture: what a person would mark by hand.
#pragma once

#include <string>

#include "daylight.hpp"

namespace duskwire::demo {

// The picture at a share of its full size.
[[nodiscard]] light::Camera demo_camera(double share);

// {"camera": {...}, "outlines": {name: [[x, y], ...]}, "skyline": [[x, y], ...]}: what is seen of the things that have
// a name, and where the sky ends, in pixels of the picture.
[[nodiscard]] std::string marks_json(const Model& model, const Daylight& daylight, const light::Camera& camera);

}  // namespace duskwire::demo
