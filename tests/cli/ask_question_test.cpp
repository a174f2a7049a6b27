// SPDX-License-Identifier: Apache-2.0
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/ask_page.hpp"

namespace duskwire::cli {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

AskRequest whole() {
  AskRequest request;
  request.lamps = "8";
  request.watts = "4";
  request.length = "200ft";
  request.cable = "12awg";
  request.tap = "13";
  return request;
}

study::Question read(const AskRequest& request, const job::Catalogue& stock = {}) {
  const auto met = question_of(request, units_of(request), stock);
  const auto* question = std::get_if<study::Question>(&met);
  EXPECT_NE(question, nullptr);
  return question == nullptr ? study::Question{} : *question;
}

std::vector<std::string> slips(const AskRequest& request) {
  const auto met = question_of(request, job::DisplayUnits::metric, {});
  const auto* slips = std::get_if<Slips>(&met);
  return slips == nullptr ? std::vector<std::string>{} : slips->sentences;
}

TEST(AskQuestion, BecomesSiWhateverWasTyped) {
  const study::Question question = read(whole());
  EXPECT_EQ(question.lamps, 8u);
  EXPECT_DOUBLE_EQ(question.length_m.value(), 60.96);
  EXPECT_EQ(question.tap_v, 13);
  EXPECT_EQ(question.window_min_v, 10);
  EXPECT_EQ(question.mains_tolerance_pct, 5);
}

TEST(AskQuestion, ACableThatTheStockLacksIsReckonedFromItsCopper) {
  // ASTM B258 makes 12 AWG 3.3088 mm2; copper of 17.241 ohm mm2/km (IACS, NBS Handbook 100) then has 5.2107 ohm/km.
  EXPECT_NEAR(read(whole()).cable->ohm_per_m_20c, 0.0052107, 0.000001);
}

TEST(AskQuestion, ACableOfTheStockIsTakenFromThere) {
  job::Catalogue stock;
  stock.cables.resize(1);
  stock.cables[0].id = "12awg-2";
  stock.cables[0].area_mm2 = 3.31;
  stock.cables[0].gauge_awg = 12;
  stock.cables[0].ohm_per_m_20c = 0.0054;
  EXPECT_EQ(read(whole(), stock).cable->id, "12awg-2");
}

TEST(AskQuestion, TakesUnitsFromTheLengthAsTyped) {
  EXPECT_EQ(units_of(whole()), job::DisplayUnits::us);
  AskRequest metric = whole();
  metric.length = "60m";
  EXPECT_EQ(units_of(metric), job::DisplayUnits::metric);
}

TEST(AskQuestion, OnePartMayBeLeftOutNotTwo) {
  AskRequest request = whole();
  request.tap = "";
  EXPECT_FALSE(read(request).tap_v.has_value());
  request.length = "";
  EXPECT_THAT(slips(request), Contains(HasSubstr("Leave out at most one")));
}

TEST(AskQuestion, TellsEverySlipAtOnce) {
  AskRequest request = whole();
  request.lamps = "many";
  request.length = "far";
  request.cable = "thick";
  request.window = "15:10";
  EXPECT_EQ(slips(request).size(), 4u);
}

}  // namespace
}  // namespace duskwire::cli
