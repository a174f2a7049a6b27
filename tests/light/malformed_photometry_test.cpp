// SPDX-License-Identifier: Apache-2.0
// What to do with broken files: tests/reference/photometry_malformed.csv.
#include <gtest/gtest.h>

#include <string>

#include "light/intensity_reader.hpp"
#include "light/photometry_files.hpp"
#include "reference_rows.hpp"

namespace duskwire::light {
namespace {

bool warns(const Problems& problems) {
  for (const Problem& problem : problems) {
    if (problem.severity == Severity::warning) return true;
  }
  return false;
}

TEST(MalformedPhotometry, EachFileIsRefusedOrAcceptedAsItShould) {
  const auto rows = reference_rows("photometry_malformed.csv");
  EXPECT_EQ(rows.size(), 18u);
  for (const ReferenceRow& row : rows) {
    const ReadIntensities read = read_intensities(reference_bytes(row.text("file")));
    const std::string& expected = row.text("expected");
    const bool refused = !read.file;
    EXPECT_EQ(refused, has_errors(read.problems)) << row.text("file");
    const bool warned = warns(read.problems);
    const bool as_expected = expected == "reject"        ? refused
                             : expected == "accept"      ? !refused && !warned
                             : expected == "accept_warn" ? !refused && warned
                                                         : expected == "reject_or_warn" && (refused || warned);
    EXPECT_TRUE(as_expected) << row.text("file") << " should: " << expected;
    for (const Problem& problem : read.problems) {
      EXPECT_FALSE(problem.message.empty()) << row.text("file");
      EXPECT_FALSE(problem.severity == Severity::error && problem.expected.empty()) << row.text("file");
    }
  }
}

TEST(MalformedPhotometry, AByteOrderMarkChangesNothing) {
  EXPECT_EQ(reference_intensities("photometry/malformed/ies-bom-lf.ies").distribution,
            reference_intensities("photometry/made-here/cos4-1000cd.ies").distribution);
  EXPECT_EQ(reference_intensities("photometry/malformed/ldt-bom-utf8.ldt").distribution,
            reference_intensities("photometry/made-here/ldt-isym2.ldt").distribution);
}

Problem only_error(const std::string& name) {
  const ReadIntensities read = read_intensities(reference_bytes("photometry/malformed/" + name));
  Problem found;
  int errors = 0;
  for (const Problem& problem : read.problems) {
    if (problem.severity != Severity::error) continue;
    found = problem;
    ++errors;
  }
  EXPECT_EQ(errors, 1) << name;
  return found;
}

TEST(MalformedPhotometry, FindingsSayWhereAndWhat) {
  EXPECT_EQ(only_error("ies-nonnumeric.ies").pointer, "line 8");
  EXPECT_EQ(only_error("ies-nonnumeric.ies").value, "one");
  EXPECT_EQ(only_error("ies-nan.ies").pointer, "line 19");
  EXPECT_EQ(only_error("ies-nan.ies").value, "nan");
  EXPECT_EQ(only_error("ies-descending-angles.ies").pointer, "line 7");
  EXPECT_EQ(only_error("ies-descending-angles.ies").value, "90 then 45");
  EXPECT_EQ(only_error("ies-horizontal-ends-at-120.ies").value, "0 to 120");
  EXPECT_EQ(only_error("ldt-isym5.ldt").pointer, "line 3");
  EXPECT_EQ(only_error("ldt-isym5.ldt").value, "5");
  EXPECT_EQ(only_error("ldt-zero-lamp-sets.ldt").pointer, "line 26");
}

TEST(MalformedPhotometry, BothAbsurdCountsAreNamed) {
  const ReadIntensities read =
      read_intensities(reference_bytes("photometry/malformed/ies-negative-and-huge-counts.ies"));
  std::string values;
  for (const Problem& problem : read.problems) values += problem.value + ";";
  EXPECT_NE(values.find("-3;"), std::string::npos) << values;
  EXPECT_NE(values.find("2000000000;"), std::string::npos) << values;
}

}  // namespace
}  // namespace duskwire::light
