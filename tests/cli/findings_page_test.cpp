// SPDX-License-Identifier: Apache-2.0
#include "cli/findings_page.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sample_report.hpp"

namespace duskwire::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

study::Finding low_lamp(const std::string& id, double measured_v, double tap_v) {
  study::Finding finding = sample::finding();
  finding.subject = id;
  finding.message = id + " is low.";
  finding.measured = measured_v;
  finding.cures = {{"Set the tap.", {{job::ChangeKind::set_tap, "T1-A", "", "", tap_v}}}};
  return finding;
}

std::string page(const study::Findings& findings, bool sources = false) {
  return findings_page(findings, Names(sample::job()), sources, {});
}

TEST(FindingsPage, TalliesInWords) {
  EXPECT_EQ(tally({}), "no errors, no warnings");
  EXPECT_EQ(tally({Severity::error, Severity::warning, Severity::warning}), "1 error, 2 warnings");
  EXPECT_EQ(tally({Severity::note}), "no errors, no warnings, 1 note");
}

TEST(FindingsPage, WhatTheSameChangeCuresStandsTogetherTheGravestFirst) {
  const std::string text = page({low_lamp("L1", 9.9, 14), low_lamp("L2", 9.1, 14), low_lamp("L3", 9.5, 14)});
  EXPECT_THAT(text, HasSubstr("  1. error  L2 is low."));
  EXPECT_THAT(text, HasSubstr("2 more, cured by the same: L3 9.50 V, L1 9.90 V"));
  EXPECT_THAT(text, Not(HasSubstr("  2. error")));
}

TEST(FindingsPage, AnotherCureOrNoneStandsAlone) {
  study::Finding incurable = low_lamp("L3", 9.5, 14);
  incurable.cures.clear();
  const std::string text = page({low_lamp("L1", 9.9, 14), low_lamp("L2", 9.1, 13), incurable});
  EXPECT_THAT(text, HasSubstr("  3. error  L3 is low."));
  EXPECT_THAT(text, Not(HasSubstr("cured by the same")));
}

TEST(FindingsPage, AddressesOfSourcesAreToldOnlyWhereAskedFor) {
  study::Finding finding = sample::finding();
  finding.provenance = {"A 1.2", "2014", "seen", "no less than that; seen at example.org/page"};
  EXPECT_THAT(page({finding}), HasSubstr("A 1.2, edition 2014 [seen]: no less than that\n"));
  EXPECT_THAT(page({finding}, true), HasSubstr("example.org/page"));
}

TEST(FindingsPage, NotesAreAPageOfTheirOwn) {
  study::Finding note = sample::finding();
  note.severity = Severity::note;
  note.message = "The plan has no areas drawn.";
  EXPECT_EQ(page({note}), "");
  EXPECT_EQ(notes_page({note}, {}), "  - The plan has no areas drawn.\n");
  EXPECT_EQ(notes_page({sample::finding()}, {}), "");
}

}  // namespace
}  // namespace duskwire::cli
