// SPDX-License-Identifier: Apache-2.0
// Picture files: what is written comes back, broken ones are refused, cameras' notes turn pictures upright.
#include "pictures/codec.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

namespace duskwire::pictures {
namespace {

using namespace std::string_literals;

// 8 x 4, each element of its own colour, smooth enough for a lossy codec.
Picture sample() {
  Picture out{8, 4, 3, {}};
  for (int y = 0; y < 4; ++y) {
    for (int x = 0; x < 8; ++x) {
      out.elements.insert(out.elements.end(),
                          {static_cast<std::uint8_t>(20 + 25 * x), static_cast<std::uint8_t>(30 + 50 * y), 90});
    }
  }
  return out;
}

int farthest(const Picture& a, const Picture& b) {
  int most = 0;
  for (std::size_t i = 0; i < a.elements.size(); ++i) most = std::max(most, std::abs(a.elements[i] - b.elements.at(i)));
  return most;
}

// A TIFF block with the orientation in the first directory and the focal length in the Exif directory, after Exif 2.3.
std::string exif_block(bool is_little, int orientation, int focal_35mm) {
  std::string out = is_little ? "II"s : "MM"s;
  const auto add = [&](std::uint32_t value, int count) {
    for (int i = 0; i < count; ++i) out += static_cast<char>(value >> (8 * (is_little ? i : count - 1 - i)) & 255);
  };
  const auto entry = [&](std::uint32_t tag, std::uint32_t type, std::uint32_t value) {
    add(tag, 2);
    add(type, 2);
    add(1, 4);
    add(value, type == 3 ? 2 : 4);
    if (type == 3) add(0, 2);
  };
  add(42, 2);
  add(8, 4);
  add(2, 2);
  entry(0x0112, 3, static_cast<std::uint32_t>(orientation));
  entry(0x8769, 4, 38);
  add(0, 4);
  add(1, 2);
  entry(0xa405, 3, static_cast<std::uint32_t>(focal_35mm));
  add(0, 4);
  return out;
}

std::string with_exif(const std::string& jpeg, const std::string& block) {
  const std::string body = "Exif\0\0"s + block;
  const std::size_t length = body.size() + 2;
  return jpeg.substr(0, 2) + "\xff\xe1"s + static_cast<char>(length >> 8) + static_cast<char>(length & 255) + body +
         jpeg.substr(2);
}

TEST(Codec, PngComesBackElementForElement) {
  for (const Effort effort : {Effort::small, Effort::quick}) {
    const auto back = decode(encode_png(sample(), effort).value());
    ASSERT_TRUE(back.ok());
    EXPECT_EQ(back.value().kind, Kind::png);
    EXPECT_EQ(back.value().picture.elements, sample().elements);
  }
}

TEST(Codec, JpegAndWebpComeBackAlike) {
  const auto jpeg = decode(encode_jpeg(sample(), 95).value());
  ASSERT_TRUE(jpeg.ok());
  EXPECT_EQ(jpeg.value().kind, Kind::jpeg);
  EXPECT_LT(farthest(jpeg.value().picture, sample()), 40);  // colour is kept at half the resolution
  const auto webp = decode(encode_webp(sample(), 95).value());
  ASSERT_TRUE(webp.ok());
  EXPECT_EQ(webp.value().kind, Kind::webp);
  EXPECT_LT(farthest(webp.value().picture, sample()), 40);
}

TEST(Codec, ARealPhotographIsRead) {
  std::ifstream in(std::string(DUSKWIRE_SOURCE_DIR) + "/tests/reference/photos/plains-house.jpg", std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  const auto read = decode(bytes);
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read.value().picture.width_px, 1024u);
  EXPECT_EQ(read.value().picture.height_px, 788u);
  EXPECT_EQ(decode(bytes.substr(0, bytes.size() / 2)).error().code, ErrorCode::invalid);
  EXPECT_EQ(decode(bytes, {1000, 30'000}).error().code, ErrorCode::no_room);
}

TEST(Exif, BothByteOrdersAreRead) {
  for (const bool is_little : {true, false}) {
    const CameraNote note = read_exif(exif_block(is_little, 6, 26));
    EXPECT_EQ(note.orientation, 6u);
    EXPECT_EQ(note.focal_35mm_equiv, 26);
  }
}

TEST(Exif, WhatIsCutOrWildIsLeftOut) {
  const std::string block = exif_block(true, 6, 26);
  for (std::size_t size = 0; size < block.size(); ++size) {
    const CameraNote note = read_exif(block.substr(0, size));
    EXPECT_TRUE(note.orientation == 1 || note.orientation == 6) << size;
  }
  EXPECT_EQ(read_exif(exif_block(true, 9, 26)).orientation, 1u);
  EXPECT_FALSE(read_exif(exif_block(true, 1, 0)).focal_35mm_equiv);
}

// On a film of 36 mm x 24 mm a lens of 36 mm sees a width of its own length.
TEST(Exif, AFocalLengthInFilmTermsKeepsTheAngle) {
  EXPECT_NEAR(focal_px(36, 3600, 2400), 3600, 1e-9);
  EXPECT_NEAR(focal_px(26, 4000, 3000), 26 * 5000 / 43.2666, 0.1);
}

TEST(Codec, APictureLyingOnItsSideIsStoodUp) {
  const Picture stored = sample();
  const auto read = decode(with_exif(encode_jpeg(stored, 100).value(), exif_block(true, 6, 26)));
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read.value().picture.width_px, 4u);
  EXPECT_EQ(read.value().picture.height_px, 8u);
  EXPECT_EQ(read.value().note.focal_35mm_equiv, 26);
}

// Exif 2.3 table 6, by where the stored first element (row 0, column 0) and the last of its row come to lie.
TEST(Upright, EachOrientationPutsTheFirstRowWhereExifSays) {
  struct Case {
    std::uint32_t orientation, first_x, first_y, last_x, last_y;
  };
  const Picture stored = sample();
  for (const Case& each : {Case{1, 0, 0, 7, 0}, Case{2, 7, 0, 0, 0}, Case{3, 7, 3, 0, 3}, Case{4, 0, 3, 7, 3},
                           Case{5, 0, 0, 0, 7}, Case{6, 3, 0, 3, 7}, Case{7, 3, 7, 3, 0}, Case{8, 0, 7, 0, 0}}) {
    const Picture shown = upright(stored, each.orientation);
    const auto at = [&](std::uint32_t x, std::uint32_t y) { return shown.elements.at((y * shown.width_px + x) * 3); };
    EXPECT_EQ(shown.width_px, each.orientation < 5 ? 8u : 4u);
    EXPECT_EQ(at(each.first_x, each.first_y), stored.elements[0]) << each.orientation;
    EXPECT_EQ(at(each.last_x, each.last_y), stored.elements[21]) << each.orientation;
  }
}

// Black and white side by side give half the light, which is code value 188 (IEC 61966-2-1), not 128.
TEST(Shrunk, KeepsTheLightNotTheCodeValues) {
  const Picture stripes{
      4, 2, 3, {0, 0, 0, 255, 255, 255, 0, 0, 0, 255, 255, 255, 0, 0, 0, 255, 255, 255, 0, 0, 0, 255, 255, 255}};
  const Picture half = shrunk(stripes, 2, 1);
  EXPECT_EQ(half.width_px, 2u);
  EXPECT_EQ(half.height_px, 1u);
  for (const std::uint8_t value : half.elements) EXPECT_EQ(value, 188);
  EXPECT_EQ(shrunk(stripes, 4, 2).elements, stripes.elements);
}

// Three elements on two: each new one holds one and a half. (1 + 0.5 * 0) / 1.5 of white is 2/3 of the light: 213.
TEST(Shrunk, CountsTheElementsThatABorderCuts) {
  const Picture row{3, 1, 3, {255, 255, 255, 0, 0, 0, 255, 255, 255}};
  const Picture two = shrunk(row, 2, 1);
  for (const std::uint8_t value : two.elements) EXPECT_EQ(value, 213);
}

}  // namespace
}  // namespace duskwire::pictures
