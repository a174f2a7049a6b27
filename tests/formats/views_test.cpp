// SPDX-License-Identifier: Apache-2.0
// Views in documents: those written before views had surfaces still read, and ids within a view agree.
#include <gtest/gtest.h>

#include "formats/documents.hpp"
#include "formats/job_reader.hpp"
#include "formats/job_writer.hpp"

namespace duskwire::formats {
namespace {

// A view as it was written while views were a reserved part.
constexpr const char* early_view = R"({"id":"VW9","image":"early.jpg","view_point":"V1","position":[5,-12,1.6],
  "calibration":{"method":"known_points","focal_px":2400,"principal_point_px":[2000,1500],
  "references":[{"pixel_px":[812.5,1033],"site":[0,0,2.4]}],"residual_px":1.2},"own_key":[1,2]})";

TEST(Views, AnEarlyViewReadsWithoutAWordAndKeepsItsKeys) {
  const ReadJob read = read_job(full_job_with("/views/1", Json::parse(early_view)));
  ASSERT_TRUE(read.job) << told(read.problems);
  EXPECT_EQ(told(read.problems), told(read_job(full_job_text()).problems));
  const job::View& view = read.job->views.at(1);
  EXPECT_EQ(view.width_px, 0);
  EXPECT_EQ(view.calibration->focal_px, 2400);
  EXPECT_EQ(view.calibration->principal_point_px, (geometry::PixelPoint{2000, 1500}));
  EXPECT_EQ(view.calibration->references.at(0).pixel_px, (geometry::PixelPoint{812.5, 1033}));
  const Json written = job_document(*read.job)["views"][1];
  EXPECT_EQ(written["own_key"], Json::parse("[1,2]"));
  EXPECT_EQ(written["calibration"]["residual_px"], 1.2);
  EXPECT_EQ(written["calibration"]["references"], Json::parse(early_view)["calibration"]["references"]);
}

TEST(Views, TheSameIdInTwoViewsIsNoProblem) {
  Json view = Json::parse(full_job_text())["views"][0];
  view["id"] = "VW2";
  EXPECT_TRUE(read_job(full_job_with("/views/1", view)).job);
}

TEST(Views, ANameThatLeadsNowhereIsAWarning) {
  struct Case {
    const char* pointer;
    const char* hint;
  };
  for (const Case& each : {Case{"/views/0/view_point", "names the view point \"gone\""},
                           Case{"/views/0/trees/0/tree", "names the tree \"gone\""},
                           Case{"/views/0/measures/0/surface", "names the surface \"gone\""}}) {
    const ReadJob read = read_job(full_job_with(each.pointer, "gone"));
    EXPECT_TRUE(read.job) << told(read.problems);
    const std::string all = told(read.problems);
    EXPECT_NE(all.find(std::string(each.pointer) + " | gone"), std::string::npos) << all;
    EXPECT_NE(all.find(each.hint), std::string::npos) << all;
  }
}

}  // namespace
}  // namespace duskwire::formats
