// SPDX-License-Identifier: Apache-2.0
// The command price, run as a user runs it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/text_width.hpp"
#include "program.hpp"

namespace duskwire::cli {
namespace {

using nlohmann::json;
using testing::HasSubstr;

TEST(PriceCommand, TheDemosPriceAddsUp) {
  const Workplace place;
  const Ended run = place.run("duskwire price examples/ostrey-garden-sound.json --json");
  EXPECT_EQ(run.code, 0) << run.complaint;
  const json price = json::parse(run.text);
  std::int64_t sum_minor = 0;
  for (const json& line : price["lines"]) sum_minor += line["price_minor"].get<std::int64_t>();
  EXPECT_EQ(sum_minor, price["total_minor"]);
  EXPECT_EQ(price["options"].size(), 3u);
  EXPECT_EQ(price["options"][1]["total_minor"], price["total_minor"]);
  EXPECT_EQ(price["deposit"]["rule"], "ten-percent-or-1000");
  EXPECT_EQ(price["deposit"]["amount_minor"], 100'000);
}

TEST(PriceCommand, ItsMaterialIsTheListOfMaterials) {
  const Workplace place;
  for (const char* job : {"examples/small-garden.json", "examples/ostrey-garden.json"}) {
    const json list = json::parse(place.run(std::string("duskwire materials --json ") + job).text);
    const json price = json::parse(place.run(std::string("duskwire price --json ") + job).text);
    std::int64_t goods_minor = 0;
    for (const json& line : price["lines"]) {
      if (line["group"] == "material" && line["id"] != "sundries")
        goods_minor += line["cost_minor"].get<std::int64_t>();
    }
    EXPECT_EQ(goods_minor, list["price_minor"]) << job;
  }
}

TEST(PriceCommand, ThePageFitsItsWidthAndSaysThatItIsAnEstimate) {
  const Workplace place;
  const Ended run = place.run("duskwire price examples/ostrey-garden-sound.json");
  EXPECT_THAT(run.text, HasSubstr("An estimate from the plan and the catalogue"));
  EXPECT_THAT(run.text, HasSubstr("not legal advice"));
  EXPECT_THAT(run.text, HasSubstr("Phase 2: patio, birches and pond"));
  std::istringstream lines(run.text);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(display_width(line), 80) << line;
}

TEST(PriceCommand, WithoutAnOfferItListsWhatItTookForGranted) {
  const Workplace place;
  const Ended run = place.run("duskwire price examples/small-garden.json");
  EXPECT_EQ(run.code, 0) << run.complaint;
  EXPECT_THAT(run.text, HasSubstr("what the offer does not say"));
  EXPECT_THAT(run.text, HasSubstr("85.00 USD per hour"));
}

TEST(PriceCommand, AgainstAnotherJobItSaysWhyThePriceMoved) {
  const Workplace place;
  const std::string line = "duskwire price examples/ostrey-garden-sound.json --against examples/ostrey-garden.json";
  EXPECT_THAT(place.run(line).text, HasSubstr("The price went "));
  const json price = json::parse(place.run(line + " --json").text);
  std::int64_t moved_minor = 0;
  for (const json& each : price["moved"]["lines"]) moved_minor += each["moved_minor"].get<std::int64_t>();
  EXPECT_EQ(moved_minor, price["moved"]["moved_minor"]);
  EXPECT_EQ(place.run("duskwire price examples/small-garden.json --against no-such-file.json").code, 2);
}

}  // namespace
}  // namespace duskwire::cli
