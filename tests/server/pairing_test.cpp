// SPDX-License-Identifier: Apache-2.0
// The code on the screen against who guesses it, repeats it or shares it.
#include "server/pairing.hpp"

#include <gtest/gtest.h>

#include <set>

namespace duskwire::server {
namespace {

using Verdict = Pairing::Verdict;

// A clock that stands until it is moved, and codes 10000001, 10000002, ...
struct Scene {
  Pairing::Clock::time_point time{};
  int codes = 0;
  Pairing pairing{[this] { return time; }, [this] { return std::to_string(10'000'000 + ++codes); }};
};

TEST(Pairing, ACodeServesOnePhoneOnce) {
  Scene scene;
  EXPECT_EQ(scene.pairing.code(), "10000001");
  EXPECT_EQ(scene.pairing.judge("1000 0001"), Verdict::right);
  EXPECT_EQ(scene.pairing.judge("10000001"), Verdict::wrong) << "the second of two phones, or a replay";
  EXPECT_EQ(scene.pairing.judge(scene.pairing.code()), Verdict::right);
}

TEST(Pairing, ACodeLivesTwoMinutes) {
  Scene scene;
  scene.time += std::chrono::seconds(119);
  EXPECT_EQ(scene.pairing.code(), "10000001");
  scene.time += std::chrono::seconds(1);
  EXPECT_EQ(scene.pairing.judge("10000001"), Verdict::wrong);
  EXPECT_EQ(scene.pairing.code(), "10000002");
}

TEST(Pairing, FiveWrongTriesMakeANewCode) {
  Scene scene;
  for (int i = 0; i < 4; ++i) EXPECT_EQ(scene.pairing.judge("0"), Verdict::wrong);
  EXPECT_EQ(scene.pairing.code(), "10000001");
  EXPECT_EQ(scene.pairing.judge(""), Verdict::wrong);
  EXPECT_EQ(scene.pairing.code(), "10000002");
  EXPECT_EQ(scene.pairing.judge("10000001"), Verdict::wrong);
}

// Without a bound on all tries somebody who guesses five a code would be in within hours.
TEST(Pairing, TwentyWrongTriesEndPairingForGood) {
  Scene scene;
  for (int i = 0; i < 19; ++i) EXPECT_EQ(scene.pairing.judge("00000000"), Verdict::wrong) << i;
  EXPECT_EQ(scene.pairing.judge("00000000"), Verdict::over);
  EXPECT_EQ(scene.pairing.code(), "");
  scene.time += std::chrono::hours(1);
  EXPECT_EQ(scene.pairing.judge("10000004"), Verdict::over);
  EXPECT_EQ(scene.pairing.judge("10000005"), Verdict::over);
  EXPECT_EQ(scene.pairing.judge(""), Verdict::over);
}

// 1,000 codes: each digit at each place is met 100 times on average; 50 and 160 are five standard deviations (9.5)
// away.
TEST(Pairing, CodesAreEightDigitsWithoutAPattern) {
  std::set<std::string> seen;
  int met[8][10] = {};
  for (int i = 0; i < 1000; ++i) {
    const std::string code = random_code();
    ASSERT_EQ(code.size(), 8u);
    ASSERT_EQ(code.find_first_not_of("0123456789"), std::string::npos);
    for (std::size_t place = 0; place < 8; ++place) ++met[place][code[place] - '0'];
    seen.insert(code);
  }
  EXPECT_GT(seen.size(), 995u);
  for (const auto& place : met) {
    for (const int count : place) {
      EXPECT_GT(count, 50);
      EXPECT_LT(count, 160);
    }
  }
}

}  // namespace
}  // namespace duskwire::server
