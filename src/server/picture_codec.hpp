// SPDX-License-Identifier: Apache-2.0
// Pictures from outside: told by their bytes, measured before they are decoded, decoded under limits, encoded anew.
// What comes out holds an upright picture and nothing else: no place, no camera, no second file hidden in the first.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "pictures/codec.hpp"

namespace duskwire::server {

inline constexpr std::size_t picture_limit_bytes = 32u << 20u;
inline constexpr pictures::Limits picture_limits{50'000'000, 30'000};

struct CleanPicture {
  std::string media_type;
  std::int64_t width_px = 0;
  std::int64_t height_px = 0;
  std::string bytes;
};

// JPEG, PNG or WebP, each kept in its own kind. Errors: invalid (no such picture, or a broken one), no_room (more
// picture elements than the limit; nothing was decoded). Takes up to 8 bytes an element: call it one at a time.
[[nodiscard]] Result<CleanPicture> clean_picture(std::string_view bytes);

// A picture to calculate with.
struct OpenedPicture {
  std::string media_type;  // of the file, as are these
  std::int64_t width_px = 0;
  std::int64_t height_px = 0;
  pictures::Picture picture;  // opaque, no wider than asked
};

// Errors as above. 0: as wide as it is.
[[nodiscard]] Result<OpenedPicture> open_picture(std::string_view bytes, std::uint32_t most_width_px);

// The same, in this process or (picture_worker.hpp) in another.
using PictureCleaner = std::function<Result<CleanPicture>(std::string_view bytes)>;
using PictureOpener = std::function<Result<OpenedPicture>(std::string_view bytes, std::uint32_t most_width_px)>;

struct PictureTools {
  PictureCleaner clean = clean_picture;
  PictureOpener open = open_picture;
};

}  // namespace duskwire::server
