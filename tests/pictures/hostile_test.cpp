// SPDX-License-Identifier: Apache-2.0
// Picture files that are broken, cut short or mean harm, and the rarer ways of honest ones.
#include <gtest/gtest.h>

#include "pictures/codec.hpp"

namespace duskwire::pictures {
namespace {

using namespace std::string_literals;

// 6 x 4, the right half shining through.
Picture glass() {
  Picture out{6, 4, 4, {}};
  for (int i = 0; i < 24; ++i) {
    out.elements.insert(out.elements.end(), {40, 80, 120, static_cast<std::uint8_t>(i % 6 < 3 ? 255 : 0)});
  }
  return out;
}

std::string number(std::uint32_t value, int bytes, bool is_little = true) {
  std::string out;
  for (int i = 0; i < bytes; ++i) out += static_cast<char>(value >> (8 * (is_little ? i : bytes - 1 - i)) & 255);
  return out;
}

TEST(HostilePictures, EachKindIsRefusedWhereverItEnds) {
  const std::string files[] = {encode_jpeg(glass()).value(), encode_png(glass()).value(), encode_webp(glass()).value()};
  for (const std::string& file : files) {
    for (std::size_t size = 0; size < file.size(); size += 1 + size / 24) {
      const auto read = decode(file.substr(0, size));
      // libpng takes a picture whose last chunk is missing once all of its elements are there; so does libjpeg.
      if (read.ok() && size + 16 >= file.size()) continue;
      ASSERT_FALSE(read.ok()) << media_type(read.value().kind) << " cut to " << size << " of " << file.size();
      EXPECT_EQ(read.error().code, ErrorCode::invalid);
    }
  }
}

TEST(HostilePictures, WhatOnlyBeginsLikeAPictureIsNone) {
  for (const std::string& text :
       {""s, "GIF89a"s, "<svg/>"s, "\xff\xd8\xff"s, "\xff\xd8\xff\xe0 and words"s, "\x89PNG\r\n\x1a\n"s,
        "\x89PNG\r\n\x1a\nIHDRIHDRIHDR"s, "RIFF"s, "RIFF\4\0\0\0WEBP"s, "RIFF\x24\0\0\0WAVEfmt data"s,
        "RIFF\x24\0\0\0WEBPVP8 nothing"s, "FORM\x24\0\0\0WEBPVP8 nothing"s}) {
    EXPECT_EQ(decode(text).error().code, ErrorCode::invalid) << text;
  }
}

// WebP container specification, "Extended File Format": flag 2 says animation.
TEST(HostilePictures, AnAnimationIsNone) {
  const std::string head = "WEBPVP8X" + number(10, 4) + number(2, 4) + number(5, 3) + number(3, 3);
  EXPECT_EQ(decode("RIFF" + number(static_cast<std::uint32_t>(head.size()), 4) + head).error().code,
            ErrorCode::invalid);
}

TEST(HostilePictures, EachKindIsMeasuredBeforeItIsDecoded) {
  for (const std::string& file :
       {encode_jpeg(glass()).value(), encode_png(glass()).value(), encode_webp(glass()).value()}) {
    EXPECT_TRUE(decode(file, {24, 6}).ok());
    EXPECT_EQ(decode(file, {23, 6}).error().code, ErrorCode::no_room);
    EXPECT_EQ(decode(file, {24, 5}).error().code, ErrorCode::no_room);
  }
  EXPECT_EQ(size_allowed(0, 4, {}).error().code, ErrorCode::invalid);
  EXPECT_EQ(size_allowed(4, 0, {}).error().code, ErrorCode::invalid);
  EXPECT_EQ(size_allowed(4, 30'001, {}).error().code, ErrorCode::no_room);
}

TEST(HostilePictures, WhatHasNoElementsIsNotWritten) {
  for (const std::uint32_t channels : {3u, 4u}) {
    const Picture none{0, 0, channels, {}};
    EXPECT_EQ(encode_jpeg(none).error().code, ErrorCode::invalid);
    EXPECT_EQ(encode_png(none).error().code, ErrorCode::invalid);
    EXPECT_EQ(encode_webp(none).error().code, ErrorCode::invalid);
  }
}

TEST(Glass, ComesBackWhereTheKindHasIt) {
  const auto png = decode(encode_png(glass()).value());
  ASSERT_TRUE(png.ok());
  EXPECT_EQ(png.value().picture.elements, glass().elements);
  const auto webp = decode(encode_webp(glass()).value());
  ASSERT_TRUE(webp.ok());
  EXPECT_EQ(webp.value().picture.channels, 4u);
  EXPECT_EQ(webp.value().picture.elements[3], 255);
  EXPECT_EQ(webp.value().picture.elements[23], 0);
  const auto jpeg = decode(encode_jpeg(glass()).value());
  ASSERT_TRUE(jpeg.ok());
  EXPECT_EQ(jpeg.value().picture.channels, 3u);
}

TEST(Glass, IsWhiteWhereItShinesThrough) {
  const Picture made = opaque(glass());
  EXPECT_EQ(made.channels, 3u);
  EXPECT_EQ(std::vector<std::uint8_t>(made.elements.begin(), made.elements.begin() + 3),
            (std::vector<std::uint8_t>{40, 80, 120}));
  EXPECT_EQ(made.elements[15], 255);
  EXPECT_EQ(opaque_within(glass(), 0).width_px, 6u);
  EXPECT_EQ(opaque_within(glass(), 6).width_px, 6u);
  const Picture half = opaque_within(glass(), 3);
  EXPECT_EQ(half.width_px, 3u);
  EXPECT_EQ(half.height_px, 2u);
  EXPECT_EQ(half.elements[0], 40);
}

TEST(Glass, IsShrunkInOneDirectionToo) {
  const Picture flat = shrunk(glass(), 6, 1);
  EXPECT_EQ(flat.height_px, 1u);
  EXPECT_EQ(flat.elements[0], 40);
  EXPECT_EQ(shrunk(glass(), 100, 0).height_px, 1u) << "no larger than it is, no smaller than one element";
  const Picture black{2, 2, 3, std::vector<std::uint8_t>(12, 2)};
  EXPECT_EQ(shrunk(black, 1, 1).elements[0], 2);
}

TEST(MediaTypes, AreThoseOfTheKinds) {
  EXPECT_STREQ(media_type(Kind::jpeg), "image/jpeg");
  EXPECT_STREQ(media_type(Kind::png), "image/png");
  EXPECT_STREQ(media_type(Kind::webp), "image/webp");
}

TEST(Upright, AnOrientationThatExifDoesNotKnowIsNone) { EXPECT_EQ(upright(glass(), 9).elements, glass().elements); }

// A directory of one entry behind the eight bytes of a TIFF block's head.
std::string block_of(std::uint32_t tag, std::uint32_t type, std::uint32_t value, std::uint32_t offset = 8,
                     std::uint32_t count = 1) {
  return "II" + number(42, 2) + number(offset, 4) + number(count, 2) + number(tag, 2) + number(type, 2) + number(1, 4) +
         number(value, 4) + number(0, 4);
}

TEST(HostileNotes, AreLeftOut) {
  EXPECT_EQ(read_exif(block_of(0x0112, 3, 6)).orientation, 6u);
  for (const std::string& block :
       {"XX"s + block_of(0x0112, 3, 6).substr(2), "II"s + number(43, 2) + block_of(0x0112, 3, 6).substr(4),
        block_of(0x0112, 3, 6, 7), block_of(0x0112, 3, 6, 0xfffffff0u), block_of(0x0112, 3, 6, 8, 1001),
        block_of(0x0112, 4, 6), block_of(0x0112, 3, 0), block_of(0x0112, 3, 9)}) {
    EXPECT_EQ(read_exif(block).orientation, 1u);
  }
  EXPECT_TRUE(read_exif(block_of(0xa405, 3, 26)).focal_35mm_equiv);
  EXPECT_FALSE(read_exif(block_of(0xa405, 4, 26)).focal_35mm_equiv);
  // An Exif directory that is its own, or lies beyond the end: read once, and nothing is found.
  EXPECT_EQ(read_exif(block_of(0x8769, 4, 8)).orientation, 1u);
  EXPECT_EQ(read_exif(block_of(0x8769, 4, 1'000'000)).orientation, 1u);
}

TEST(HostileNotes, OfAJpegAreFoundAmongItsSegmentsOnly) {
  const std::string note = "Exif\0\0note"s;
  const auto segment = [](char kind, const std::string& body) {
    return "\xff"s + kind + number(static_cast<std::uint32_t>(body.size()) + 2, 2, false) + body;
  };
  const std::string exif = segment('\xe1', note);
  const std::string start = "\xff\xd8"s;
  EXPECT_EQ(exif_in_jpeg(start + exif), note);
  EXPECT_EQ(exif_in_jpeg(start + segment('\xe0', "JFIF") + segment('\xe1', "http://words") + exif), note);
  EXPECT_EQ(exif_in_jpeg(start + "\xff\xff"s + exif.substr(1)), note) << "padding before a segment";
  for (const std::string& file :
       {start, start + segment('\xe0', "JFIF"), start + "words"s + exif, start + segment('\xda', "") + exif,
        start + segment('\xd9', "") + exif, start + "\xff\xe0\0\1"s + exif, start + "\xff\xe1\xff\xff"s}) {
    EXPECT_EQ(exif_in_jpeg(file), "");
  }
}

TEST(HostileNotes, OfAPngAndAWebpAreFoundAmongTheirChunksOnly) {
  const auto png = [](const std::string& name, const std::string& body) {
    return number(static_cast<std::uint32_t>(body.size()), 4, false) + name + body + "sums";
  };
  const std::string head = "\x89PNG\r\n\x1a\n";
  EXPECT_EQ(exif_in_png(head + png("IHDR", "size") + png("eXIf", "note")), "note");
  for (const std::string& file : {head, head + png("IHDR", "size"), head + png("IEND", "") + png("eXIf", "note"),
                                  head + number(1000, 4, false) + "eXIfnote and so on"s}) {
    EXPECT_EQ(exif_in_png(file), "");
  }
  const auto webp = [](const std::string& name, const std::string& body) {
    return name + number(static_cast<std::uint32_t>(body.size()), 4) + body;
  };
  const std::string riff = "RIFF....WEBP";
  EXPECT_EQ(exif_in_webp(riff + webp("VP8X", "abc") + "\0"s + webp("EXIF", "note")), "note") << "padded to even";
  EXPECT_EQ(exif_in_webp(riff + webp("VP8X", "abcd") + webp("EXIF", "note")), "note");
  for (const std::string& file :
       {riff, riff + webp("VP8X", "abcd"), riff + "EXIF" + number(1000, 4) + "note and so on"}) {
    EXPECT_EQ(exif_in_webp(file), "");
  }
}

}  // namespace
}  // namespace duskwire::pictures
