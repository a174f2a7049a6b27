// SPDX-License-Identifier: Apache-2.0
#include "server/picture_codec.hpp"

#include <fmt/format.h>

namespace duskwire::server {

Error broken_picture() {
  return {ErrorCode::invalid,
          "The file is no JPEG, PNG or WebP picture that can be read. Save it anew as JPEG or PNG."};
}

Result<bool> size_allowed(std::int64_t width_px, std::int64_t height_px) {
  if (width_px < 1 || height_px < 1) return broken_picture();
  if (width_px > picture_side_limit_px || height_px > picture_side_limit_px ||
      width_px * height_px > picture_limit_px) {
    return Error{ErrorCode::no_room,
                 fmt::format("The picture is {} x {} px; at most {} million picture elements are taken, and {} px a "
                             "side. Make it smaller first.",
                             width_px, height_px, picture_limit_px / 1'000'000, picture_side_limit_px)};
  }
  return true;
}

Result<CleanPicture> clean_picture(std::string_view bytes) {
  using namespace std::string_view_literals;
  if (bytes.substr(0, 3) == "\xff\xd8\xff"sv) return clean_jpeg(bytes);
  if (bytes.substr(0, 8) == "\x89PNG\r\n\x1a\n"sv) return clean_png(bytes);
  if (bytes.substr(0, 4) == "RIFF"sv && bytes.size() > 12 && bytes.substr(8, 4) == "WEBP"sv) return clean_webp(bytes);
  return broken_picture();
}

}  // namespace duskwire::server
