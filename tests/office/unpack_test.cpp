// SPDX-License-Identifier: Apache-2.0
// Archives that mean harm, written byte by byte as no library would (APPNOTE 6.3.10), and honest ones.
#include "office/unpack.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace duskwire::office {
namespace {

using ::testing::HasSubstr;

struct RawEntry {
  std::string name;
  std::string bytes = "x";
  std::uint32_t mode = 0100644;  // of the file, as Unix has it
  std::uint32_t told_bytes = 0;  // length that it says; 0: the true one
  std::uint16_t method = 0;      // 0 stored, 8 deflated
  std::uint16_t flags = 0;
  std::string content = "";  // what is deflated; "": as it stands
  std::uint32_t system = 3;  // that it was made on: 0 DOS, 3 Unix, 19 OS X
};

void put(std::string& out, std::uint32_t value, int bytes) {
  for (int i = 0; i < bytes; ++i) out += static_cast<char>(value >> (8 * i) & 255u);
}

std::uint32_t crc_of(const std::string& bytes) {
  std::uint32_t crc = 0xffffffff;
  for (const char c : bytes) {
    crc ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) crc = crc & 1 ? crc >> 1 ^ 0xedb88320 : crc >> 1;
  }
  return ~crc;
}

std::string common(const RawEntry& entry) {
  std::string out;
  const auto size = static_cast<std::uint32_t>(entry.bytes.size());
  put(out, 20, 2);
  put(out, entry.flags, 2);
  put(out, entry.method, 2);
  put(out, 0, 2);
  put(out, 33, 2);
  put(out, crc_of(entry.content.empty() ? entry.bytes : entry.content), 4);
  put(out, size, 4);
  put(out, entry.told_bytes != 0 ? entry.told_bytes : size, 4);
  put(out, static_cast<std::uint32_t>(entry.name.size()), 2);
  put(out, 0, 2);
  return out;
}

std::string raw_zip(const std::vector<RawEntry>& entries) {
  std::string out;
  std::string directory;
  for (const RawEntry& entry : entries) {
    const auto offset = static_cast<std::uint32_t>(out.size());
    out += "PK\3\4" + common(entry) + entry.name + entry.bytes;
    directory += "PK\1\2";
    put(directory, entry.system << 8u | 20u, 2);
    directory += common(entry);
    put(directory, 0, 2);
    put(directory, 0, 2);
    put(directory, 0, 2);
    put(directory, entry.mode << 16u, 4);
    put(directory, offset, 4);
    directory += entry.name;
  }
  const auto start = static_cast<std::uint32_t>(out.size());
  out += directory + "PK\5\6";
  put(out, 0, 4);
  put(out, static_cast<std::uint32_t>(entries.size()), 2);
  put(out, static_cast<std::uint32_t>(entries.size()), 2);
  put(out, static_cast<std::uint32_t>(directory.size()), 4);
  put(out, start, 4);
  put(out, 0, 2);
  return out;
}

std::string refusal_of(const std::string& archive, const UnpackLimits& limits = {}) {
  const auto unpacked = unpack(archive, limits);
  return unpacked ? "" : unpacked.error().message;
}

TEST(Unpack, GivesBackWhatWasPacked) {
  std::string binary;
  for (int i = 0; i < 70'000; ++i) binary += static_cast<char>(i * 31 % 251);
  const auto packed = zip_archive({{"job.json", "{}"}, {"pictures/a.jpg", binary}, {"empty", ""}}, 0);
  ASSERT_TRUE(packed.ok());
  const auto unpacked = unpack(packed.value());
  ASSERT_TRUE(unpacked.ok()) << unpacked.error().message;
  ASSERT_EQ(unpacked.value().size(), 3u);
  EXPECT_EQ(unpacked.value()[1].name, "pictures/a.jpg");
  EXPECT_EQ(unpacked.value()[1].bytes, binary);
  EXPECT_EQ(unpacked.value()[2].bytes, "");
}

TEST(Unpack, LeavesOutFolders) {
  const auto unpacked = unpack(raw_zip({{"pictures/", "", 040755}, {"pictures/a"}}));
  ASSERT_TRUE(unpacked.ok()) << unpacked.error().message;
  ASSERT_EQ(unpacked.value().size(), 1u);
}

// Where no Unix made it, the digits that are a file's mode there mean nothing.
TEST(Unpack, ReadsModesOfUnixAloneAsModes) {
  constexpr std::uint32_t link = 0120777;
  RawEntry entry{"job.json", "x", link};
  entry.system = 0;
  EXPECT_EQ(refusal_of(raw_zip({entry})), "");
  entry.system = 19;
  EXPECT_THAT(refusal_of(raw_zip({entry})), HasSubstr("link or a device"));
  entry.mode = 0;
  EXPECT_EQ(refusal_of(raw_zip({entry})), "");
}

TEST(Unpack, TakesNamesThatOnlyLookLikeDevices) {
  for (const char* name : {"com", "com-", "comx", "lpty.txt", "com12", "nully", "console.log", "a_b-c.9"}) {
    EXPECT_EQ(refusal_of(raw_zip({{name}})), "") << name;
    EXPECT_TRUE(is_portable_name(name)) << name;
  }
  EXPECT_FALSE(is_portable_name(""));
  EXPECT_FALSE(is_portable_name("{"));
}

TEST(Unpack, RefusesNamesThatAreNoPlainPathInside) {
  const std::string with_nul("job.json\0.exe", 13);
  for (const std::string& name : {std::string("../job.json"),
                                  std::string("a/../../b"),
                                  std::string("/etc/x"),
                                  std::string("a//b"),
                                  std::string("./a"),
                                  std::string("C:/x"),
                                  std::string("C:x"),
                                  std::string("a\\b"),
                                  std::string("\\\\host\\x"),
                                  std::string("a/b:stream"),
                                  with_nul,
                                  std::string("nul"),
                                  std::string("pictures/CON.jpg"),
                                  std::string("Com1"),
                                  std::string("lpt9.txt"),
                                  std::string("aux.tar.gz"),
                                  std::string("a."),
                                  std::string("a b"),
                                  std::string("a\x7f"),
                                  std::string(""),
                                  std::string("/"),
                                  std::string("a\nb"),
                                  std::string("\xe2\x80\xaegpj.exe"),
                                  std::string("%2e%2e/\x01"),
                                  std::string("~/x*"),
                                  std::string(300, 'a')}) {
    const std::string refusal = refusal_of(raw_zip({{"README.txt"}, {name}}));
    EXPECT_THAT(refusal, HasSubstr("a name that is no plain path inside the archive")) << name;
    EXPECT_EQ(refusal.find('\n'), std::string::npos) << name;
  }
}

TEST(Unpack, RefusesANameThatComesTwiceInWhateverCase) {
  EXPECT_THAT(refusal_of(raw_zip({{"job.json"}, {"job.json"}})), HasSubstr("comes twice"));
  EXPECT_THAT(refusal_of(raw_zip({{"job.json"}, {"JOB.json"}})), HasSubstr("comes twice"));
  EXPECT_THAT(refusal_of(raw_zip({{"pictures"}, {"Pictures/", "", 040755}})), HasSubstr("comes twice"));
}

TEST(Unpack, RefusesLinksAndDevices) {
  for (const std::uint32_t mode : {0120777u, 020666u, 060666u, 010644u, 0140644u}) {
    EXPECT_THAT(refusal_of(raw_zip({{"pictures/a", "/etc/passwd", mode}})), HasSubstr("link or a device")) << mode;
  }
}

TEST(Unpack, RefusesWhatIsEncrypted) {
  EXPECT_THAT(refusal_of(raw_zip({{"job.json", std::string(20, 'x'), 0100644, 8, 0, 1}})), HasSubstr("\"job.json\""));
}

// Method 6, "imploded", which nobody has written for thirty years (APPNOTE 4.4.5).
TEST(Unpack, RefusesAWayOfPackingThatItDoesNotKnow) {
  EXPECT_THAT(refusal_of(raw_zip({{"job.json", "xxxx", 0100644, 4, 6}})), HasSubstr("\"job.json\""));
}

TEST(Unpack, RefusesMoreThanItsLimitsBeforeItUnpacks) {
  EXPECT_THAT(refusal_of(raw_zip({{"a"}, {"b"}, {"c"}}), {2, 100}), HasSubstr("more than any job"));
  EXPECT_THAT(refusal_of(raw_zip({{"a", std::string(60, 'x')}, {"b", std::string(60, 'x')}}), {2, 100}),
              HasSubstr("more than any job"));
  EXPECT_THAT(refusal_of(raw_zip({{"bomb", "\x03", 0100644, 0xfffffff0u, 8}})), HasSubstr("more than any job"));
}

// What a compressor makes of 2,000 zeros: a length that lies is found out at the end of the stream, not believed.
TEST(Unpack, RefusesAnEntryThatIsLongerOrShorterThanItSays) {
  const std::string packed("c`\x18\x05\xa3`\x14\x8c\x82Q0\nF\xc1P\x07\x00", 17);
  const std::string zeros(2000, '\0');
  const auto told = [&](std::uint32_t bytes) { return raw_zip({{"a", packed, 0100644, bytes, 8, 0, zeros}}); };
  const auto honest = unpack(told(2000));
  ASSERT_TRUE(honest.ok()) << honest.error().message;
  EXPECT_EQ(honest.value().front().bytes, zeros);
  for (const std::uint32_t lie : {10u, 1999u, 2001u, 100'000u}) {
    EXPECT_THAT(refusal_of(told(lie)), HasSubstr("damaged")) << lie;
  }
}

TEST(Unpack, RefusesWhatIsNoArchiveOrCutShortOrChanged) {
  EXPECT_THAT(refusal_of(""), HasSubstr("no zip archive"));
  EXPECT_THAT(refusal_of("{\"format\": \"duskwire-job\"}"), HasSubstr("no zip archive"));
  const std::string whole = raw_zip({{"job.json", "the text of a job"}});
  for (std::size_t size = 0; size < whole.size(); ++size) EXPECT_NE(refusal_of(whole.substr(0, size)), "") << size;
  std::string changed = whole;
  changed[changed.find("text")] = 'T';
  EXPECT_THAT(refusal_of(changed), HasSubstr("damaged"));
}

}  // namespace
}  // namespace duskwire::office
