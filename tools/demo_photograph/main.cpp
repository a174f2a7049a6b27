// SPDX-License-Identifier: Apache-2.0
// demo_photograph PICTURE.jpg MARKS.json [SHARE]: the demo garden's front by daylight as a camera would take it from
// the street, and where its parts lie on the picture. SHARE below 1 makes it smaller, for a look. PICTURE may be -,
// which makes the marks alone.
#include <turbojpeg.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>
#include <thread>
#include <vector>

#include "daylight.hpp"
#include "marks.hpp"

namespace duskwire::demo {
namespace {

constexpr int paths_a_pixel = 28;

// What the lens leaves at the edge of the picture: the fourth power of the cosine, half of it mended by the lens.
double vignette(const light::Camera& camera, double x_px, double y_px) {
  const double off = std::hypot(x_px - camera.principal.x_px, y_px - camera.principal.y_px) / camera.focal_px;
  return std::pow(1 + off * off, -0.55);
}

// Exposure, a curve with a toe and a shoulder as a camera's picture has it, and the noise of its sensor.
std::uint8_t developed(double light, double sensor_noise) {
  const double exposed = std::max(0.0, 1.15 * light + sensor_noise * std::sqrt(std::max(1e-4, light)));
  const double shouldered = exposed < 0.55 ? exposed : 0.55 + 0.45 * (1 - std::exp(-(exposed - 0.55) / 0.45));
  const double encoded = shouldered <= 0.0031308 ? 12.92 * shouldered : 1.055 * std::pow(shouldered, 1 / 2.4) - 0.055;
  const double contrasted = encoded + 0.15 * std::sin((encoded - 0.5) * 6.2831853) * 0.55;
  return static_cast<std::uint8_t>(std::lround(255 * std::clamp(contrasted, 0.0, 1.0)));
}

std::vector<std::uint8_t> photograph(const Daylight& daylight, const light::Camera& camera) {
  const auto width = static_cast<std::uint32_t>(camera.width_px);
  const auto height = static_cast<std::uint32_t>(camera.height_px);
  std::vector<std::uint8_t> rgb(std::size_t{3} * width * height);
  std::atomic<std::uint32_t> next_row{0};
  const auto work = [&] {
    for (std::uint32_t row = next_row++; row < height; row = next_row++) {
      for (std::uint32_t column = 0; column < width; ++column) {
        Dice dice(row * width + column);
        Colour sum;
        for (int i = 0; i < paths_a_pixel; ++i) {
          // Sharp, yet not sharper than a lens: a bell of about half a pixel.
          const geometry::PixelPoint at{column + 0.5 + 0.48 * dice.bell(), row + 0.5 + 0.48 * dice.bell()};
          const Colour one = daylight.seen(camera.position, way_from_pixel(camera, at), dice);
          // A rare bright path would stay as a speck.
          sum = sum + Colour{std::min(one.r, 2.5), std::min(one.g, 2.5), std::min(one.b, 2.5)};
        }
        const double fade = vignette(camera, column + 0.5, row + 0.5) / paths_a_pixel;
        std::uint8_t* out = &rgb[3 * (std::size_t{row} * width + column)];
        out[0] = developed(fade * sum.r, 0.010 * dice.bell());
        out[1] = developed(fade * sum.g, 0.008 * dice.bell());
        out[2] = developed(fade * sum.b, 0.012 * dice.bell());
      }
    }
  };
  std::vector<std::thread> workers;
  for (int i = 0; i < 2; ++i) workers.emplace_back(work);
  for (std::thread& worker : workers) worker.join();
  return rgb;
}

// As a camera's file: small enough for a page, good enough for its grass.
bool write_jpeg(const std::string& path, const light::Camera& camera, const std::vector<std::uint8_t>& rgb) {
  constexpr int quality = 80;
  const tjhandle writer = tjInitCompress();
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  const int failed =
      tjCompress2(writer, rgb.data(), static_cast<int>(camera.width_px), 0, static_cast<int>(camera.height_px),
                  TJPF_RGB, &bytes, &size, TJSAMP_420, quality, TJFLAG_ACCURATEDCT | TJFLAG_PROGRESSIVE);
  std::ofstream file(path, std::ios::binary);
  if (failed == 0) file.write(reinterpret_cast<const char*>(bytes), static_cast<std::streamsize>(size));
  tjFree(bytes);
  tjDestroy(writer);
  return failed == 0 && file.good();
}

}  // namespace
}  // namespace duskwire::demo

int main(int count, char** given) {
  using namespace duskwire::demo;
  if (count < 3) {
    std::fputs("demo_photograph PICTURE.jpg MARKS.json [SHARE]\n", stderr);
    return 2;
  }
  const double share = count > 3 ? std::atof(given[3]) : 1;
  Model model;
  add_house(model);
  add_ground(model);
  add_plants(model);
  const auto camera = demo_camera(share);
  const Daylight daylight(model);
  std::ofstream(given[2]) << marks_json(model, daylight, camera);
  if (std::string(given[1]) == "-") return 0;
  return write_jpeg(given[1], camera, photograph(daylight, camera)) ? 0 : 1;
}
