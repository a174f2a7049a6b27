// SPDX-License-Identifier: Apache-2.0
#include "study/crew_lists.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "study/check.hpp"
#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

CrewSet set_of(const job::Job& job) {
  return crew_set(job, job.catalogue, estimate::materials(job, job.catalogue),
                  check(job, {}, job.catalogue, {.cures = false}));
}

const TableData& list(const std::vector<TableData>& lists, const std::string& id) {
  return *std::find_if(lists.begin(), lists.end(), [&](const TableData& table) { return table.id == id; });
}

double sum(const TableData& table, const std::string& key) {
  const auto column = std::find_if(table.columns.begin(), table.columns.end(),
                                   [&](const TableColumn& column) { return column.key == key; });
  const auto index = static_cast<std::size_t>(column - table.columns.begin());
  double total = 0;
  for (const auto& row : table.rows) total += std::get<double>(row.at(index));
  return total;
}

TEST(CrewLists, AreWholeTablesWithKeysOfTheirOwn) {
  const auto lists = crew_lists(set_of(tests::two_splice_site()));
  EXPECT_EQ(lists.size(), 10u);
  std::set<std::string> ids;
  for (const TableData& table : lists) {
    EXPECT_TRUE(ids.insert(table.id).second) << table.id;
    std::set<std::string> keys;
    for (const TableColumn& column : table.columns) EXPECT_TRUE(keys.insert(column.key).second) << column.key;
    for (const auto& row : table.rows) EXPECT_EQ(row.size(), table.columns.size()) << table.id;
  }
}

TEST(CrewLists, HoldTheSameMetresAndVoltAmperesAsTheSet) {
  const CrewSet set = set_of(tests::two_splice_site());
  const auto lists = crew_lists(set);
  EXPECT_EQ(list(lists, "runs").rows.size(), 10u);
  EXPECT_EQ(list(lists, "lamps").rows.size(), 8u);
  EXPECT_EQ(list(lists, "joints").rows.size(), 2u);
  EXPECT_EQ(list(lists, "readings").rows.size(), 1u + 2u + 8u);
  EXPECT_NEAR(sum(list(lists, "lamps"), "power_va"), 42, 1e-9);
  EXPECT_NEAR(sum(list(lists, "cuts"), "cut_m"), 102, 1e-9) << "30 + 15 + 32 + 15 + 10 m without slack";
  EXPECT_NEAR(sum(list(lists, "runs"), "cut_m"), sum(list(lists, "reels"), "used_m"), 1e-9);
  EXPECT_NEAR(sum(list(lists, "trenches"), "dug_m"), set.totals.dug_m, 1e-9);
}

}  // namespace
}  // namespace duskwire::study
