// SPDX-License-Identifier: Apache-2.0
// Lamp by lamp over blocks of neighbouring receivers: what cannot be lit is left out as a block, then the open light,
// then crowns, then shadow rays for what is still bright enough, all from the lamp, so that they run side by side.
#include "light/illuminance.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "light/crown_shade.hpp"
#include "light/lookup_grid.hpp"
#include "light/unshadowed.hpp"

namespace duskwire::light {

using geometry::Bundle;
using geometry::Point3;
using geometry::Ray;
using geometry::RayCaster;
using geometry::Vec3;

struct LitScene::Ready {
  Scene scene;
  std::shared_ptr<const RayCaster> caster;
  std::vector<LookupGrid> grids;
  std::vector<LampFrame> frames;

  void add_lamp(std::uint32_t lamp, const ReceiverBlock& block, const Care& care, std::span<float> out_lx) const;
  void shadow(Point3 from, const ReceiverBlock& block, const Care& care, ReceiverBlock::Numbers& lx) const;
};

namespace {

std::array<float, 3> single(Point3 p) {
  return {static_cast<float>(p.x_m), static_cast<float>(p.y_m), static_cast<float>(p.z_m)};
}

// How many blocks lie between two questions whether to go on.
constexpr std::size_t blocks_per_question = 64;

// Takes the last hair off the way, beyond what lifting does.
constexpr float short_of_end = 1 - 1e-5F;

Ray ray_between(Point3 from, Point3 to, double clear_m) {
  const Vec3 way = to - from;
  const double distance_m = length(way);
  Ray ray;
  ray.origin_m = single(from);
  ray.way = {static_cast<float>(way.x), static_cast<float>(way.y), static_cast<float>(way.z)};
  ray.from = distance_m > 0 ? static_cast<float>(std::min(0.5, clear_m / distance_m)) : 0.0F;
  ray.to = short_of_end;
  return ray;
}

}  // namespace

namespace {

// The shadow rays of a block together. Receivers of a flat block all lie before its surface by what they are lifted,
// and so does the lamp or they were dark: what lies behind half of that meets none of the rays.
Bundle bundle_to(Point3 from, const ReceiverBlock& block, double lift_m) {
  Bundle bundle;
  bundle.origin_m = single(from);
  bundle.middle_m = single(block.base);
  bundle.radius_m = block.radius_m + static_cast<float>(lift_m);
  if (!block.flat) return bundle;
  const Vec3 normal{double{block.normal_x[0]}, double{block.normal_y[0]}, double{block.normal_z[0]}};
  double least_m = 0;
  for (std::size_t i = 0; i < block.count; ++i) {
    least_m = std::min(least_m, dot(normal, Vec3{double{block.x_m[i]}, double{block.y_m[i]}, double{block.z_m[i]}}));
  }
  const double surface_m = dot(normal, block.base - Point3{0, 0, 0}) + least_m;
  if (dot(normal, from - Point3{0, 0, 0}) < surface_m + lift_m) return bundle;
  bundle.normal = {block.normal_x[0], block.normal_y[0], block.normal_z[0]};
  bundle.behind_m = static_cast<float>(surface_m + 0.5 * lift_m);
  return bundle;
}

}  // namespace

void LitScene::Ready::shadow(Point3 from, const ReceiverBlock& block, const Care& care,
                             ReceiverBlock::Numbers& lx) const {
  if (caster->surely_free(bundle_to(from, block, care.lift_m))) return;
  ShadowWays ways;
  find_shadow_ways(from, block, static_cast<float>(care.lift_m), static_cast<float>(care.clear_m), ways);
  std::array<Ray, ReceiverBlock::capacity> rays;
  std::array<std::uint8_t, ReceiverBlock::capacity> place;
  const std::array<float, 3> origin_m = single(from);
  std::size_t count = 0;
  for (std::size_t i = 0; i < block.count; ++i) {
    if (!(lx[i] > 0)) continue;
    rays[count] = {origin_m, {ways.x[i], ways.y[i], ways.z[i]}, ways.from[i], short_of_end};
    place[count++] = static_cast<std::uint8_t>(i);
  }
  if (count == 0) return;
  std::array<std::uint8_t, ReceiverBlock::capacity> blocked;
  caster->occluded(std::span(rays).first(count), std::span(blocked).first(count));
  for (std::size_t k = 0; k < count; ++k) {
    if (blocked[k] != 0) lx[place[k]] = 0;
  }
}

void LitScene::Ready::add_lamp(std::uint32_t lamp, const ReceiverBlock& block, const Care& care,
                               std::span<float> out_lx) const {
  const LampFrame& frame = frames[lamp];
  const LookupGrid& grid = grids[scene.lamps[lamp].distribution];
  const float most_lx = at_most_lx(frame, grid, block);
  if (!(most_lx > 0) || double{most_lx} < care.faint_lx) return;
  alignas(64) ReceiverBlock::Numbers lx;
  unshadowed_lx(frame, grid, block, lx);
  shade_by_crowns(scene.crowns, frame.position, block, lx);
  const auto faint_lx = static_cast<float>(care.faint_lx);
  for (float& each_lx : lx) each_lx = each_lx < faint_lx ? 0 : each_lx;
  if (!scene.solid.triangles.empty()) shadow(frame.position, block, care, lx);
  for (std::size_t i = 0; i < block.count; ++i) out_lx[i] += lx[i];
}

LitScene::LitScene(Scene scene) : LitScene(std::move(scene), nullptr) {}

LitScene::LitScene(Scene scene, std::shared_ptr<const RayCaster> caster, const LitScene* before)
    : ready_(std::make_unique<Ready>()) {
  ready_->scene = std::move(scene);
  ready_->caster = caster ? std::move(caster) : geometry::quickest_ray_caster(ready_->scene.solid);
  for (std::size_t i = 0; i < ready_->scene.distributions.size(); ++i) {
    const Distribution& distribution = ready_->scene.distributions[i];
    const bool is_known = before != nullptr && i < before->ready_->scene.distributions.size() &&
                          before->ready_->scene.distributions[i] == distribution;
    ready_->grids.push_back(is_known ? before->ready_->grids[i] : lookup_grid(distribution));
  }
  for (const Lamp& lamp : ready_->scene.lamps) ready_->frames.push_back(lamp_frame(lamp));
}

LitScene::~LitScene() = default;
LitScene::LitScene(LitScene&&) noexcept = default;
LitScene& LitScene::operator=(LitScene&&) noexcept = default;

const Scene& LitScene::scene() const { return ready_->scene; }
const RayCaster& LitScene::caster() const { return *ready_->caster; }

void LitScene::add_lamp_lx(std::uint32_t lamp, std::span<const Receiver> receivers, std::span<float> out_lx,
                           const Care& care) const {
  ReceiverBlock block;
  for (std::size_t i = 0; i < receivers.size(); i += ReceiverBlock::capacity) {
    const std::size_t size = std::min(ReceiverBlock::capacity, receivers.size() - i);
    fill_block(receivers.subspan(i, size), block);
    ready_->add_lamp(lamp, block, care, out_lx.subspan(i, size));
  }
}

void LitScene::add_lamp_lx(std::uint32_t lamp, std::span<const ReceiverBlock> blocks, std::span<float> out_lx,
                           const Care& care) const {
  std::size_t first = 0;
  for (const ReceiverBlock& block : blocks) {
    ready_->add_lamp(lamp, block, care, out_lx.subspan(first, block.count));
    first += block.count;
  }
}

bool LitScene::illuminance_lx(std::span<const Receiver> receivers, std::span<float> out_lx, const Care& care,
                              const std::function<bool()>& go_on) const {
  const auto lamps = static_cast<std::uint32_t>(ready_->scene.lamps.size());
  ReceiverBlock block;
  for (std::size_t i = 0; i < receivers.size(); i += ReceiverBlock::capacity) {
    if (go_on && i / ReceiverBlock::capacity % blocks_per_question == 0 && !go_on()) return false;
    const std::size_t size = std::min(ReceiverBlock::capacity, receivers.size() - i);
    fill_block(receivers.subspan(i, size), block);
    const std::span<float> out = out_lx.subspan(i, size);
    std::fill(out.begin(), out.end(), 0.0F);
    for (std::uint32_t lamp = 0; lamp < lamps; ++lamp) ready_->add_lamp(lamp, block, care, out);
  }
  return true;
}

double LitScene::visible_share(Point3 from, Point3 to) const {
  const Ray ray = ray_between(from, to, Care{}.clear_m);
  std::uint8_t blocked = 0;
  ready_->caster->occluded({&ray, 1}, {&blocked, 1});
  if (blocked != 0) return 0;
  double share = 1;
  for (const Crown& crown : ready_->scene.crowns) share *= crown_share(crown, from, to);
  return share;
}

}  // namespace duskwire::light
