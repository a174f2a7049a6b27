// SPDX-License-Identifier: Apache-2.0
// Archives are read back by Python's zipfile, which tests every checksum.
#include "office/archive.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "office/read_back.hpp"

namespace duskwire::office {
namespace {

constexpr std::int64_t moment_s = 1'790'000'000;  // 2026-09-21T14:13:20Z

TEST(Archive, IsReadBackWithNamesDatesAndBytes) {
  std::string binary;
  for (int i = 0; i < 70'000; ++i) binary += static_cast<char>(i * 31 % 251);
  const Result<std::string> bytes =
      zip_archive({{"lists/materials.csv", "a,b\r\n"}, {"план.bin", binary}, {"empty", ""}}, moment_s);
  ASSERT_TRUE(bytes.ok()) << bytes.error().message;
  const std::string seen = testing::told_by(
      "/usr/bin/python3 -c \"import sys, zipfile, zlib\n"
      "z = zipfile.ZipFile(sys.argv[1])\n"
      "assert z.testzip() is None\n"
      "for i in z.infolist(): print(i.filename, i.date_time, i.file_size, zlib.crc32(z.read(i)))\" {}",
      bytes.value(), ".zip");
  EXPECT_EQ(seen,
            "lists/materials.csv (2026, 9, 21, 14, 13, 20) 5 2528915835\n"
            "план.bin (2026, 9, 21, 14, 13, 20) 70000 1540674486\n"
            "empty (2026, 9, 21, 14, 13, 20) 0 0\n");
}

TEST(Archive, SameFilesGiveTheSameBytesInEveryTimeZone) {
  const auto once = zip_archive({{"a", "text"}}, moment_s);
  setenv("TZ", "Pacific/Auckland", 1);
  tzset();
  const auto again = zip_archive({{"a", "text"}}, moment_s);
  unsetenv("TZ");
  tzset();
  ASSERT_TRUE(once.ok() && again.ok());
  EXPECT_EQ(once.value(), again.value());
}

TEST(Archive, RefusesNamesThatLeaveItsFolderOrComeTwice) {
  for (const char* name : {"", "/etc/x", "../x", "a/../../x", "a//b", "a\\b", ".", "a/"}) {
    EXPECT_FALSE(zip_archive({{name, "x"}}, moment_s).ok()) << name;
  }
  const auto twice = zip_archive({{"a", "1"}, {"a", "2"}}, moment_s);
  ASSERT_FALSE(twice.ok());
  EXPECT_EQ(twice.error().message, "Two files of the archive are called \"a\".");
}

TEST(Archive, AFileOfBeforeNineteenEightyIsDatedThen) { EXPECT_TRUE(zip_archive({{"a", "x"}}, 0).ok()); }

}  // namespace
}  // namespace duskwire::office
