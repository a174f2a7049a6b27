// SPDX-License-Identifier: Apache-2.0
// The process that decodes pictures, and stand-ins for one that a hostile picture has taken over.
#include "server/picture_worker.hpp"

#include <gtest/gtest.h>
#include <png.h>
#include <sys/stat.h>

#include <chrono>
#include <fstream>

#include "store/temporary.hpp"

namespace duskwire::server {
namespace {

std::string flat_png(png_uint_32 width, png_uint_32 height) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = width;
  image.height = height;
  image.format = PNG_FORMAT_GRAY;
  image.flags = PNG_IMAGE_FLAG_FAST;
  const std::string pixels(std::size_t{width} * height, '\x55');
  png_alloc_size_t bytes = PNG_IMAGE_PNG_SIZE_MAX(image);
  std::string out(bytes, '\0');
  EXPECT_NE(png_image_write_to_memory(&image, out.data(), &bytes, 0, pixels.data(), 0, nullptr), 0);
  out.resize(bytes);
  return out;
}

// A program that does what these lines of shell say instead of decoding.
class StandIn {
 public:
  explicit StandIn(const std::string& lines) : file_(folder_.file("worker")) {
    std::ofstream(file_) << "#!/bin/sh\n" << lines << "\n";
    ::chmod(file_.c_str(), 0700);
  }
  [[nodiscard]] const std::string& program() const { return file_; }

 private:
  store::testing::Folder folder_;
  std::string file_;
};

void expect_undecodable(const Result<CleanPicture>& result) {
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error().code, ErrorCode::invalid);
  EXPECT_NE(result.error().message.find("could not be decoded"), std::string::npos) << result.error().message;
}

TEST(PictureWorker, AnswersAsTheSameWorkInThisProcess) {
  const PictureWorker worker(DUSKWIRE_PROGRAM);
  const std::string png = flat_png(64, 48);
  const auto here = clean_picture(png);
  const auto there = worker.clean(png);
  ASSERT_TRUE(there.ok()) << there.error().message;
  EXPECT_EQ(there.value().bytes, here.value().bytes);
  EXPECT_EQ(there.value().media_type, "image/png");
  EXPECT_EQ(there.value().width_px, 64);
  EXPECT_EQ(there.value().height_px, 48);
  for (const std::string& bad : {std::string("<svg/>"), std::string(), png.substr(0, 60), flat_png(14'000, 14'000)}) {
    const auto refused = worker.clean(bad);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, clean_picture(bad).error().code);
    EXPECT_EQ(refused.error().message, clean_picture(bad).error().message);
  }
}

TEST(PictureWorker, OpensAsTheSameWorkInThisProcess) {
  const PictureWorker worker(DUSKWIRE_PROGRAM);
  const std::string png = flat_png(64, 48);
  for (const std::uint32_t most_width_px : {0u, 16u, 64u, 100u}) {
    SCOPED_TRACE(most_width_px);
    const auto here = open_picture(png, most_width_px);
    const auto there = worker.open(png, most_width_px);
    ASSERT_TRUE(there.ok()) << there.error().message;
    EXPECT_EQ(there.value().media_type, "image/png");
    EXPECT_EQ(there.value().width_px, 64);
    EXPECT_EQ(there.value().height_px, 48);
    EXPECT_EQ(there.value().picture.width_px, most_width_px == 16 ? 16u : 64u);
    EXPECT_EQ(there.value().picture.channels, 3u);
    EXPECT_EQ(there.value().picture.elements, here.value().picture.elements);
  }
  for (const std::string& bad : {std::string("<svg/>"), std::string(), png.substr(0, 60)}) {
    const auto refused = worker.open(bad, 0);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().message, open_picture(bad, 0).error().message);
  }
}

TEST(PictureWorker, OneThatOpensAndIsTakenOverIsNotBelieved) {
  for (const char* said : {"image/png 64 48\\nx", "image/png 2 1 2 1\\nxxxxx", "image/png 2 1 2 1\\nxxxxxxx",
                           "image/png 2 1 14000 14000\\nx", "image/png 14000 14000 2 1\\nxxxxxx",
                           "image/png 9 9 9 1\\nxxxxxxxxxxxxxxxxxxxxxxxxxxx", "text/html 2 1 2 1\\nxxxxxx",
                           "image/png 2 1 4294967298 1\\nxxxxxx", "image/png 2 1 2 1 \\nxxxxxx", "broken\\n\\033[2J"}) {
    const StandIn stand_in(std::string("cat >/dev/null; printf '") + said + "'");
    SCOPED_TRACE(said);
    const auto opened = PictureWorker(stand_in.program()).open("x", 8);
    ASSERT_FALSE(opened.ok());
    EXPECT_NE(opened.error().message.find("could not be decoded"), std::string::npos) << opened.error().message;
  }
  const StandIn honest("cat >/dev/null; printf 'image/png 2 1 2 1\\nxxxxxx'");
  EXPECT_TRUE(PictureWorker(honest.program()).open("x", 8).ok()) << "what is refused above is refused for what it says";
}

TEST(PictureWorker, OneThatCrashesIsAPictureThatCannotBeDecoded) {
  const std::string png = flat_png(64, 48);
  for (const char* lines : {"kill -SEGV $$", "exit 1", "exit 0", "cat >/dev/null; kill -KILL $$",
                            "printf 'image/png 64 48\\nx'; kill -ABRT $$", "printf 'image/png 64 48\\nx'; exit 1"}) {
    const StandIn stand_in(lines);
    SCOPED_TRACE(lines);
    expect_undecodable(PictureWorker(stand_in.program()).clean(png));
  }
}

TEST(PictureWorker, OneThatNeverEndsIsEnded) {
  const StandIn stand_in("exec sleep 60");
  const auto begin = std::chrono::steady_clock::now();
  expect_undecodable(PictureWorker(stand_in.program(), std::chrono::milliseconds(300)).clean(flat_png(64, 48)));
  EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(10));
}

TEST(PictureWorker, OneThatIsTakenOverIsNotBelieved) {
  for (const char* said :
       {"image/svg+xml 64 48\\nx", "text/html 64 48\\nx", "image/png 64\\nx", "image/png 64 48 1\\nx",
        "image/png 64 48\\n", "image/png -1 48\\nx", "image/png 14000 14000\\nx", "image/png  64 48\\nx",
        "image/pngx 64 48\\nx", "broken\\n\\033[2J", "broken\\n", "large\\n", "other\\nx", "image/png"}) {
    const StandIn stand_in(std::string("cat >/dev/null; printf '") + said + "'");
    SCOPED_TRACE(said);
    expect_undecodable(PictureWorker(stand_in.program()).clean("x"));
  }
}

TEST(PictureWorker, OneThatCannotBeStartedIsOurFaultAndNotThePictures) {
  const auto result = PictureWorker("/no/such/program").clean("x");
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error().code, ErrorCode::unavailable);
  EXPECT_EQ(result.error().message.find("/no/such"), std::string::npos);
}

// Secrets and sockets of the server stay with it: what the worker holds is its three streams and an empty environment.
TEST(PictureWorker, NothingOfTheServerGoesAlong) {
  const StandIn stand_in(
      "cat >/dev/null\n"
      "for number in 3 4 5 6 7 8 9; do [ -e /proc/$$/fd/$number ] && [ \"$(readlink /proc/$$/fd/$number)\" != \"$0\" ] "
      "&& exit 1; done\n"
      "[ -z \"$SECRET_OF_THE_TEST\" ] || exit 1\n"
      "printf 'large\\nall well'");
  ASSERT_EQ(::setenv("SECRET_OF_THE_TEST", "1", 1), 0);
  std::ifstream held("/proc/self/maps");
  const auto result = PictureWorker(stand_in.program()).clean("x");
  ::unsetenv("SECRET_OF_THE_TEST");
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error().message, "all well");
}

}  // namespace
}  // namespace duskwire::server
