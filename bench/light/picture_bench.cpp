// SPDX-License-Identifier: Apache-2.0
// The whole night of a large photograph: 20,000 triangles, forty lamps, picture to picture, on as many threads as
// asked. Words: width, height (picture elements), lamps, threads.
#include <fmt/format.h>
#include <sys/resource.h>

#include <chrono>
#include <cmath>
#include <cstdlib>

#include "lit_garden.hpp"
#include "paper/night_render.hpp"

namespace duskwire::bench {
namespace {

using geometry::PixelPoint;
using light::NightPiece;
using light::NightPieceKind;

// Grey with a pattern, so that reflectances are not all alike.
light::Photograph patterned(std::uint32_t width_px, std::uint32_t height_px) {
  light::Photograph photograph{width_px, height_px, {}};
  photograph.rgb.resize(std::size_t{3} * width_px * height_px);
  for (std::size_t i = 0; i < photograph.rgb.size(); ++i) {
    photograph.rgb[i] = static_cast<std::uint8_t>(90 + (i * 2654435761U >> 13) % 80);
  }
  return photograph;
}

geometry::PixelOutline box(double left, double top, double right, double bottom) {
  return {{left, top}, {right, top}, {right, bottom}, {left, bottom}};
}

// Sky above, a wall, the ground below, and eight trees as upright cut-outs.
light::NightPlate plate_for(double width_px, double height_px) {
  light::NightPlate plate;
  plate.camera = garden_camera(width_px, height_px);
  NightPiece sky;
  sky.kind = NightPieceKind::sky;
  sky.outline = box(0, 0, width_px, 0.25 * height_px);
  NightPiece wall;
  wall.outline = box(0, 0.15 * height_px, width_px, 0.45 * height_px);
  wall.on_plane = {0, 8, 0};
  wall.normal = {0, -1, 0};
  NightPiece ground;
  ground.outline = box(0, 0.4 * height_px, width_px, height_px);
  ground.on_plane = {0, 0, 0.16};
  plate.pieces = {sky, wall, ground};
  for (int i = 0; i < 8; ++i) {
    NightPiece tree;
    tree.kind = NightPieceKind::foliage;
    tree.outline = box((0.03 + 0.12 * i) * width_px, 0.1 * height_px, (0.1 + 0.12 * i) * width_px, 0.45 * height_px);
    tree.on_plane = {0, 5, 0};
    tree.normal = {0, -1, 0};
    plate.pieces.push_back(tree);
  }
  return plate;
}

void run(std::uint32_t width_px, std::uint32_t height_px, int lamps, unsigned threads) {
  study::NightView view;
  view.plate = plate_for(width_px, height_px);
  view.scene = lit_garden(lamps);
  view.caster = geometry::quickest_ray_caster(view.scene.solid);
  view.lamps.resize(view.scene.lamps.size());
  for (int i = 0; i < lamps; ++i) view.states.push_back({0.5 + 0.01 * i, i % 4 == 0 ? 4000.0 : 2700.0});
  const light::Photograph photograph = patterned(width_px, height_px);
  const auto start = std::chrono::steady_clock::now();
  const auto picture = paper::render_night(photograph, view, threads);
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  const double processor_seconds = static_cast<double>(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) +
                                   1e-6 * static_cast<double>(usage.ru_utime.tv_usec + usage.ru_stime.tv_usec);
  std::uint64_t sum = 0;
  for (const std::uint8_t byte : picture->rgba) sum += byte;
  fmt::print(
      "{} x {}, {} lamps, {} triangles, {} threads: {:.2f} s by the clock on the wall, {:.2f} s of processors in all, "
      "peak memory {:.0f} MB, mean byte {:.1f}\n",
      width_px, height_px, lamps, view.scene.solid.triangles.size(), threads, seconds, processor_seconds,
      static_cast<double>(usage.ru_maxrss) / 1024,
      static_cast<double>(sum) / static_cast<double>(picture->rgba.size()));
}

}  // namespace
}  // namespace duskwire::bench

int main(int count, char** words) {
  const auto number = [&](int i, int otherwise) { return i < count ? std::atoi(words[i]) : otherwise; };
  duskwire::bench::run(static_cast<std::uint32_t>(number(1, 4000)), static_cast<std::uint32_t>(number(2, 3000)),
                       number(3, 40), static_cast<unsigned>(number(4, 2)));
}
