// SPDX-License-Identifier: Apache-2.0
// The yardstick: nothing but rtcOccluded8 on packets that lie ready in Embree's own layout.
#pragma once

#include <cstdint>
#include <span>

#include "geometry/triangle_mesh.hpp"
#include "light/scene.hpp"

namespace duskwire::bench {

struct BareRate {
  double rays = 0;
  double seconds = 0;               // in rtcOccluded8 alone
  double with_filling_seconds = 0;  // and in writing the packets
  std::uint64_t blocked = 0;
};

// One ray from every lamp to every place.
[[nodiscard]] BareRate bare_embree(const geometry::TriangleMesh& mesh, std::span<const light::Lamp> lamps,
                                   std::span<const light::Receiver> places);

}  // namespace duskwire::bench
