// SPDX-License-Identifier: Apache-2.0
#include "store/log_check.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

constexpr std::size_t frame_bytes = 24 + 4096;

// The log of four saves, as it lies beside an open workspace.
std::string log_of_four_saves() {
  const testing::Folder folder;
  const auto workspace = testing::open_or_fail(folder.file("w"));
  for (int i = 0; i < 4; ++i) {
    testing::saved_revision(workspace->save(testing::save_of("garden", i, "{}")));
  }
  std::ifstream file(folder.file("w-wal"), std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

TEST(LogCheck, ASoundLogAndEveryTornEndPass) {
  const std::string log = log_of_four_saves();
  ASSERT_GT(log.size(), 4 * frame_bytes);
  EXPECT_FALSE(is_log_damaged(""));
  for (std::size_t size = 0; size <= log.size(); size += 512) {
    EXPECT_FALSE(is_log_damaged(std::string_view(log).substr(0, size))) << size;
  }
}

TEST(LogCheck, DamageBeforeTheLastCommitIsSeen) {
  const std::string log = log_of_four_saves();
  for (const std::size_t at : {std::size_t{0}, std::size_t{9}, std::size_t{20}, std::size_t{30}, std::size_t{40},
                               std::size_t{32 + 24 + 100}, std::size_t{32 + frame_bytes + 2000}}) {
    std::string bad = log;
    bad[at] = static_cast<char>(bad[at] ^ 1);
    EXPECT_TRUE(is_log_damaged(bad)) << "byte " << at;
  }
}

TEST(LogCheck, DamageOfTheLastFrameLooksLikeATornEnd) {
  std::string log = log_of_four_saves();
  log[log.size() - 100] = static_cast<char>(log[log.size() - 100] ^ 1);
  EXPECT_FALSE(is_log_damaged(log));
}

// What an earlier round left behind the last frame has other salts and says nothing.
TEST(LogCheck, FramesOfAnEarlierRoundAreNotDamage) {
  const std::string log = log_of_four_saves();
  std::string old = log.substr(32);
  for (std::size_t at = 8; at < old.size(); at += frame_bytes) old[at] = static_cast<char>(old[at] ^ 0x55);
  EXPECT_FALSE(is_log_damaged(log + old));
}

}  // namespace
}  // namespace duskwire::store
