// SPDX-License-Identifier: Apache-2.0
// How quick light is: shadow rays against bare Embree in the same run, a lamp moved at preview size, all lamps on one
// thread and on two. Times are of the processor unless said otherwise. Words: width, height (picture elements), lamps.
#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string_view>
#include <thread>

#include "bare_embree.hpp"
#include "light/illuminance.hpp"
#include "lit_garden.hpp"
#include "thread_time.hpp"

namespace duskwire::bench {
namespace {

using geometry::Ray;
using light::LitScene;
using light::Receiver;

constexpr double faint_lx = 0.01;

template <class Work>
double seconds_of(Work work) {
  const double start = thread_seconds();
  work();
  return thread_seconds() - start;
}

double least_seconds(int times, const auto& work) {
  double least = seconds_of(work);
  for (int i = 1; i < times; ++i) least = std::min(least, seconds_of(work));
  return least;
}

// The caster alone on rays that lie ready.
double caster_seconds(const geometry::RayCaster& caster, const light::Scene& scene, std::span<const Receiver> places,
                      std::uint64_t& blocked_count) {
  std::vector<Ray> rays(places.size());
  std::vector<std::uint8_t> blocked(places.size());
  double seconds = 0;
  for (const light::Lamp& lamp : scene.lamps) {
    for (std::size_t i = 0; i < places.size(); ++i) {
      const geometry::Vec3 way = places[i].position + 0.002 * places[i].normal - lamp.position;
      rays[i] = {{static_cast<float>(lamp.position.x_m), static_cast<float>(lamp.position.y_m),
                  static_cast<float>(lamp.position.z_m)},
                 {static_cast<float>(way.x), static_cast<float>(way.y), static_cast<float>(way.z)},
                 0.005F,
                 0.99999F};
    }
    seconds += seconds_of([&] { caster.occluded(rays, blocked); });
    blocked_count += static_cast<std::uint64_t>(std::count(blocked.begin(), blocked.end(), 1));
  }
  return seconds;
}

void print_rate(std::string_view what, double rays, double seconds, double bare_rate) {
  fmt::print("  {:<46} {:8.1f} ms {:8.1f} M/s {:6.0f} % of bare\n", what, 1e3 * seconds, rays / seconds / 1e6,
             100 * rays / seconds / bare_rate);
}

void on_two_threads(const LitScene& scene, std::span<const Receiver> places, std::span<float> lx) {
  const std::size_t half = places.size() / 2;
  std::thread other([&] { scene.illuminance_lx(places.subspan(half), lx.subspan(half), {.faint_lx = faint_lx}); });
  scene.illuminance_lx(places.first(half), lx.first(half), {.faint_lx = faint_lx});
  other.join();
}

double peak_mb() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

void run(std::uint32_t width_px, std::uint32_t height_px, int lamps) {
  light::Scene garden = lit_garden(lamps);
  const std::shared_ptr<const geometry::RayCaster> own = geometry::own_ray_caster(garden.solid);
  fmt::print("own tree built in {:.1f} ms, quickest caster in {:.1f} ms, for {} triangles\n",
             1e3 * seconds_of([&] { (void)geometry::own_ray_caster(garden.solid); }),
             1e3 * seconds_of([&] { (void)geometry::quickest_ray_caster(garden.solid); }),
             garden.solid.triangles.size());
  const LitScene scene(garden);
  const LitScene on_own(garden, own);
  garden.solid = {};
  garden.crowns.clear();
  const LitScene open(garden);
  const auto places = seen_places(scene.scene(), scene.caster(), width_px, height_px);
  const double pairs = static_cast<double>(places.size()) * lamps;
  fmt::print("{} places of {} x {} picture elements, {} lamps, one thread:\n", places.size(), width_px, height_px,
             lamps);

  const BareRate bare = bare_embree(scene.scene().solid, scene.scene().lamps, places);
  const double rate = bare.rays / bare.seconds;
  print_rate("rtcOccluded8, coherent, packets ready", bare.rays, bare.seconds, rate);
  print_rate("  the same with filling the packets", bare.rays, bare.with_filling_seconds, rate);
  std::uint64_t quickest_blocked = 0;
  std::uint64_t own_blocked = 0;
  print_rate("quickest caster alone", pairs, caster_seconds(scene.caster(), scene.scene(), places, quickest_blocked),
             rate);
  print_rate("own tree alone", pairs, caster_seconds(*own, scene.scene(), places, own_blocked), rate);
  fmt::print("  blocked: bare {}, quickest {}, own {}\n", bare.blocked, quickest_blocked, own_blocked);

  std::vector<float> lx(places.size());
  const auto all = [&](const LitScene& lit, double faint) {
    return least_seconds(2, [&] { lit.illuminance_lx(places, lx, {.faint_lx = faint}); });
  };
  print_rate("all lamps, each followed", pairs, all(scene, 0), rate);
  print_rate("all lamps, faint ones skipped", pairs, all(scene, faint_lx), rate);
  print_rate("the same on the own tree", pairs, all(on_own, faint_lx), rate);
  print_rate("nothing in the way", pairs, all(open, 0), rate);
  print_rate("nothing in the way, faint ones skipped", pairs, all(open, faint_lx), rate);
  double slowest = 0;
  double slowest_own = 0;
  for (std::uint32_t lamp = 0; lamp < scene.scene().lamps.size(); ++lamp) {
    slowest = std::max(slowest, least_seconds(2, [&] { scene.add_lamp_lx(lamp, places, lx, {.faint_lx = faint_lx}); }));
    slowest_own =
        std::max(slowest_own, least_seconds(2, [&] { on_own.add_lamp_lx(lamp, places, lx, {.faint_lx = faint_lx}); }));
  }
  fmt::print("  one lamp moved, the slowest of all: {:.1f} ms, on the own tree {:.1f} ms\n", 1e3 * slowest,
             1e3 * slowest_own);
  const auto start = std::chrono::steady_clock::now();
  on_two_threads(scene, places, lx);
  fmt::print("  all lamps, faint ones skipped, two threads: {:.1f} ms by the clock on the wall\n",
             std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
  fmt::print("peak memory {:.0f} MB\n", peak_mb());
}

}  // namespace
}  // namespace duskwire::bench

int main(int count, char** words) {
  const auto number = [&](int i, int otherwise) { return i < count ? std::atoi(words[i]) : otherwise; };
  duskwire::bench::run(static_cast<std::uint32_t>(number(1, 816)), static_cast<std::uint32_t>(number(2, 612)),
                       number(3, 40));
}
