// SPDX-License-Identifier: Apache-2.0
#include <webp/decode.h>
#include <webp/encode.h>

#include <memory>

#include "server/picture_codec.hpp"

namespace duskwire::server {
namespace {

constexpr float quality = 90.0f;

struct Free {
  void operator()(uint8_t* memory) const { WebPFree(memory); }
};
using Owned = std::unique_ptr<uint8_t, Free>;

}  // namespace

Result<CleanPicture> clean_webp(std::string_view bytes) {
  const auto* data = reinterpret_cast<const uint8_t*>(bytes.data());
  WebPBitstreamFeatures found{};
  if (WebPGetFeatures(data, bytes.size(), &found) != VP8_STATUS_OK || found.has_animation != 0) return broken_picture();
  const Result<bool> allowed = size_allowed(found.width, found.height);
  if (!allowed) return allowed.error();
  int width_px = 0;
  int height_px = 0;
  const Owned pixels(WebPDecodeRGBA(data, bytes.size(), &width_px, &height_px));
  if (!pixels) return broken_picture();
  uint8_t* out = nullptr;
  const std::size_t out_bytes = WebPEncodeRGBA(pixels.get(), width_px, height_px, 4 * width_px, quality, &out);
  const Owned owned(out);
  if (out_bytes == 0) return broken_picture();
  return CleanPicture{"image/webp", width_px, height_px, std::string(reinterpret_cast<char*>(out), out_bytes)};
}

}  // namespace duskwire::server
