// SPDX-License-Identifier: Apache-2.0
// Exif: where it lies in a file, and two of its tags. Offsets come from outside, so each is checked before it is used.
#include <cmath>
#include <string>

#include "pictures/camera_note.hpp"

namespace duskwire::pictures {
namespace {

using namespace std::string_view_literals;

constexpr std::uint32_t tag_orientation = 0x0112;     // TIFF 6.0; Exif 2.3 table 3
constexpr std::uint32_t tag_exif_directory = 0x8769;  // Exif 2.3, 4.6.3
constexpr std::uint32_t tag_focal_35mm = 0xa405;      // Exif 2.3 table 8
constexpr std::uint32_t type_short = 3;
constexpr std::uint32_t most_entries = 1000;
constexpr auto exif_head = "Exif\0\0"sv;

std::uint32_t byte_at(std::string_view bytes, std::size_t at) {
  return at < bytes.size() ? static_cast<unsigned char>(bytes[at]) : 0;
}

std::uint32_t big(std::string_view bytes, std::size_t at, int count) {
  std::uint32_t value = 0;
  for (int i = 0; i < count; ++i) value = value << 8 | byte_at(bytes, at + static_cast<std::size_t>(i));
  return value;
}

std::uint32_t little(std::string_view bytes, std::size_t at, int count) {
  std::uint32_t value = 0;
  for (int i = count; i-- > 0;) value = value << 8 | byte_at(bytes, at + static_cast<std::size_t>(i));
  return value;
}

class Tiff {
 public:
  explicit Tiff(std::string_view bytes) : bytes_(bytes), is_little_(bytes.substr(0, 2) == "II"sv) {}

  [[nodiscard]] bool is_valid() const {
    return bytes_.size() >= 8 && (is_little_ || bytes_.substr(0, 2) == "MM"sv) && number(2, 2) == 42;
  }

  // Adds what one directory says; gives the offset of the Exif directory, 0 where it names none.
  std::uint32_t read_directory(std::uint32_t offset, CameraNote& note) const {
    std::uint32_t exif_directory = 0;
    const std::uint32_t count = number(offset, 2);
    if (offset < 8 || count > most_entries) return 0;
    for (std::uint32_t i = 0; i < count; ++i) {
      const std::size_t at = std::size_t{offset} + 2 + std::size_t{12} * i;
      if (at + 12 > bytes_.size()) break;
      const std::uint32_t tag = number(at, 2);
      const bool is_short = number(at + 2, 2) == type_short;
      if (tag == tag_orientation && is_short && number(at + 8, 2) >= 1 && number(at + 8, 2) <= 8) {
        note.orientation = number(at + 8, 2);
      }
      if (tag == tag_focal_35mm && is_short && number(at + 8, 2) > 0) note.focal_35mm_equiv = number(at + 8, 2);
      if (tag == tag_exif_directory) exif_directory = number(at + 8, 4);
    }
    return exif_directory;
  }

  [[nodiscard]] std::uint32_t first_directory() const { return number(4, 4); }

 private:
  [[nodiscard]] std::uint32_t number(std::size_t at, int count) const {
    return is_little_ ? little(bytes_, at, count) : big(bytes_, at, count);
  }

  std::string_view bytes_;
  bool is_little_;
};

}  // namespace

CameraNote read_exif(std::string_view block) {
  if (block.substr(0, exif_head.size()) == exif_head) block.remove_prefix(exif_head.size());
  CameraNote note;
  const Tiff tiff(block);
  if (!tiff.is_valid()) return note;
  const std::uint32_t exif_directory = tiff.read_directory(tiff.first_directory(), note);
  if (exif_directory != 0) tiff.read_directory(exif_directory, note);
  return note;
}

// Segments: ff, kind, two bytes of length that count themselves (ITU-T T.81 annex B); Exif lies in an APP1.
std::string_view exif_in_jpeg(std::string_view file) {
  for (std::size_t at = 2; at + 4 <= file.size() && byte_at(file, at) == 0xff;) {
    const std::uint32_t kind = byte_at(file, at + 1);
    if (kind == 0xff) {  // padding
      ++at;
      continue;
    }
    if (kind == 0xda || kind == 0xd9) break;  // the scan begins, or the end
    const std::uint32_t length = big(file, at + 2, 2);
    if (length < 2) break;
    const std::string_view body = file.substr(at + 4, length - 2);
    if (kind == 0xe1 && body.substr(0, exif_head.size()) == exif_head) return body;
    at += 2 + length;
  }
  return {};
}

// Chunks: length, name, body, check sum (PNG specification, third edition, 5.3 and 11.3.4.4).
std::string_view exif_in_png(std::string_view file) {
  for (std::size_t at = 8; at + 12 <= file.size();) {
    const std::size_t length = big(file, at, 4);
    const std::string_view name = file.substr(at + 4, 4);
    if (length > file.size() - at - 12) break;
    if (name == "eXIf"sv) return file.substr(at + 8, length);
    if (name == "IEND"sv) break;
    at += 12 + length;
  }
  return {};
}

// RIFF chunks: name, length, body, padded to even (WebP container specification).
std::string_view exif_in_webp(std::string_view file) {
  for (std::size_t at = 12; at + 8 <= file.size();) {
    const std::size_t length = little(file, at + 4, 4);
    if (length > file.size() - at - 8) break;
    if (file.substr(at, 4) == "EXIF"sv) return file.substr(at + 8, length);
    at += 8 + length + length % 2;
  }
  return {};
}

double focal_px(double focal_35mm_equiv, double width_px, double height_px) {
  const double film_diagonal_mm = std::hypot(24.0, 36.0);
  return focal_35mm_equiv * std::hypot(width_px, height_px) / film_diagonal_mm;
}

}  // namespace duskwire::pictures
