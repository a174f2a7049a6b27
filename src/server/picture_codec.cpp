// SPDX-License-Identifier: Apache-2.0
#include "server/picture_codec.hpp"

#include <utility>

namespace duskwire::server {
namespace {

// The page has encoded the picture once already; these lose nothing that an eye sees.
Result<std::string> encoded(const pictures::Decoded& read) {
  switch (read.kind) {
    case pictures::Kind::png:
      return pictures::encode_png(read.picture);
    case pictures::Kind::webp:
      return pictures::encode_webp(read.picture, 90);
    default:
      return pictures::encode_jpeg(read.picture, 92);
  }
}

}  // namespace

Result<CleanPicture> clean_picture(std::string_view bytes) {
  const auto read = pictures::decode(bytes, picture_limits);
  if (!read) return read.error();
  auto written = encoded(read.value());
  if (!written) return written.error();
  return CleanPicture{pictures::media_type(read.value().kind), read.value().picture.width_px,
                      read.value().picture.height_px, std::move(written).value()};
}

Result<OpenedPicture> open_picture(std::string_view bytes, std::uint32_t most_width_px) {
  const auto read = pictures::decode(bytes, picture_limits);
  if (!read) return read.error();
  const pictures::Picture& picture = read.value().picture;
  return OpenedPicture{pictures::media_type(read.value().kind), picture.width_px, picture.height_px,
                       pictures::opaque_within(picture, most_width_px)};
}

}  // namespace duskwire::server
