// SPDX-License-Identifier: Apache-2.0
// export and import as commands: from a file or a workspace, into a folder or a workspace.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "office/archive.hpp"
#include "program.hpp"

namespace duskwire::cli {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

const std::string sound = "duskwire export examples/ostrey-garden-sound.json --date 2026-11-26 --no-papers ";
const std::string photo = "229c3079636e47fa0deb06cce3b6e66c03d00dd96d9af13e9d5d7f6eda6be70a";

TEST(ExportCommand, AFolderHoldsTheSameBytesAfterwards) {
  const Workplace place;
  const Ended made = place.run(sound + "-o garden.zip");
  ASSERT_EQ(made.code, 0) << made.complaint;
  EXPECT_THAT(made.text, HasSubstr("pictures: 1"));
  const Ended back = place.run("duskwire import garden.zip -o garden");
  ASSERT_EQ(back.code, 0) << back.complaint;
  EXPECT_EQ(place.read("garden/job.json"), project_file("examples/ostrey-garden-sound.json"));
  EXPECT_EQ(place.read("garden/" + photo + ".jpg"), project_file("examples/ostrey-front.jpg"));
  const Ended again = place.run("duskwire export garden/job.json --date 2026-11-26 --no-papers -o again.zip");
  ASSERT_EQ(again.code, 0) << again.complaint;
  EXPECT_EQ(place.read("again.zip"), place.read("garden.zip"));
}

// From one workspace into another and out again: the document and the picture stay as they are, byte for byte.
TEST(ExportCommand, TwoWorkspacesHoldTheSameJob) {
  const Workplace place;
  ASSERT_EQ(place.run(sound + "-o garden.zip").code, 0);
  ASSERT_EQ(place.run("duskwire import garden.zip --workspace first.duskwire").code, 0);
  const std::string id = "--id ostrey-garden --date 2026-11-26 --no-papers";
  const Ended out = place.run("duskwire export --workspace first.duskwire -o first.zip " + id);
  ASSERT_EQ(out.code, 0) << out.complaint;
  const Ended in = place.run("duskwire import first.zip --workspace second.duskwire --json");
  ASSERT_EQ(in.code, 0) << in.complaint;
  EXPECT_THAT(in.text, HasSubstr("\"document_sha256\""));
  ASSERT_EQ(place.run("duskwire export --workspace second.duskwire -o second.zip " + id).code, 0);
  EXPECT_EQ(place.read("second.zip"), place.read("garden.zip"));
  const Ended twice = place.run("duskwire import first.zip --workspace second.duskwire");
  EXPECT_EQ(twice.code, 2);
  EXPECT_THAT(twice.complaint, HasSubstr("already, and it stays"));
}

TEST(ExportCommand, SaysWhatIsNotThere) {
  const Workplace place;
  place.write("alone.json", project_file("examples/ostrey-garden-sound.json"));
  EXPECT_THAT(place.run("duskwire export alone.json --no-papers -o alone.zip").complaint,
              HasSubstr("229c3079636e... is not in the archive"));
  EXPECT_THAT(place.run("duskwire export").complaint, HasSubstr("Name what to export"));
  EXPECT_THAT(place.run("duskwire export alone.json").complaint, HasSubstr("--output FILE.zip"));
  EXPECT_THAT(place.run("duskwire export --workspace none.duskwire --id x -o x.zip").complaint,
              HasSubstr("no workspace"));
  EXPECT_THAT(place.files(), ::testing::Not(Contains("none.duskwire")));
  EXPECT_THAT(place.run("duskwire export --workspace none.duskwire -o x.zip").complaint, HasSubstr("--id"));
  ASSERT_EQ(place.run("duskwire import alone.zip --workspace w.duskwire").code, 0);
  EXPECT_THAT(place.run("duskwire export --workspace w.duskwire --id other -o x.zip").complaint,
              HasSubstr("\"other\""));
  EXPECT_THAT(place.run("duskwire import alone.zip").complaint, HasSubstr("Name where the job goes"));
}

TEST(ImportCommand, RefusesHarmWholeAndInOneLine) {
  const Workplace place;
  const std::string job = project_file("examples/small-garden.json");
  place.write("text.zip", job);
  place.write("none.zip", office::zip_archive({{"a", "b"}}, 0).value());
  place.write("twice.zip", office::zip_archive({{"job.json", job}, {"Job.json", job}}, 0).value());
  place.write("device.zip", office::zip_archive({{"job.json", job}, {"pictures/aux.jpg", "x"}}, 0).value());
  place.write("other.zip", office::zip_archive({{"job.json", "{\"format\": \"letter\"}"}}, 0).value());
  std::string picture = project_file("examples/ostrey-garden.json");
  const std::string fake = "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08";  // of "test"
  picture.replace(picture.find(photo), photo.size(), fake);
  place.write("fake.zip", office::zip_archive({{"job.json", picture}, {"pictures/a.jpg", "test"}}, 0).value());
  const auto before = place.files();
  for (const char* file : {"text", "none", "twice", "device", "fake"}) {
    const Ended run = place.run(std::string("duskwire import ") + file + ".zip --output out");
    EXPECT_EQ(run.code, 2) << file;
    EXPECT_EQ(std::count(run.complaint.begin(), run.complaint.end(), '\n'), 1) << run.complaint;
  }
  EXPECT_EQ(place.run("duskwire import other.zip --output out").code, 2);
  EXPECT_EQ(place.files(), before);
}

}  // namespace
}  // namespace duskwire::cli
