// SPDX-License-Identifier: Apache-2.0
// Work in the background, whatever is made: one at a time, ended, failed, kept for a while.
#include "server/desk.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <future>
#include <stdexcept>

namespace duskwire::server {
namespace {

using TextDesk = Desk<std::string, std::string>;

constexpr DeskWords words{"Busy.", "Broken."};

DeskStanding<std::string> ended(const TextDesk& desk, std::uint64_t number) {
  for (int i = 0; i < 2000; ++i) {
    const auto standing = desk.standing(number);
    if (!standing) break;
    if (standing->state != DeskState::working) return *standing;
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  ADD_FAILURE() << "work " << number << " never ended";
  return {};
}

TEST(Desk, MakesWhatIsOrderedAndTellsHowFarItIs) {
  TextDesk desk(words, [](const std::string& order, const DeskProgress& progress) -> Result<std::string> {
    EXPECT_TRUE(progress(0.5));
    return "made of " + order;
  });
  const std::uint64_t number = desk.begin("paper").value();
  const auto standing = ended(desk, number);
  EXPECT_EQ(standing.state, DeskState::done);
  EXPECT_EQ(standing.share, 1);
  ASSERT_TRUE(standing.made);
  EXPECT_EQ(*standing.made, "made of paper");
  EXPECT_TRUE(desk.end(number));
  EXPECT_FALSE(desk.standing(number));
  EXPECT_FALSE(desk.end(number));
}

TEST(Desk, TakesOneOrderAtATimeAndEndsItWhereNobodyWantsIt) {
  std::promise<void> begun;
  TextDesk desk(words, [&](const std::string&, const DeskProgress& progress) -> Result<std::string> {
    begun.set_value();
    while (progress(0.25)) std::this_thread::sleep_for(std::chrono::milliseconds(1));
    return Error{ErrorCode::unavailable, "It was ended."};
  });
  const std::uint64_t number = desk.begin("long").value();
  begun.get_future().wait();
  const auto second = desk.begin("next");
  ASSERT_FALSE(second);
  EXPECT_EQ(second.error().code, ErrorCode::conflict);
  EXPECT_EQ(second.error().message, "Busy.");
  EXPECT_TRUE(desk.end(number));
  EXPECT_EQ(ended(desk, number).message, "It was ended.");
}

TEST(Desk, WhatWasEndedAtTheLastMomentIsNotKept) {
  std::promise<void> begun;
  std::promise<void> ended_by_us;
  TextDesk desk(words, [&](const std::string&, const DeskProgress&) -> Result<std::string> {
    begun.set_value();
    ended_by_us.get_future().wait();
    return std::string("whole");
  });
  const std::uint64_t number = desk.begin("x").value();
  begun.get_future().wait();
  EXPECT_TRUE(desk.end(number));
  ended_by_us.set_value();
  const auto standing = ended(desk, number);
  EXPECT_EQ(standing.state, DeskState::failed);
  EXPECT_FALSE(standing.made);
}

TEST(Desk, AFaultOfOurOwnIsAFailureWithWords) {
  TextDesk desk(words, [](const std::string&, const DeskProgress&) -> Result<std::string> {
    throw std::runtime_error("never shown");
  });
  const auto standing = ended(desk, desk.begin("x").value());
  EXPECT_EQ(standing.state, DeskState::failed);
  EXPECT_EQ(standing.message, "Broken.");
  EXPECT_FALSE(standing.made);
}

TEST(Desk, KeepsTheLastFour) {
  TextDesk desk(words, [](const std::string& order, const DeskProgress&) -> Result<std::string> { return order; });
  for (std::uint64_t number = 1; number <= 6; ++number) {
    ASSERT_EQ(desk.begin("x").value(), number);
    ended(desk, number);
  }
  EXPECT_FALSE(desk.standing(2));
  EXPECT_TRUE(desk.standing(3));
  EXPECT_TRUE(desk.standing(6));
}

TEST(Desk, WaitsForWhatIsAtWorkWhenItGoes) {
  std::promise<void> begun;
  std::atomic<bool> over{false};
  {
    TextDesk desk(words, [&](const std::string&, const DeskProgress& progress) -> Result<std::string> {
      begun.set_value();
      while (progress(0)) std::this_thread::sleep_for(std::chrono::milliseconds(1));
      over = true;
      return std::string();
    });
    ASSERT_TRUE(desk.begin("long"));
    begun.get_future().wait();
  }
  EXPECT_TRUE(over);
}

}  // namespace
}  // namespace duskwire::server
