// SPDX-License-Identifier: Apache-2.0
#include <webp/decode.h>
#include <webp/encode.h>

#include <memory>

#include "pictures/codec.hpp"

namespace duskwire::pictures {
namespace {

struct Free {
  void operator()(uint8_t* memory) const { WebPFree(memory); }
};
using Owned = std::unique_ptr<uint8_t, Free>;

}  // namespace

Result<Picture> decode_webp(std::string_view file, const Limits& limits) {
  const auto* data = reinterpret_cast<const uint8_t*>(file.data());
  WebPBitstreamFeatures found{};
  if (WebPGetFeatures(data, file.size(), &found) != VP8_STATUS_OK || found.has_animation != 0) return broken_picture();
  const Result<bool> allowed = size_allowed(found.width, found.height, limits);
  if (!allowed) return allowed.error();
  Picture out{static_cast<std::uint32_t>(found.width),
              static_cast<std::uint32_t>(found.height),
              found.has_alpha != 0 ? 4u : 3u,
              {}};
  out.elements.resize(bytes_of(out.width_px, out.height_px, out.channels));
  const int stride = static_cast<int>(out.channels * out.width_px);
  const auto* read = out.channels == 4
                         ? WebPDecodeRGBAInto(data, file.size(), out.elements.data(), out.elements.size(), stride)
                         : WebPDecodeRGBInto(data, file.size(), out.elements.data(), out.elements.size(), stride);
  if (read == nullptr) return broken_picture();
  return out;
}

Result<std::string> encode_webp(const Picture& picture, float quality) {
  const int width_px = static_cast<int>(picture.width_px);
  const int height_px = static_cast<int>(picture.height_px);
  const int stride = static_cast<int>(picture.channels) * width_px;
  uint8_t* out = nullptr;
  const std::size_t out_bytes =
      picture.channels == 4 ? WebPEncodeRGBA(picture.elements.data(), width_px, height_px, stride, quality, &out)
                            : WebPEncodeRGB(picture.elements.data(), width_px, height_px, stride, quality, &out);
  const Owned owned(out);
  if (out_bytes == 0) return cannot_write_picture();
  return std::string(reinterpret_cast<char*>(out), out_bytes);
}

}  // namespace duskwire::pictures
