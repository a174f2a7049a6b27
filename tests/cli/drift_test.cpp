// SPDX-License-Identifier: Apache-2.0
// Earlier visits beside a later one, from the command: what has drifted, what of it is the run's, what each run would
// still bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "eight_lamps.hpp"
#include "program.hpp"

namespace duskwire::cli {
namespace {

using ::testing::HasSubstr;
using Json = nlohmann::json;

Json volts(const char* place, double value) {
  return {{"place", place}, {"quantity", "voltage"}, {"value", value}, {"unit", "V"}};
}

Json visit(const char* date, const char* kind, double output_v, double lamp_v) {
  return {{"date", date}, {"kind", kind}, {"readings", {volts("T-A", output_v), volts("F7", lamp_v)}}};
}

// Lines are broken where the screen ends.
std::string on_one_line(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  for (std::size_t at = 0; (at = text.find("  ", at)) != std::string::npos;) text.erase(at, 1);
  return text;
}

class DriftOfVisits : public ::testing::Test {
 protected:
  [[nodiscard]] Ended locate(const Json& visits, const std::string& more = "") const {
    Json job = eight_lamps();
    job["visits"] = visits;
    place_.write("job.json", job.dump());
    return place_.run("duskwire locate job.json " + more);
  }

  Workplace place_;
};

TEST_F(DriftOfVisits, ALossSinceMarchIsToldWithWhatOfItIsTheRuns) {
  const Ended run =
      locate({visit("2026-03-02", "commissioning", 13.00, 12.70), visit("2026-09-14", "care", 13.00, 12.30)});
  EXPECT_THAT(on_one_line(run.text), HasSubstr("What has moved"));
  EXPECT_THAT(on_one_line(run.text),
              HasSubstr("F7 has lost 0.40 V since 2026-03-02, -0.40 V of it on the run from T-A."));
}

TEST_F(DriftOfVisits, VoltsThatFellWithTheMainsAreNotTheRuns) {
  const Ended run =
      locate({visit("2026-03-02", "commissioning", 13.00, 12.70), visit("2026-09-14", "care", 12.60, 12.30)});
  EXPECT_THAT(on_one_line(run.text),
              HasSubstr("F7 has lost 0.40 V since 2026-03-02, and so has T-A: mains or tap, not the run."));
}

TEST_F(DriftOfVisits, TheFirstVisitCountsNotTheLastOne) {
  const Ended run = locate({visit("2026-03-02", "commissioning", 13.00, 12.70),
                            visit("2026-09-14", "care", 13.00, 12.50), visit("2027-03-02", "care", 13.00, 12.40)},
                           "--json");
  const Json drift = Json::parse(run.text)["drift"];
  ASSERT_EQ(drift.size(), 1U);
  EXPECT_EQ(drift[0]["since"], "2026-03-02");
  EXPECT_NEAR(drift[0]["change"].get<double>(), -0.30, 1e-9);
  EXPECT_NEAR(drift[0]["output_change"].get<double>(), 0, 1e-9);
}

TEST_F(DriftOfVisits, ReadingsOfAFileAreHeldAgainstTheVisits) {
  place_.write("now.csv", "place,quantity,value,unit\nF7,voltage,12.30,V\n");
  const Ended run = locate(Json::array({visit("2026-03-02", "commissioning", 13.00, 12.70)}), "--readings now.csv");
  EXPECT_THAT(on_one_line(run.text), HasSubstr("F7 has lost 0.40 V since 2026-03-02."));
}

TEST_F(DriftOfVisits, AVisitThatMovedNothingTellsNothing) {
  const Ended run =
      locate({visit("2026-03-02", "commissioning", 13.00, 12.70), visit("2026-09-14", "care", 12.98, 12.67)});
  EXPECT_THAT(on_one_line(run.text), testing::Not(HasSubstr("What has moved")));
  EXPECT_THAT(on_one_line(run.text), HasSubstr("Room for more lamps"));
  EXPECT_THAT(on_one_line(run.text), HasSubstr("more at the far end of its run"));
}

}  // namespace
}  // namespace duskwire::cli
