// SPDX-License-Identifier: Apache-2.0
// The caster on Embree 3, in packets of eight. Empty where the build has no Embree.
#ifdef DUSKWIRE_EMBREE

#include <embree3/rtcore.h>

#include <algorithm>
#include <cstring>
#include <limits>

#include "geometry/ray_caster.hpp"
#include "geometry/sound_triangles.hpp"

namespace duskwire::geometry {
namespace {

constexpr std::size_t packet = 8;

// One device for the whole program: each holds threads and memory of its own. One thread builds a tree: callers split
// their work among threads themselves.
RTCDevice device() {
  static const RTCDevice shared = rtcNewDevice("threads=1,set_affinity=0");
  return shared;
}

bool finite(const Ray& ray) {
  float sum = ray.from * 0 + ray.to * 0;
  for (std::size_t axis = 0; axis < 3; ++axis) sum += ray.origin_m[axis] * 0 + ray.way[axis] * 0;
  return sum == 0;
}

class EmbreeRayCaster final : public RayCaster {
 public:
  explicit EmbreeRayCaster(const TriangleMesh& mesh) : scene_(rtcNewScene(device())) {
    // Robust: no ray slips between neighbouring triangles.
    rtcSetSceneFlags(scene_, RTC_SCENE_FLAG_ROBUST);
    rtcSetSceneBuildQuality(scene_, RTC_BUILD_QUALITY_HIGH);
    const std::vector<Corners> sound = sound_triangles(mesh);
    if (!sound.empty()) attach(mesh, sound);
    rtcCommitScene(scene_);
  }
  ~EmbreeRayCaster() override { rtcReleaseScene(scene_); }
  EmbreeRayCaster(const EmbreeRayCaster&) = delete;
  EmbreeRayCaster& operator=(const EmbreeRayCaster&) = delete;

  void occluded(std::span<const Ray> rays, std::span<std::uint8_t> blocked) const override {
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    for (std::size_t i = 0; i < rays.size(); i += packet) {
      const std::size_t size = std::min(packet, rays.size() - i);
      ask_packet(rays.subspan(i, size), blocked.data() + i, context);
    }
  }

  [[nodiscard]] std::optional<RayHit> nearest(const Ray& ray) const override {
    if (!finite(ray)) return std::nullopt;
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    RTCRayHit asked{};
    asked.ray = {ray.origin_m[0],
                 ray.origin_m[1],
                 ray.origin_m[2],
                 ray.from,
                 ray.way[0],
                 ray.way[1],
                 ray.way[2],
                 0,
                 ray.to,
                 ~0U,
                 0,
                 0};
    asked.hit.geomID = RTC_INVALID_GEOMETRY_ID;
    rtcIntersect1(scene_, &context, &asked);
    if (asked.hit.geomID == RTC_INVALID_GEOMETRY_ID) return std::nullopt;
    return RayHit{numbers_[asked.hit.primID], asked.ray.tfar};
  }

 private:
  void attach(const TriangleMesh& mesh, const std::vector<Corners>& sound) {
    const RTCGeometry triangles = rtcNewGeometry(device(), RTC_GEOMETRY_TYPE_TRIANGLE);
    auto* corners = static_cast<float*>(rtcSetNewGeometryBuffer(triangles, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                                                3 * sizeof(float), mesh.points_m.size()));
    std::memcpy(corners, mesh.points_m.data(), mesh.points_m.size() * 3 * sizeof(float));
    auto* indices = static_cast<std::uint32_t*>(rtcSetNewGeometryBuffer(
        triangles, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 3 * sizeof(std::uint32_t), sound.size()));
    numbers_.reserve(sound.size());
    for (const Corners& each : sound) {
      const auto& corner_numbers = mesh.triangles[each.triangle];
      indices = std::copy(corner_numbers.begin(), corner_numbers.end(), indices);
      numbers_.push_back(each.triangle);
    }
    rtcSetGeometryBuildQuality(triangles, RTC_BUILD_QUALITY_HIGH);
    rtcCommitGeometry(triangles);
    rtcAttachGeometry(scene_, triangles);
    rtcReleaseGeometry(triangles);
  }

  void ask_packet(std::span<const Ray> rays, std::uint8_t* blocked, RTCIntersectContext& context) const {
    RTCRay8 asked;
    alignas(32) int valid[packet] = {};
    for (std::size_t i = 0; i < packet; ++i) {
      const Ray& ray = rays[std::min(i, rays.size() - 1)];
      valid[i] = i < rays.size() && finite(ray) ? -1 : 0;
      asked.org_x[i] = ray.origin_m[0];
      asked.org_y[i] = ray.origin_m[1];
      asked.org_z[i] = ray.origin_m[2];
      asked.dir_x[i] = ray.way[0];
      asked.dir_y[i] = ray.way[1];
      asked.dir_z[i] = ray.way[2];
      asked.tnear[i] = ray.from;
      asked.tfar[i] = ray.to;
      asked.time[i] = 0;
      asked.mask[i] = ~0U;
      asked.id[i] = 0;
      asked.flags[i] = 0;
    }
    rtcOccluded8(valid, scene_, &context, &asked);
    // Embree sets tfar to minus infinity where the way is not free.
    for (std::size_t i = 0; i < rays.size(); ++i) {
      blocked[i] = valid[i] != 0 && asked.tfar[i] == -std::numeric_limits<float>::infinity() ? 1 : 0;
    }
  }

  RTCScene scene_;
  std::vector<std::uint32_t> numbers_;  // of the mesh, by Embree's number
};

}  // namespace

std::unique_ptr<RayCaster> quickest_ray_caster(const TriangleMesh& mesh) {
  return std::make_unique<EmbreeRayCaster>(mesh);
}

}  // namespace duskwire::geometry

#endif
