// SPDX-License-Identifier: Apache-2.0
// A long life: a thousand jobs, a million saves at the nightly size, a clock that jumps back and forth. Memory stays
// flat, the order is that of the saves whatever the clock says, and the file opens.
#include <gtest/gtest.h>

#include <cstdio>
#include <ctime>
#include <fstream>
#include <random>

#include "store/sizes.hpp"
#include "store/temporary.hpp"

namespace duskwire::store {
namespace {

using testing::Folder;
using testing::sized;

// Memory in use by this program; 0 where the system does not tell.
long memory_kb() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);) {
    if (line.rfind("VmRSS:", 0) == 0) return std::stol(line.substr(6));
  }
  return 0;
}

TEST(Soak, MemoryStaysFlatAndTheOrderIsThatOfTheSaves) {
  const Folder folder;
  const std::string path = folder.file("w");
  const int events = sized(600, 1'000'000, 1'000'000);
  const int jobs = sized(50, 1'000, 1'000);
  std::mt19937 dice(11);
  Environment environment = testing::counting_environment();
  environment.now_utc = [&dice] { return std::to_string(1970 + dice() % 130) + "-03-01T10:00:00Z"; };
  long early_kb = 0;
  {
    auto opened = Workspace::open(path, environment);
    ASSERT_TRUE(opened.ok());
    std::vector<std::int64_t> revision(static_cast<std::size_t>(jobs), 0);
    for (int i = 0; i < events; ++i) {
      const auto job = static_cast<std::size_t>(i < jobs ? i : static_cast<int>(dice() % static_cast<unsigned>(jobs)));
      const SaveOutcome outcome =
          opened.value()->save(testing::save_of("job-" + std::to_string(job), revision[job], std::string(200, 'x')));
      ASSERT_TRUE(std::holds_alternative<Saved>(outcome));
      revision[job] = std::get<Saved>(outcome).revision;
      if (i == events / 4) early_kb = memory_kb();
    }
    const long late_kb = memory_kb();
    std::printf("%d saves; memory %ld kB after a quarter, %ld kB at the end\n", events, early_kb, late_kb);
    EXPECT_LT(late_kb, early_kb + 8'192);
    const auto rows = opened.value()->revisions("job-0", std::nullopt, 1'000'000).value();
    for (std::size_t i = 1; i < rows.size(); ++i) ASSERT_EQ(rows[i].revision, rows[i - 1].revision - 1);
    EXPECT_EQ(static_cast<std::int64_t>(rows.size()), revision[0]);
  }
  // Of the processor: a night's tests share the machine.
  const std::clock_t begin = std::clock();
  const auto opened = Workspace::open(path, environment);
  const double open_s = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
  ASSERT_TRUE(opened.ok());
  std::printf("opens in %.2f s of the processor, %ju bytes\n", open_s, std::filesystem::file_size(path));
  EXPECT_LT(open_s, sized(2.0, 20.0, 20.0));
  EXPECT_TRUE(opened.value()->verify().value().empty());
}

}  // namespace
}  // namespace duskwire::store
