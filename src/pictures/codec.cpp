// SPDX-License-Identifier: Apache-2.0
#include "pictures/codec.hpp"

#include <fmt/format.h>

#include <utility>

namespace duskwire::pictures {
namespace {

using namespace std::string_view_literals;

Result<Decoded> stood_up(Kind kind, Result<Picture> read, std::string_view exif) {
  if (!read) return read.error();
  Decoded out{kind, {}, read_exif(exif)};
  out.picture = upright(std::move(read).value(), out.note.orientation);
  return out;
}

}  // namespace

const char* media_type(Kind kind) {
  switch (kind) {
    case Kind::png:
      return "image/png";
    case Kind::webp:
      return "image/webp";
    default:
      return "image/jpeg";
  }
}

Error broken_picture() {
  return {ErrorCode::invalid,
          "The file is no JPEG, PNG or WebP picture that can be read. Save it anew as JPEG or PNG."};
}

Error cannot_write_picture() { return {ErrorCode::invalid, "The picture cannot be written: it has no elements."}; }

Result<bool> size_allowed(std::int64_t width_px, std::int64_t height_px, const Limits& limits) {
  if (width_px < 1 || height_px < 1) return broken_picture();
  if (width_px > limits.side_px || height_px > limits.side_px || width_px * height_px > limits.elements) {
    return Error{ErrorCode::no_room,
                 fmt::format("The picture is {} x {} px; at most {} million picture elements are taken, and {} px a "
                             "side. Make it smaller first.",
                             width_px, height_px, limits.elements / 1'000'000, limits.side_px)};
  }
  return true;
}

Result<Decoded> decode(std::string_view file, const Limits& limits) {
  if (file.substr(0, 3) == "\xff\xd8\xff"sv) {
    return stood_up(Kind::jpeg, decode_jpeg(file, limits), exif_in_jpeg(file));
  }
  if (file.substr(0, 8) == "\x89PNG\r\n\x1a\n"sv) {
    return stood_up(Kind::png, decode_png(file, limits), exif_in_png(file));
  }
  if (file.substr(0, 4) == "RIFF"sv && file.size() > 12 && file.substr(8, 4) == "WEBP"sv) {
    return stood_up(Kind::webp, decode_webp(file, limits), exif_in_webp(file));
  }
  return broken_picture();
}

}  // namespace duskwire::pictures
