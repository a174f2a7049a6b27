// SPDX-License-Identifier: Apache-2.0
// The light of a garden's lamps at a place: straight, and where it is asked for, what bounced once on walls and ground.
// What the levels and the night plan are taken from. Internal to the room.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "job/job.hpp"
#include "light/bounce.hpp"
#include "light/illuminance.hpp"

namespace duskwire::study {

class GardenLight {
 public:
  // Straight light only. The scene is kept by reference.
  explicit GardenLight(const light::LitScene& scene) : scene_(scene) {}
  // With one bounce on the surfaces of the job's plan.
  GardenLight(const light::LitScene& scene, const job::Job& job);

  [[nodiscard]] const light::LitScene& scene() const { return scene_; }
  [[nodiscard]] const std::optional<light::Bounce>& bounce() const { return bounce_; }
  [[nodiscard]] double patch_m() const { return patch_m_; }

  // Of what bounced, patches that give less than `faint_lx` at a place are not followed there: where there are many
  // places. A thousand such patches are half a lux at the very most.
  static constexpr double usual_faint_lx = 0.0005;

  // out[i] = the light at receivers[i], in lx.
  void illuminance_lx(std::span<const light::Receiver> receivers, std::span<float> out_lx,
                      double faint_lx = usual_faint_lx) const;
  // out[i] += what of it bounced: nothing where it was not asked for.
  void add_bounced_lx(std::span<const light::Receiver> receivers, std::span<float> out_lx,
                      double faint_lx = usual_faint_lx) const;

 private:
  const light::LitScene& scene_;
  double patch_m_ = 0;
  std::optional<light::Bounce> bounce_;
};

// What light bounces on, facing where it is seen from: faces of buildings and walls, and the ground in rows of cells of
// `patch_m` with the levels of decks and treads. Crowns throw nothing back. Reflectances: usual_reflectance().
[[nodiscard]] std::vector<light::MattSurface> matt_surfaces(const job::Job& job, double patch_m);

}  // namespace duskwire::study
