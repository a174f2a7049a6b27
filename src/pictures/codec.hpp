// SPDX-License-Identifier: Apache-2.0
// Picture files: told by their bytes, measured before they are decoded, decoded under limits, and written anew. What is
// decoded holds elements and the camera's note on its lens, nothing else of the file. Colours are taken as sRGB.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "pictures/camera_note.hpp"
#include "pictures/picture.hpp"

namespace duskwire::pictures {

enum class Kind : std::uint8_t { jpeg = 0, png = 1, webp = 2 };

[[nodiscard]] const char* media_type(Kind kind);

struct Limits {
  std::int64_t elements = 50'000'000;
  std::int64_t side_px = 30'000;
};

struct Decoded {
  Kind kind = Kind::jpeg;
  Picture picture;  // upright
  CameraNote note;  // of the file; its orientation has been applied
};

// JPEG, PNG or WebP. Errors: invalid (no such picture, or a broken one), no_room (more elements than the limit; nothing
// was decoded). Takes up to 8 bytes an element for a moment: call it one at a time.
[[nodiscard]] Result<Decoded> decode(std::string_view file, const Limits& limits = {});

[[nodiscard]] Result<std::string> encode_jpeg(const Picture& picture, int quality = 92);
// `quick` is for large pictures that somebody waits for: files come out about a third larger (libpng's own fast
// setting).
enum class Effort : std::uint8_t { small = 0, quick = 1 };
[[nodiscard]] Result<std::string> encode_png(const Picture& picture, Effort effort = Effort::small);
[[nodiscard]] Result<std::string> encode_webp(const Picture& picture, float quality = 90);

// Each kind by its library; for decode, which has told them apart and turns them upright.
[[nodiscard]] Result<Picture> decode_jpeg(std::string_view file, const Limits& limits);
[[nodiscard]] Result<Picture> decode_png(std::string_view file, const Limits& limits);
[[nodiscard]] Result<Picture> decode_webp(std::string_view file, const Limits& limits);

[[nodiscard]] Error broken_picture();
[[nodiscard]] Error cannot_write_picture();
// True where the size is within the limits.
[[nodiscard]] Result<bool> size_allowed(std::int64_t width_px, std::int64_t height_px, const Limits& limits);

}  // namespace duskwire::pictures
