// SPDX-License-Identifier: Apache-2.0
#include <png.h>

#include <utility>

#include "pictures/codec.hpp"

namespace duskwire::pictures {
namespace {

// libpng's simple interface keeps its state here and must be told when we are done.
struct Image {
  png_image state{};
  Image() { state.version = PNG_IMAGE_VERSION; }
  ~Image() { png_image_free(&state); }
  Image(const Image&) = delete;
  Image& operator=(const Image&) = delete;
};

}  // namespace

Result<Picture> decode_png(std::string_view file, const Limits& limits) {
  Image reader;
  if (png_image_begin_read_from_memory(&reader.state, file.data(), file.size()) == 0) return broken_picture();
  const Result<bool> allowed = size_allowed(reader.state.width, reader.state.height, limits);
  if (!allowed) return allowed.error();
  const bool has_alpha = (reader.state.format & PNG_FORMAT_FLAG_ALPHA) != 0;
  reader.state.format = has_alpha ? PNG_FORMAT_RGBA : PNG_FORMAT_RGB;
  Picture out{reader.state.width, reader.state.height, has_alpha ? 4u : 3u, {}};
  out.elements.resize(PNG_IMAGE_SIZE(reader.state));
  if (png_image_finish_read(&reader.state, nullptr, out.elements.data(), 0, nullptr) == 0) return broken_picture();
  return out;
}

Result<std::string> encode_png(const Picture& picture, Effort effort) {
  Image writer;
  writer.state.width = picture.width_px;
  writer.state.height = picture.height_px;
  writer.state.format = picture.channels == 4 ? PNG_FORMAT_RGBA : PNG_FORMAT_RGB;
  if (effort == Effort::quick) writer.state.flags |= PNG_IMAGE_FLAG_FAST;
  png_alloc_size_t out_bytes = PNG_IMAGE_PNG_SIZE_MAX(writer.state);
  std::string out(out_bytes, '\0');
  if (png_image_write_to_memory(&writer.state, out.data(), &out_bytes, 0, picture.elements.data(), 0, nullptr) == 0) {
    return cannot_write_picture();
  }
  out.resize(out_bytes);
  return out;
}

}  // namespace duskwire::pictures
