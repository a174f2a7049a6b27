// SPDX-License-Identifier: Apache-2.0
// Papers of a job as a command.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace duskwire::cli {
namespace {

using ::testing::HasSubstr;

const std::string demo = "duskwire papers examples/small-garden.json --date 2026-11-26 --shop Example ";

TEST(PapersCommand, WritesAllFilesIntoAFolderAndTheSameBytesTwice) {
  const Workplace place;
  const Ended run = place.run(demo + "--output papers --zip all.zip");
  ASSERT_EQ(run.code, 0) << run.complaint;
  EXPECT_THAT(run.text, HasSubstr("papers/proposal.pdf"));
  EXPECT_THAT(run.text, HasSubstr("estimates"));
  const std::string first = place.read("papers/owner.pdf");
  EXPECT_EQ(first.substr(0, 5), "%PDF-");
  EXPECT_EQ(place.read("all.zip").substr(0, 2), "PK");
  ASSERT_EQ(place.run(demo + "--output papers --force").code, 0);
  EXPECT_EQ(place.read("papers/owner.pdf"), first);
}

TEST(PapersCommand, TheProposalShowsTheNightOfAViewWhosePhotographIsThere) {
  const Workplace place;
  const std::string job = " --date 2026-11-26 --only proposal --output ";
  const Ended with = place.run("duskwire papers examples/ostrey-garden.json" + job + "with");
  ASSERT_EQ(with.code, 0) << with.complaint;
  EXPECT_EQ(with.complaint.find("Without the night"), std::string::npos) << with.complaint;
  EXPECT_THAT(place.read("with/proposal.pdf"), HasSubstr("/DCTDecode"));
  place.write("alone.json", project_file("examples/ostrey-garden.json"));
  const Ended without = place.run("duskwire papers alone.json" + job + "without");
  ASSERT_EQ(without.code, 0) << without.complaint;
  EXPECT_THAT(without.complaint, HasSubstr("Without the night of view"));
  EXPECT_THAT(place.read("without/proposal.pdf"), ::testing::Not(HasSubstr("/DCTDecode")));
}

TEST(PapersCommand, LeavesWhatIsThereAlone) {
  const Workplace place;
  ASSERT_EQ(place.run(demo + "--only owner --output papers").code, 0);
  const Ended again = place.run(demo + "--only owner --output papers");
  EXPECT_EQ(again.code, 2);
  EXPECT_THAT(again.complaint, HasSubstr("--force"));
}

TEST(PapersCommand, SaysWhatItDoesNotUnderstand) {
  const Workplace place;
  EXPECT_THAT(place.run("duskwire papers examples/small-garden.json").complaint, HasSubstr("--output"));
  EXPECT_THAT(place.run(demo + "--only poem --output papers").complaint, HasSubstr("poem"));
  EXPECT_THAT(place.run("duskwire papers examples/small-garden.json --output p --date soon").complaint,
              HasSubstr("soon"));
}

}  // namespace
}  // namespace duskwire::cli
