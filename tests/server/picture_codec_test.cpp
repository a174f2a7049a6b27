// SPDX-License-Identifier: Apache-2.0
#include "server/picture_codec.hpp"

#include <gtest/gtest.h>
#include <png.h>
#include <turbojpeg.h>
#include <webp/encode.h>

#include <cstring>
#include <vector>

#include "server/running.hpp"
#include "store/workspace.hpp"

namespace duskwire::server {
namespace {

using testing::Running;

constexpr int width_px = 40;
constexpr int height_px = 30;

std::vector<unsigned char> pixels(int channels) {
  std::vector<unsigned char> made;
  for (int i = 0; i < width_px * height_px; ++i) {
    for (int c = 0; c < channels; ++c) made.push_back(c == 3 ? 255 : static_cast<unsigned char>(i * 7 + c * 31));
  }
  return made;
}

std::string png_of(png_uint_32 width, png_uint_32 height, const std::vector<unsigned char>& rgb) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = width;
  image.height = height;
  image.format = PNG_FORMAT_RGB;
  png_alloc_size_t bytes = PNG_IMAGE_PNG_SIZE_MAX(image);
  std::string out(bytes, '\0');
  EXPECT_NE(png_image_write_to_memory(&image, out.data(), &bytes, 0, rgb.data(), 0, nullptr), 0);
  out.resize(bytes);
  return out;
}

std::string jpeg_of(const std::vector<unsigned char>& rgb) {
  tjhandle writer = tjInitCompress();
  unsigned char* out = nullptr;
  unsigned long bytes = 0;
  EXPECT_EQ(tjCompress2(writer, rgb.data(), width_px, 0, height_px, TJPF_RGB, &out, &bytes, TJSAMP_444, 95, 0), 0);
  std::string made(reinterpret_cast<char*>(out), bytes);
  tjFree(out);
  tjDestroy(writer);
  return made;
}

std::string webp_of(const std::vector<unsigned char>& rgba) {
  uint8_t* out = nullptr;
  const std::size_t bytes = WebPEncodeRGBA(rgba.data(), width_px, height_px, 4 * width_px, 95.0f, &out);
  std::string made(reinterpret_cast<char*>(out), bytes);
  WebPFree(out);
  return made;
}

// A comment segment right behind the start: where cameras put places and names.
std::string with_comment(std::string jpeg, const std::string& comment) {
  const auto size = comment.size() + 2;
  return jpeg.substr(0, 2) + std::string("\xff\xfe") + static_cast<char>(size >> 8) + static_cast<char>(size & 255) +
         comment + jpeg.substr(2);
}

TEST(PictureCodec, EachKindComesOutAsItsOwnKindAndSize) {
  const std::pair<std::string, std::string> kinds[] = {{png_of(width_px, height_px, pixels(3)), "image/png"},
                                                       {jpeg_of(pixels(3)), "image/jpeg"},
                                                       {webp_of(pixels(4)), "image/webp"}};
  for (const auto& [bytes, media_type] : kinds) {
    const auto clean = clean_picture(bytes);
    ASSERT_TRUE(clean.ok()) << media_type;
    EXPECT_EQ(clean.value().media_type, media_type);
    EXPECT_EQ(clean.value().width_px, width_px);
    EXPECT_EQ(clean.value().height_px, height_px);
    EXPECT_TRUE(clean_picture(clean.value().bytes).ok()) << "what we made is a picture again";
  }
}

TEST(PictureCodec, NothingButThePixelsComesThrough) {
  const auto clean =
      clean_picture(with_comment(jpeg_of(pixels(3)), "SECRET-PLACE-51.47") + "<script>alert(1)</script>");
  ASSERT_TRUE(clean.ok());
  EXPECT_EQ(clean.value().bytes.find("SECRET-PLACE"), std::string::npos);
  EXPECT_EQ(clean.value().bytes.find("<script>"), std::string::npos);
}

TEST(PictureCodec, OtherFilesAndCutOnesAreRefused) {
  const std::string jpeg = jpeg_of(pixels(3));
  const std::string png = png_of(width_px, height_px, pixels(3));
  for (const std::string& bytes :
       {std::string(), std::string("<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>"),
        std::string("GIF89a=1/*"), std::string("<html>"), std::string("%PDF-1.7"), jpeg.substr(0, 20),
        jpeg.substr(0, jpeg.size() / 2), png.substr(0, 30), png.substr(0, png.size() / 2),
        webp_of(pixels(4)).substr(0, 40)}) {
    const auto clean = clean_picture(bytes);
    ASSERT_FALSE(clean.ok()) << bytes.size();
    EXPECT_EQ(clean.error().code, ErrorCode::invalid);
  }
}

// Flat pictures compress a thousandfold: the size in the head decides before any memory is taken.
TEST(PictureCodec, APictureOfTooManyElementsIsRefusedByItsHead) {
  std::string png = png_of(width_px, height_px, pixels(3));
  const unsigned char size[8] = {0, 0, 0x36, 0xb0, 0, 0, 0x36, 0xb0};  // 14,000 x 14,000
  std::memcpy(png.data() + 16, size, 8);
  // The head's own check sum, or the reader would refuse it for that.
  const auto crc = [](const char* bytes, std::size_t count) {
    std::uint32_t value = 0xffffffffu;
    for (std::size_t i = 0; i < count; ++i) {
      value ^= static_cast<unsigned char>(bytes[i]);
      for (int bit = 0; bit < 8; ++bit) value = (value >> 1) ^ (0xedb88320u & (0u - (value & 1u)));
    }
    return ~value;
  }(png.data() + 12, 17);
  for (int i = 0; i < 4; ++i) png[29 + i] = static_cast<char>(crc >> (24 - 8 * i));
  const auto clean = clean_picture(png);
  ASSERT_FALSE(clean.ok());
  EXPECT_EQ(clean.error().code, ErrorCode::no_room);
  EXPECT_NE(clean.error().message.find("14000 x 14000"), std::string::npos) << clean.error().message;
}

TEST(PictureRoutes, APictureIsTakenOnceAndSentAsAnAttachmentThatCanDoNothing) {
  Running server;
  const std::string bytes = jpeg_of(pixels(3));
  const std::string path = "/api/images/" + store::sha256_hex(bytes);
  const Field type{"content-type", "text/html"};
  const Response made = server.ask("POST", path, bytes, {type});
  EXPECT_EQ(made.status, 201u) << made.body;
  EXPECT_EQ(server.ask("POST", path, bytes, {type}).status, 200u);
  const std::string hash = testing::json_of(made)["hash"];
  const Response sent = server.ask("GET", "/api/images/" + hash);
  EXPECT_EQ(sent.status, 200u);
  EXPECT_EQ(sent.media_type, "image/jpeg");
  EXPECT_EQ(store::sha256_hex(sent.body), hash);
  EXPECT_EQ(testing::field_of(sent, "Content-Disposition"), "attachment");
  EXPECT_EQ(testing::field_of(sent, "Content-Security-Policy"), "default-src 'none'; sandbox");
}

TEST(PictureRoutes, AnUploadThatWasCutShortIsSeen) {
  Running server;
  const std::string bytes = jpeg_of(pixels(3));
  const std::string path = "/api/images/" + store::sha256_hex(bytes);
  EXPECT_EQ(server.ask("POST", path, bytes.substr(0, bytes.size() - 1)).status, 400u);
  EXPECT_EQ(server.ask("POST", "/api/images/abc", bytes).status, 404u);
  EXPECT_EQ(server.ask("POST", path, bytes, {{"content-length", "33554433"}}).status, 413u);
  EXPECT_EQ(server.ask("GET", path).status, 404u);
}

}  // namespace
}  // namespace duskwire::server
