// SPDX-License-Identifier: Apache-2.0
#include "bare_embree.hpp"

#include <embree3/rtcore.h>

#include <cmath>
#include <cstring>
#include <vector>

#include "thread_time.hpp"

namespace duskwire::bench {
namespace {

RTCScene scene_of(RTCDevice device, const geometry::TriangleMesh& mesh) {
  const RTCScene scene = rtcNewScene(device);
  rtcSetSceneBuildQuality(scene, RTC_BUILD_QUALITY_HIGH);
  const RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
  std::memcpy(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 12, mesh.points_m.size()),
              mesh.points_m.data(), 12 * mesh.points_m.size());
  std::memcpy(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 12, mesh.triangles.size()),
              mesh.triangles.data(), 12 * mesh.triangles.size());
  rtcCommitGeometry(geometry);
  rtcAttachGeometry(scene, geometry);
  rtcReleaseGeometry(geometry);
  rtcCommitScene(scene);
  return scene;
}

void fill(RTCRay8& ray, int lane, const light::Lamp& lamp, const light::Receiver& place) {
  ray.org_x[lane] = static_cast<float>(lamp.position.x_m);
  ray.org_y[lane] = static_cast<float>(lamp.position.y_m);
  ray.org_z[lane] = static_cast<float>(lamp.position.z_m);
  ray.dir_x[lane] = static_cast<float>(place.position.x_m + 0.002 * place.normal.x - lamp.position.x_m);
  ray.dir_y[lane] = static_cast<float>(place.position.y_m + 0.002 * place.normal.y - lamp.position.y_m);
  ray.dir_z[lane] = static_cast<float>(place.position.z_m + 0.002 * place.normal.z - lamp.position.z_m);
  ray.tnear[lane] = 0.005F;
  ray.tfar[lane] = 0.99999F;
  ray.time[lane] = 0;
  ray.mask[lane] = ~0U;
  ray.flags[lane] = 0;
}

}  // namespace

BareRate bare_embree(const geometry::TriangleMesh& mesh, std::span<const light::Lamp> lamps,
                     std::span<const light::Receiver> places) {
  const RTCDevice device = rtcNewDevice("threads=1,set_affinity=0");
  const RTCScene scene = scene_of(device, mesh);
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
  alignas(32) const int valid[8] = {-1, -1, -1, -1, -1, -1, -1, -1};
  std::vector<RTCRay8> packets(places.size() / 8);
  BareRate rate;
  for (const light::Lamp& lamp : lamps) {
    const double before = thread_seconds();
    for (std::size_t i = 0; i < packets.size(); ++i) {
      for (int lane = 0; lane < 8; ++lane) fill(packets[i], lane, lamp, places[8 * i + static_cast<std::size_t>(lane)]);
    }
    const double start = thread_seconds();
    for (RTCRay8& packet : packets) rtcOccluded8(valid, scene, &context, &packet);
    const double end = thread_seconds();
    rate.seconds += end - start;
    rate.with_filling_seconds += end - before;
    rate.rays += 8.0 * static_cast<double>(packets.size());
    for (const RTCRay8& packet : packets) {
      for (const float to : packet.tfar) rate.blocked += std::isinf(to) ? 1 : 0;
    }
  }
  rtcReleaseScene(scene);
  rtcReleaseDevice(device);
  return rate;
}

}  // namespace duskwire::bench
