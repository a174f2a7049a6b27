// SPDX-License-Identifier: Apache-2.0
// What is written as LM-63 is read back as the same light.
#include "light/lm63_writer.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "light/intensity_reader.hpp"
#include "light/lm63_reader.hpp"
#include "light/photometry_files.hpp"
#include "reference_rows.hpp"

namespace duskwire::light {
namespace {

double highest_cd(const Distribution& d) { return *std::max_element(d.intensity_cd.begin(), d.intensity_cd.end()); }

TEST(Lm63Writer, EveryReferenceFileComesBackAsTheSameLight) {
  for (const ReferenceRow& row : reference_rows("photometry.csv")) {
    const IntensityFile file = reference_intensities(row.text("file"));
    const std::string text = write_lm63(file);
    const ReadIntensities back = read_lm63(text);
    ASSERT_TRUE(back.file) << row.text("file") << "\n" << text;
    EXPECT_EQ(back.file->distribution.type, file.distribution.type) << row.text("file");
    EXPECT_EQ(back.file->opening.shape, file.opening.shape) << row.text("file");
    EXPECT_NEAR(back.file->opening.width_m, file.opening.width_m, 1e-9) << row.text("file");
    EXPECT_EQ(back.file->power_w, file.power_w) << row.text("file");
    EXPECT_EQ(back.file->lumens_per_lamp, file.lumens_per_lamp) << row.text("file");
    EXPECT_EQ(back.file->lamp_tilt, file.lamp_tilt) << row.text("file");
    EXPECT_EQ(back.file->listed.symmetry, file.listed.symmetry) << row.text("file");
    ASSERT_EQ(back.file->distribution.horizontal_deg, file.distribution.horizontal_deg) << row.text("file");
    ASSERT_EQ(back.file->distribution.vertical_deg, file.distribution.vertical_deg) << row.text("file");
    const double care_cd = 1e-7 * highest_cd(file.distribution);
    for (std::size_t i = 0; i < file.distribution.intensity_cd.size(); ++i) {
      ASSERT_NEAR(back.file->distribution.intensity_cd[i], file.distribution.intensity_cd[i], care_cd)
          << row.text("file");
    }
    EXPECT_EQ(write_lm63(*back.file), text) << row.text("file");
  }
}

TEST(Lm63Writer, LinesEndInCrLfAndStayShort) {
  IntensityFile file = reference_intensities("photometry/ies/c1-keywords-more-1995.ies");
  file.keywords.push_back({"OTHER", std::string(1000, 'x') + "\nsecond line"});
  const std::string text = write_lm63(file);
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = text.find('\n', start);
    ASSERT_NE(end, std::string::npos);
    EXPECT_EQ(text[end - 1], '\r');
    EXPECT_LE(end - start, 133u);
    start = end + 1;
  }
  EXPECT_NE(text.find("[MORE] second line\r\n"), std::string::npos);
}

TEST(Lm63Writer, KeepsTheFileGenerationCodeOf2019AndFoldsTheFactorOf1991) {
  const std::string kept = write_lm63(reference_intensities("photometry/made-here/lm63-2019-filegen-1.10000.ies"));
  EXPECT_EQ(read_lm63(kept).file->slot12, 1.1);
  EXPECT_EQ(read_lm63(kept).file->distribution.intensity_cd[0], 700);
  const std::string folded = write_lm63(reference_intensities("photometry/made-here/relative-lambert-x2-bf09.ies"));
  EXPECT_EQ(read_lm63(folded).file->multiplier, 1);
  EXPECT_NEAR(read_lm63(folded).file->distribution.intensity_cd[0], 286.4788, 1e-4);
}

TEST(Lm63Writer, AComputedDistributionSaysThatItIsASimulation) {
  const Distribution d = one_plane(5, 90, [](double g) { return 1000 * std::cos(g); });
  const std::string text = write_lm63(intensity_file_from(d, "a lamp", 6));
  const ReadIntensities back = read_lm63(text);
  ASSERT_TRUE(back.file);
  EXPECT_EQ(file_origin_2019(back.file->slot12), "computer simulation");
  EXPECT_EQ(back.file->power_w, 6);
  EXPECT_FALSE(back.file->lumens_per_lamp);
}

}  // namespace
}  // namespace duskwire::light
