// SPDX-License-Identifier: Apache-2.0
#include "study/night_pieces.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "study/night_view.hpp"

namespace duskwire::study {
namespace {

using geometry::Point3;
using geometry::Vec3;
using light::NightPiece;
using light::NightPieceKind;

// A trunk is about so thick for its height (as the scene of light takes it): the cut-out stands on its near side.
constexpr double trunk_share = 1.0 / 80;
constexpr double before_trunk_m = 0.05;

// How far off the plan a wall marked on a photograph may be and still be that wall.
constexpr double most_misfit_m = 0.6;
constexpr double least_misfit_m = 0.03;

class Collector {
 public:
  Collector(const job::Plan& plan, Point3 camera, double scale_x, double scale_y)
      : plan_(plan), camera_(camera), scale_x_(scale_x), scale_y_(scale_y) {}

  void add(const job::PictureMask& mask) {
    NightPiece piece;
    piece.kind = mask.kind == job::MaskKind::sky ? NightPieceKind::sky
                 : mask.luminance_cd_m2 > 0      ? NightPieceKind::glow
                                                 : NightPieceKind::dark;
    piece.luminance_cd_m2 = mask.luminance_cd_m2;
    piece.colour_temperature_k = mask.colour_temperature_k;
    put(std::move(piece), mask.outline_px, mask.id, mask.kind == job::MaskKind::sky ? "Sky" : "Window");
  }

  void add(const job::PictureSurface& surface) {
    NightPiece piece;
    piece.on_plane = surface.on_plane;
    piece.normal = unit(surface.normal);
    piece.reflectance = surface.reflectance.value_or(usual_reflectance(surface.kind));
    put(std::move(piece), surface.outline_px, surface.id, surface.name);
  }

  void add(const job::PictureTree& tree) {
    NightPiece piece;
    piece.kind = NightPieceKind::foliage;
    const Vec3 to_camera = camera_ - tree.foot;
    piece.normal = unit(Vec3{to_camera.x, to_camera.y, 0});
    const auto known = std::find_if(plan_.trees.begin(), plan_.trees.end(),
                                    [&](const job::Tree& other) { return other.id == tree.tree; });
    const double height_m = known == plan_.trees.end() ? 0 : known->height_m;
    piece.on_plane = tree.foot + (before_trunk_m + trunk_share * height_m) * piece.normal;
    piece.reflectance = tree.reflectance.value_or(usual_leaf_reflectance);
    put(std::move(piece), tree.outline_px, tree.id, known == plan_.trees.end() ? "Planting" : known->name);
  }

  NightPieces take() { return std::move(out_); }

 private:
  void put(NightPiece piece, const geometry::PixelOutline& outline, const std::string& id, const std::string& name) {
    piece.outline.reserve(outline.size());
    for (const geometry::PixelPoint& p : outline) piece.outline.push_back({scale_x_ * p.x_px, scale_y_ * p.y_px});
    out_.pieces.push_back(std::move(piece));
    out_.ids.push_back(id);
    out_.names.push_back(name.empty() ? id : name);
  }

  const job::Plan& plan_;
  Point3 camera_;
  double scale_x_;
  double scale_y_;
  NightPieces out_;
};

// Places spread over an outline: between its corners and their middle.
std::vector<geometry::PixelPoint> samples_of(const geometry::PixelOutline& outline) {
  geometry::PixelPoint middle;
  for (const auto& p : outline) {
    middle.x_px += p.x_px / static_cast<double>(outline.size());
    middle.y_px += p.y_px / static_cast<double>(outline.size());
  }
  std::vector<geometry::PixelPoint> samples{middle};
  for (const auto& p : outline) {
    for (const double share : {0.4, 0.8}) {
      samples.push_back({middle.x_px + share * (p.x_px - middle.x_px), middle.y_px + share * (p.y_px - middle.y_px)});
    }
  }
  return samples;
}

}  // namespace

double usual_reflectance(job::SurfaceKind kind) {
  switch (kind) {
    case job::SurfaceKind::wall:
      return 0.4;
    case job::SurfaceKind::ground:
      return 0.15;
    case job::SurfaceKind::roof:
      return 0.12;
    case job::SurfaceKind::steps:
      return 0.3;
    case job::SurfaceKind::other:
      return 0.3;
  }
  return 0.3;
}

NightPieces night_pieces(const job::Plan& plan, const job::View& view, Point3 camera, double scale_x, double scale_y) {
  Collector collector(plan, camera, scale_x, scale_y);
  for (const job::PictureMask& mask : view.masks) {
    if (mask.kind == job::MaskKind::sky) collector.add(mask);
  }
  for (const job::PictureSurface& surface : view.surfaces) collector.add(surface);
  for (const job::PictureMask& mask : view.masks) {
    if (mask.kind != job::MaskKind::sky) collector.add(mask);
  }
  // The farther tree lies behind.
  std::vector<const job::PictureTree*> trees;
  for (const job::PictureTree& tree : view.trees) trees.push_back(&tree);
  std::stable_sort(trees.begin(), trees.end(),
                   [&](const auto* p, const auto* q) { return length(p->foot - camera) > length(q->foot - camera); });
  for (const job::PictureTree* tree : trees) collector.add(*tree);
  return collector.take();
}

double bring_forward(NightPiece& piece, const light::Camera& camera, const geometry::RayCaster& caster) {
  if (piece.kind != NightPieceKind::matt) return 0;
  std::vector<double> misfits;
  for (const geometry::PixelPoint& pixel : samples_of(piece.outline)) {
    const auto place = site_from_pixel(camera, pixel, piece.on_plane, piece.normal);
    if (!place) continue;
    const Point3 from = *place + most_misfit_m * piece.normal;
    const Vec3 way = -most_misfit_m * piece.normal;
    const auto hit =
        caster.nearest({{static_cast<float>(from.x_m), static_cast<float>(from.y_m), static_cast<float>(from.z_m)},
                        {static_cast<float>(way.x), static_cast<float>(way.y), static_cast<float>(way.z)},
                        0,
                        1});
    misfits.push_back(hit ? most_misfit_m * (1 - double{hit->t}) : 0);
  }
  if (misfits.empty()) return 0;
  const auto middle = misfits.begin() + static_cast<std::ptrdiff_t>(misfits.size() / 2);
  std::nth_element(misfits.begin(), middle, misfits.end());
  if (*middle < least_misfit_m) return 0;
  piece.on_plane = piece.on_plane + *middle * piece.normal;
  return *middle;
}

}  // namespace duskwire::study
