// SPDX-License-Identifier: Apache-2.0
// Papers as files, read back by poppler and qpdf.
#include "paper/render.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "read_back.hpp"
#include "sample_paper.hpp"

namespace duskwire::paper {
namespace {

std::string sample_pdf() { return pdf_of(lay_out(sample_paper())).value(); }

TEST(Render, GivesTheSameBytesForTheSamePaper) {
  const LaidOut pages = lay_out(sample_paper());
  EXPECT_EQ(sample_pdf(), pdf_of(pages).value());
  const std::size_t last = pages.pages.size() - 1;
  EXPECT_EQ(svg_of(pages, last).value(), svg_of(lay_out(sample_paper()), last).value());
  EXPECT_EQ(png_of(pages, last, 50).value(), png_of(lay_out(sample_paper()), last, 50).value());
}

TEST(Render, IsSoundToQpdf) {
  const std::string told = PaperFile(sample_pdf()).told("qpdf --check");
  EXPECT_NE(told.find("No syntax or stream encoding errors"), std::string::npos) << told;
  EXPECT_EQ(told.find("WARNING"), std::string::npos) << told;
}

TEST(Render, EmbedsEveryFont) {
  std::istringstream lines(PaperFile(sample_pdf()).told("pdffonts"));
  std::string line;
  std::getline(lines, line);
  std::getline(lines, line);
  int fonts = 0;
  while (std::getline(lines, line)) {
    ++fonts;
    // Columns from the right: object and generation, then unicode, subset, embedded.
    std::istringstream words(line);
    std::vector<std::string> parts{std::istream_iterator<std::string>(words), {}};
    ASSERT_GE(parts.size(), 6U) << line;
    EXPECT_EQ(parts[parts.size() - 3], "yes") << line;
    EXPECT_EQ(parts[parts.size() - 5], "yes") << line;
  }
  EXPECT_GE(fonts, 5);
}

TEST(Render, SaysWhatItIsAndInWhichLanguage) {
  const PaperFile file(sample_pdf());
  const std::string told = file.told("pdfinfo");
  for (const char* line :
       {"Title:           Sample paper", "Author:          Example Lights", "Tagged:          yes",
        "JavaScript:      no", "Metadata Stream: yes", "CreationDate:    Thu Nov 26 00:00:00 2026"}) {
    EXPECT_NE(told.find(line), std::string::npos) << line << "\n" << told;
  }
  const std::string json = file.told("qpdf --json --json-key=qpdf");
  for (const char* key : {"\"/Lang\": \"u:en\"", "\"/DisplayDocTitle\": true", "\"/ID\": [", "\"/Outlines\""}) {
    EXPECT_NE(json.find(key), std::string::npos) << key;
  }
  EXPECT_NE(file.told("pdfinfo -meta").find("<rdf:li xml:lang=\"x-default\">Sample paper</rdf:li>"), std::string::npos);
}

TEST(Render, CanBeReadOutInOrder) {
  const PaperFile file(sample_pdf());
  const std::string text = on_one_line(file.told("pdfinfo -struct-text"));
  EXPECT_EQ(text.find("Syntax Warning"), std::string::npos) << text.substr(0, 500);
  std::size_t from = 0;
  for (const char* part :
       {"Document", "H1 (block) \"Sample paper\"", "Link", "\"First part", "\"Greek\"", "Ελένη Παπαδοπούλου",
        "H2 (block) \"First part\"", "Part 0 of a long note", "\"Caution.\"", "H2 (block) \"Second part\"",
        "\"Runs by zone\"", "TH", "\"What it is\"", "\"F0\"", "\"F89\"", "\"1116.0 m\"", "\"Left\"", "Figure"}) {
    const std::size_t at = text.find(part, from);
    ASSERT_NE(at, std::string::npos) << part << " after " << text.substr(from, 300);
    from = at;
  }
  EXPECT_NE(file.told("qpdf --json --json-key=qpdf").find("\"/Alt\": \"u:A square of 20 mm with a hatch\""),
            std::string::npos);
}

TEST(Render, GivesTheTextBackWholeAndInOrder) {
  const std::string text = on_one_line(PaperFile(sample_pdf()).told("pdftotext", "-"));
  std::size_t from = 0;
  for (int i = 0; i < 200; ++i) {
    const std::size_t at = text.find("Part " + std::to_string(i) + " of a", from);
    ASSERT_NE(at, std::string::npos) << i;
    from = at;
  }
  for (const char* name : {"Ελένη Παπαδοπούλου", "Анна Иванова", "王小明", "مريم", "רות לוי", "Page 1 of "}) {
    EXPECT_NE(text.find(name), std::string::npos) << name;
  }
}

TEST(Render, HasEachPageInItsOwnSize) {
  const std::string told =
      PaperFile(pdf_of(lay_out(sample_paper(PageSize::letter))).value()).told("pdfinfo -f 1 -l 99");
  EXPECT_NE(told.find("Page    1 size:  612 x 792 pts (letter)"), std::string::npos) << told;
  EXPECT_NE(told.find("size:  792 x 612 pts (letter)"), std::string::npos) << told;
}

TEST(Render, ASquareOfTwentyMillimetresIsOne) {
  const LaidOut pages = lay_out(sample_paper());
  constexpr double dots_per_mm = 20;
  const PaperFile::Painted page =
      PaperFile(sample_pdf()).painted(static_cast<int>(pages.pages.size()), dots_per_mm * 25.4);
  // On the drawing sheet the square begins 2 + 5 mm from the frame. A level cut through its middle, clear of the
  // hatch's own darkness: the first and the last dark run are its sides, 0.5 mm each.
  const auto row = static_cast<std::size_t>((10 + 2 + 15) * dots_per_mm);
  std::vector<double> sides_mm;
  int begun = -1;
  for (int x = static_cast<int>(24 * dots_per_mm); x < static_cast<int>(60 * dots_per_mm); ++x) {
    const bool dark = page.grey[row * static_cast<std::size_t>(page.width_px) + static_cast<std::size_t>(x)] < 40;
    if (dark && begun < 0) begun = x;
    if (!dark && begun >= 0) {
      if (x - begun > 0.4 * dots_per_mm) sides_mm.push_back((begun + x) / 2.0 / dots_per_mm);
      begun = -1;
    }
  }
  ASSERT_EQ(sides_mm.size(), 2U);
  EXPECT_NEAR(sides_mm[1] - sides_mm[0], 20, 0.1);
  EXPECT_NEAR(sides_mm[0], 20 + 2 + 5, 0.1);
}

TEST(Render, RefusesAPageThatIsNotThere) {
  const LaidOut pages = lay_out(sample_paper());
  EXPECT_FALSE(svg_of(pages, pages.pages.size()).ok());
  EXPECT_FALSE(png_of(pages, pages.pages.size()).ok());
}

}  // namespace
}  // namespace duskwire::paper
