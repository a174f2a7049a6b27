// SPDX-License-Identifier: Apache-2.0
#include <png.h>

#include <vector>

#include "server/picture_codec.hpp"

namespace duskwire::server {
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

Result<CleanPicture> clean_png(std::string_view bytes) {
  Image reader;
  if (png_image_begin_read_from_memory(&reader.state, bytes.data(), bytes.size()) == 0) return broken_picture();
  const Result<bool> allowed = size_allowed(reader.state.width, reader.state.height);
  if (!allowed) return allowed.error();
  const bool has_alpha = (reader.state.format & PNG_FORMAT_FLAG_ALPHA) != 0;
  reader.state.format = has_alpha ? PNG_FORMAT_RGBA : PNG_FORMAT_RGB;
  std::vector<unsigned char> pixels(PNG_IMAGE_SIZE(reader.state));
  if (png_image_finish_read(&reader.state, nullptr, pixels.data(), 0, nullptr) == 0) return broken_picture();
  Image writer;
  writer.state.width = reader.state.width;
  writer.state.height = reader.state.height;
  writer.state.format = reader.state.format;
  png_alloc_size_t out_bytes = PNG_IMAGE_PNG_SIZE_MAX(writer.state);
  std::string out(out_bytes, '\0');
  if (png_image_write_to_memory(&writer.state, out.data(), &out_bytes, 0, pixels.data(), 0, nullptr) == 0) {
    return broken_picture();
  }
  out.resize(out_bytes);
  return CleanPicture{"image/png", reader.state.width, reader.state.height, std::move(out)};
}

}  // namespace duskwire::server
