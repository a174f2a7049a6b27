// SPDX-License-Identifier: Apache-2.0
#include "paper/picture_ink.hpp"

#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>
#include <string>

#include "pictures/codec.hpp"

namespace duskwire::paper {
namespace {

constexpr double print_px_per_mm = 200 / 25.4;
constexpr int print_quality = 85;

struct End {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Surface = std::shared_ptr<cairo_surface_t>;

Surface surface_of(const pictures::Picture& picture) {
  Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(picture.width_px),
                                             static_cast<int>(picture.height_px)),
                  End{});
  unsigned char* rows = cairo_image_surface_get_data(surface.get());
  if (rows == nullptr) return surface;
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
  for (std::size_t y = 0; y < picture.height_px; ++y) {
    for (std::size_t x = 0; x < picture.width_px; ++x) {
      const std::uint8_t* from = &picture.elements[picture.channels * (y * picture.width_px + x)];
      const std::uint32_t word = (std::uint32_t{from[0]} << 16u) | (std::uint32_t{from[1]} << 8u) | from[2];
      std::memcpy(rows + y * stride + 4 * x, &word, 4);
    }
  }
  cairo_surface_mark_dirty(surface.get());
  return surface;
}

void attach_jpeg(cairo_surface_t* surface, const pictures::Picture& picture) {
  Result<std::string> file = pictures::encode_jpeg(picture, print_quality);
  if (!file) return;
  auto* kept = new std::string(std::move(file).value());
  const cairo_status_t status = cairo_surface_set_mime_data(
      surface, CAIRO_MIME_TYPE_JPEG, reinterpret_cast<const unsigned char*>(kept->data()), kept->size(),
      [](void* held) { delete static_cast<std::string*>(held); }, kept);
  if (status != CAIRO_STATUS_SUCCESS) delete kept;
}

}  // namespace

std::function<void(_cairo*)> picture_ink(const pictures::Picture& picture, const Box& box) {
  pictures::Picture shown = pictures::opaque(picture);
  const auto most_px = static_cast<std::uint32_t>(std::ceil(box.width_mm * print_px_per_mm));
  if (shown.width_px > most_px) {
    const double share = static_cast<double>(most_px) / shown.width_px;
    shown = pictures::shrunk(shown, most_px,
                             static_cast<std::uint32_t>(std::max(1L, std::lround(share * shown.height_px))));
  }
  const Surface surface = surface_of(shown);
  attach_jpeg(surface.get(), shown);
  const double scale = box.width_mm * pt_per_mm / shown.width_px;
  return [surface, scale, box](_cairo* pen) {
    cairo_save(pen);
    cairo_translate(pen, box.x_mm * pt_per_mm, box.y_mm * pt_per_mm);
    cairo_scale(pen, scale, scale);
    cairo_set_source_surface(pen, surface.get(), 0, 0);
    cairo_paint(pen);
    cairo_restore(pen);
  };
}

}  // namespace duskwire::paper
