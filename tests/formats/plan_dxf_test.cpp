// SPDX-License-Identifier: Apache-2.0
// Drawings are read back and audited by ezdxf (python3-ezdxf), a reader that has nothing to do with the writer.
#include "formats/plan_dxf.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "formats/dxf_text.hpp"
#include "office/read_back.hpp"

namespace duskwire::formats {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

std::string read_back(const std::string& drawing) {
  return office::testing::told_by("/usr/bin/python3 '" DUSKWIRE_SOURCE_DIR "/tests/formats/read_dxf.py' {}", drawing,
                                  ".dxf");
}

job::Job small_garden() {
  job::Job job;
  job.title = "Garden Ω, 灯 %%u ^J";
  job.plan.property_line = {{0, 0}, {30, 0}, {30, 20.5}, {0, 20.5}};
  job.plan.areas.push_back({"house", "House", job::GroundKind::building, {{5, 5}, {15, 5}, {15, 12}}, 0, {}, {}, {}});
  job.plan.areas.push_back({"lawn", "", job::GroundKind::lawn, {{0, 0}, {30, 0}, {30, 5}}, 0, {}, {}, {}});
  job.plan.trees.push_back({"oak", "Oak", {20, 10}, 8, 5, 2, 0.3, {}});
  job::Transformer transformer;
  transformer.id = "T1";
  transformer.position = {{5, 4}};
  transformer.outputs.push_back({"T1-1", 13, {}, {}});
  job.transformers.push_back(transformer);
  for (const char* id : {"F1", "F2"}) {
    job::Luminaire light;
    light.id = id;
    light.position = {{id[1] == '1' ? 10.0 : 12.0, 3, 0.3}};
    light.azimuth_deg = 90;
    job.luminaires.push_back(light);
  }
  job.luminaires[1].tilt_deg = 90;
  job::Cable routed;
  routed.id = "C1";
  routed.from = "T1-1";
  routed.to = "F1";
  routed.path = {{5, 4}, {8, 3.125}, {10, 3}};
  job::Cable direct;
  direct.id = "C2";
  direct.from = "F1";
  direct.to = "F2";
  job.cables = {routed, direct};
  return job;
}

TEST(PlanDxf, IsReadByAnotherReaderInMetresWithoutAnError) {
  const std::string seen = read_back(plan_dxf(small_garden()));
  ASSERT_FALSE(seen.empty()) << "python3-ezdxf is needed: tools/ensure_packages test";
  EXPECT_THAT(seen, HasSubstr("version AC1009 units 6 errors 0 fixes 0\n"));
  EXPECT_THAT(seen, Not(HasSubstr("no layer")));
  EXPECT_THAT(seen, Not(HasSubstr("UNKNOWN")));
  EXPECT_THAT(seen, Not(HasSubstr("OTHER")));
  EXPECT_THAT(seen, HasSubstr("POLYLINE PROPERTY-LINE closed 0.000,0.000 30.000,0.000 30.000,20.500 0.000,20.500\n"));
  EXPECT_THAT(seen, HasSubstr("POLYLINE CABLE open 5.000,4.000 8.000,3.125 10.000,3.000\n"));
  EXPECT_THAT(seen, HasSubstr("LINE CABLE-NOT-ROUTED 10.000 3.000 12.000 3.000\n"));
  EXPECT_THAT(seen, HasSubstr("INSERT LIGHT LIGHT known 10.000 3.000\n"));
  EXPECT_THAT(seen, HasSubstr("INSERT TRANSFORMER TRANSFORMER known 5.000 4.000\n"));
  EXPECT_THAT(seen, HasSubstr("CIRCLE TREE 20.000 10.000 2.500\n"));
  EXPECT_THAT(seen, HasSubstr("layer CABLE colour 1 line CONTINUOUS\n"));
}

// East is x: azimuth 90 with north up. The lamp that looks straight up has no line.
TEST(PlanDxf, AimsFollowNorth) {
  job::Job job = small_garden();
  EXPECT_THAT(read_back(plan_dxf(job)), HasSubstr("LINE LIGHT-AIM 10.000 3.000 11.000 3.000\n"));
  EXPECT_THAT(read_back(plan_dxf(job)), Not(HasSubstr("LINE LIGHT-AIM 12.000")));
  job.plan.north_deg = 180;  // north is to the left
  EXPECT_THAT(read_back(plan_dxf(job)), HasSubstr("LINE LIGHT-AIM 10.000 3.000 10.000 4.000\n"));
}

TEST(PlanDxf, WordsOfEveryScriptComeBackAndNoneControlsTheDrawing) {
  const std::string seen = read_back(plan_dxf(small_garden()));
  EXPECT_THAT(seen, HasSubstr("Garden Ω, 灯 % %u ^ J"));
  EXPECT_EQ(dxf_words("a\nb\x01"), "a b ");
  EXPECT_EQ(dxf_words("\xF0\x9F\x92\xA1"), "?");
  EXPECT_EQ(dxf_words("\xC3"), "?");
}

TEST(PlanDxf, AnEmptyJobIsADrawing) {
  EXPECT_THAT(read_back(plan_dxf({})), HasSubstr("version AC1009 units 6 errors 0 fixes 0\n"));
}

}  // namespace
}  // namespace duskwire::formats
