// SPDX-License-Identifier: Apache-2.0
// Pictures from outside: told by their bytes, measured before they are decoded, decoded under limits, encoded anew.
// What comes out holds pixels and nothing else: no place, no camera, no second file hidden in the first.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace duskwire::server {

inline constexpr std::int64_t picture_limit_px = 50'000'000;
inline constexpr std::int64_t picture_side_limit_px = 30'000;

struct CleanPicture {
  std::string media_type;
  std::int64_t width_px = 0;
  std::int64_t height_px = 0;
  std::string bytes;
};

// JPEG, PNG or WebP, each kept in its own kind. Errors: invalid (no such picture, or a broken one), no_room (more
// picture elements than the limit; nothing was decoded). Takes up to 4 bytes an element: call it one at a time.
[[nodiscard]] Result<CleanPicture> clean_picture(std::string_view bytes);

// The three kinds, each by its library; for clean_picture, which has told them apart.
[[nodiscard]] Result<CleanPicture> clean_jpeg(std::string_view bytes);
[[nodiscard]] Result<CleanPicture> clean_png(std::string_view bytes);
[[nodiscard]] Result<CleanPicture> clean_webp(std::string_view bytes);

[[nodiscard]] Error broken_picture();
// Nothing where the size is within the limits.
[[nodiscard]] Result<bool> size_allowed(std::int64_t width_px, std::int64_t height_px);

}  // namespace duskwire::server
