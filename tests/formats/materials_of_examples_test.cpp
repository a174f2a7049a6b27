// SPDX-License-Identifier: Apache-2.0
// The list of materials of the example jobs, read from their files with the stock catalogue at hand.
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

#include "estimate/materials.hpp"
#include "formats/catalogue_file.hpp"
#include "formats/job_reader.hpp"

namespace duskwire::formats {
namespace {

std::string text_of(const std::string& name) {
  std::ifstream file(std::string(DUSKWIRE_SOURCE_DIR) + name);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

job::Job example(const std::string& name) { return read_job(text_of("/examples/" + name)).job.value(); }

estimate::Materials list_of(const job::Job& job) {
  return estimate::materials(job, read_catalogue(text_of("/data/catalogue/stock.json")).catalogue.value());
}

double bought_m(const estimate::Materials& list, const std::string& item) {
  for (const estimate::CableTotal& total : list.cables) {
    if (total.item == item) return total.bought_m;
  }
  return 0;
}

// Acceptance example of the cut list, here from a file: common practice for slack and waste, no source.
TEST(MaterialsOfExamples, SmallGardenTakes52And71Metres) {
  const estimate::Materials list = list_of(example("small-garden.json"));
  EXPECT_DOUBLE_EQ(bought_m(list, "12awg-2"), 52);
  EXPECT_DOUBLE_EQ(bought_m(list, "14awg-2"), 71);
}

TEST(MaterialsOfExamples, SoundGardenIsCountedWithoutAWarning) {
  const job::Job job = example("ostrey-garden-sound.json");
  const estimate::Materials list = list_of(job);
  for (const Problem& problem : list.problems) {
    EXPECT_EQ(problem.severity, Severity::note) << problem.pointer << ": " << problem.message;
  }
  EXPECT_EQ(list.cuts.size(), job.cables.size());
  EXPECT_EQ(list.splices.size(), job.joints.size());
  EXPECT_GT(list.price_minor, 0);
}

}  // namespace
}  // namespace duskwire::formats
