// SPDX-License-Identifier: Apache-2.0
// Illuminance by inverse square and cosine, E = I cos(i) / r^2 (values.md 5.3), with shadows of what is solid and the
// shade of crowns. Light that bounced is not in it; bounce.hpp adds one bounce.
#pragma once

#include <functional>
#include <memory>
#include <span>
#include <vector>

#include "geometry/ray_caster.hpp"
#include "light/receiver_block.hpp"
#include "light/scene.hpp"

namespace duskwire::light {

struct Care {
  // Light that is below this where it arrives, with nothing solid in the way, is not followed and counts for nothing.
  double faint_lx = 0;
  // Shadow rays end so far off a receiver's surface, on the side that it faces: it does not shade itself. More where
  // receivers come from another measurement than what is solid, as those of a photograph do.
  double lift_m = 0.002;
  // Nothing nearer to a lamp shades it: its own body, the wall that it is fixed to.
  double clear_m = 0.02;
};

// A scene made ready: distributions resampled for quick reading, lamps in frames, the caster built. Immutable.
class LitScene {
 public:
  explicit LitScene(Scene scene);
  // What was resampled for the scene before is taken over where it is the same.
  LitScene(Scene scene, std::shared_ptr<const geometry::RayCaster> caster, const LitScene* before = nullptr);
  ~LitScene();
  LitScene(LitScene&&) noexcept;
  LitScene& operator=(LitScene&&) noexcept;

  [[nodiscard]] const Scene& scene() const;
  [[nodiscard]] const geometry::RayCaster& caster() const;

  // out[i] += lamp `lamp`'s light at receivers[i], in lx. Neighbours in the span should be close in space.
  void add_lamp_lx(std::uint32_t lamp, std::span<const Receiver> receivers, std::span<float> out_lx,
                   const Care& care = {}) const;

  // The same for receivers that lie ready as blocks (receiver_block.hpp).
  void add_lamp_lx(std::uint32_t lamp, std::span<const ReceiverBlock> blocks, std::span<float> out_lx,
                   const Care& care = {}) const;

  // out[i] = the light of all lamps; stops early, with false, where `go_on` says so (asked every few thousand places).
  bool illuminance_lx(std::span<const Receiver> receivers, std::span<float> out_lx, const Care& care = {},
                      const std::function<bool()>& go_on = {}) const;

  // 0 to 1: what is left of a lamp's light on its way to a place; 1 with nothing between.
  [[nodiscard]] double visible_share(geometry::Point3 from, geometry::Point3 to) const;

 private:
  struct Ready;
  std::unique_ptr<Ready> ready_;
};

}  // namespace duskwire::light
