// SPDX-License-Identifier: Apache-2.0
#include "cli/progress_line.hpp"

#include <gtest/gtest.h>

#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

study::RouteProgress progress() {
  study::RouteProgress made;
  made.cost_minor = 120'400;
  made.first_minor = 140'000;
  made.trench_m = 62.1;
  made.joints = 12;
  made.lamps_placed = made.lamps = 8;
  return made;
}

TEST(ProgressLine, TellsTimeLampsCostGainAndDig) {
  EXPECT_EQ(progress_text(progress(), 1.42, "USD", {}),
            "1.4 s  8 of 8 lamps  1204.00 USD, 14 % under the first  62.1 m dug  12 joints");
}

TEST(ProgressLine, SaysNothingOfACostThatIsNotThereOrAGainThatIsNone) {
  study::RouteProgress none = progress();
  none.cost_minor = 0;
  none.lamps_placed = 3;
  EXPECT_EQ(progress_text(none, 0.1, "USD", {}), "0.1 s  3 of 8 lamps");
  study::RouteProgress first = progress();
  first.cost_minor = first.first_minor;
  EXPECT_EQ(progress_text(first, 0, "USD", {}), "0.0 s  8 of 8 lamps  1400.00 USD  62.1 m dug  12 joints");
}

TEST(ProgressLine, StaysOnOneLine) {
  TextStyle narrow;
  narrow.width = 60;
  EXPECT_EQ(display_width(progress_text(progress(), 1.42, "USD", narrow)), 59);
}

}  // namespace
}  // namespace duskwire::cli
