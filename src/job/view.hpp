// SPDX-License-Identifier: Apache-2.0
// A photograph of the garden and how it belongs to the plan: what fixes its camera, what is outlined on it, how the
// night is shown. Only what a person entered is kept; camera, lengths and light are computed from it anew.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "geometry/pixel.hpp"
#include "geometry/point.hpp"
#include "geometry/vec3.hpp"
#include "job/extra.hpp"

namespace duskwire::job {

// A known point of the garden on the photograph.
struct ViewReference {
  geometry::PixelPoint pixel_px;
  geometry::Point3 site;
  Extra extra;

  bool operator==(const ViewReference&) const = default;
};

enum class CalibrationMethod : std::uint8_t { vanishing_points = 0, focal_length = 1, known_points = 2 };

// A rectangle of known size on the photograph, upright: mostly a wall, also a door or a garage gate.
struct KnownWall {
  geometry::PixelOutline corners_px;  // bottom left, bottom right, top right, top left as seen on the picture
  geometry::Point3 left;              // its lower corners in the garden, as seen from the camera
  geometry::Point3 right;
  double height_m = 0;  // 0: not known, to be fitted
  Extra extra;

  bool operator==(const KnownWall&) const = default;
};

struct Calibration {
  CalibrationMethod method = CalibrationMethod::vanishing_points;
  std::optional<double> focal_px;                          // known beforehand (from the camera's own note), else found
  std::optional<geometry::PixelPoint> principal_point_px;  // where absent the middle of the picture
  std::optional<KnownWall> wall;
  // Lower and upper far corner of a second wall that meets the known one at a right angle and is as high, of unknown
  // width; empty where there is none.
  geometry::PixelOutline adjoining_px;
  std::vector<ViewReference> references;  // further points
  double size_error_pct = 1;              // how far off the known sizes may be, one standard deviation
  double click_error_px = 2;              // how far off a marked corner may be, one standard deviation
  Extra extra;

  bool operator==(const Calibration&) const = default;
};

enum class SurfaceKind : std::uint8_t { wall = 0, ground = 1, roof = 2, steps = 3, other = 4 };

// A plane piece of the garden as outlined on the photograph.
struct PictureSurface {
  std::string id;  // within the view
  std::string name;
  SurfaceKind kind = SurfaceKind::wall;
  geometry::PixelOutline outline_px;
  geometry::Point3 on_plane;          // some point of its plane ...
  geometry::Vec3 normal{0, -1, 0};    // ... and which way it faces, to the lit side; of unit length
  std::optional<double> reflectance;  // mean of the surface; where absent a usual one of its kind
  Extra extra;

  bool operator==(const PictureSurface&) const = default;
};

// A tree or shrub as an upright cut-out through its foot, facing the camera.
struct PictureTree {
  std::string id;
  std::string tree;  // tree of the plan; may be empty
  geometry::PixelOutline outline_px;
  geometry::Point3 foot;
  std::optional<double> reflectance;  // where absent that of leaves
  Extra extra;

  bool operator==(const PictureTree&) const = default;
};

enum class MaskKind : std::uint8_t { sky = 0, window = 1, other = 2 };

// What no lamp lights: the sky, a window with its own light.
struct PictureMask {
  std::string id;
  MaskKind kind = MaskKind::sky;
  geometry::PixelOutline outline_px;
  double luminance_cd_m2 = 0;
  double colour_temperature_k = 2700;
  Extra extra;

  bool operator==(const PictureMask&) const = default;
};

// A length that was measured on the photograph, on the plane of a surface or upright at a foot.
struct PictureMeasure {
  std::string id;
  std::string name;
  std::string surface;  // id of a surface of the view; empty: upright at `from_px`, which stands on the ground
  geometry::PixelPoint from_px;
  geometry::PixelPoint to_px;
  Extra extra;

  bool operator==(const PictureMeasure&) const = default;
};

// How the night is shown.
struct NightLook {
  double camera_share = 0.5;  // 0: as the adapted eye sees it, 1: as a camera would expose it
  double exposure_stops = 0;  // on top
  double ambient_lx = 0.1;    // moon and sky on level ground
  double white_k = 3200;      // light of this colour looks white
  Extra extra;

  bool operator==(const NightLook&) const = default;
};

struct View {
  std::string id;
  std::string name;
  std::string image;    // content hash or file name of the photograph, upright
  double width_px = 0;  // of the photograph, upright; 0: not known
  double height_px = 0;
  std::string taken;       // ISO 8601 date or time
  std::string view_point;  // id in the plan; may be empty
  std::optional<geometry::Point3> position;
  std::optional<Calibration> calibration;
  std::vector<PictureSurface> surfaces;
  std::vector<PictureTree> trees;
  std::vector<PictureMask> masks;
  std::vector<PictureMeasure> measures;
  NightLook night;
  std::string notes;
  Extra extra;

  bool operator==(const View&) const = default;
};

}  // namespace duskwire::job
