// SPDX-License-Identifier: Apache-2.0
#include "cli/interrupt.hpp"

#include <gtest/gtest.h>

#include <csignal>

namespace duskwire::cli {
namespace {

int met_by_before = 0;
void count(int) { ++met_by_before; }

TEST(Interrupt, KeepsTheFirstCtrlCAndGivesBackWhatWasThere) {
  const auto former = std::signal(SIGINT, count);
  {
    const Interrupt interrupt;
    EXPECT_FALSE(Interrupt::met());
    std::raise(SIGINT);
    EXPECT_TRUE(Interrupt::met());
    EXPECT_EQ(met_by_before, 0);
  }
  std::raise(SIGINT);
  EXPECT_EQ(met_by_before, 1);
  {
    const Interrupt again;
    EXPECT_FALSE(Interrupt::met()) << "each begins anew";
  }
  std::signal(SIGINT, former);
}

TEST(InterruptDeathTest, TheSecondCtrlCEndsTheProgram) {
  EXPECT_EXIT(
      {
        std::signal(SIGINT, SIG_DFL);  // the tests themselves may have been started in the background
        const Interrupt interrupt;
        std::raise(SIGINT);
        std::raise(SIGINT);
      },
      ::testing::KilledBySignal(SIGINT), "");
}

TEST(Interrupt, InTheBackgroundItStaysUnheard) {
  const auto former = std::signal(SIGINT, SIG_IGN);
  {
    const Interrupt interrupt;
    std::raise(SIGINT);
    EXPECT_FALSE(Interrupt::met());
  }
  std::signal(SIGINT, former);
}

}  // namespace
}  // namespace duskwire::cli
