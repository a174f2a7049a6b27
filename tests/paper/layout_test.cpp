// SPDX-License-Identifier: Apache-2.0
// Laying out: nothing on top of anything else, nothing beyond the margins, whatever is written.
#include "paper/layout.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "sample_paper.hpp"

namespace duskwire::paper {
namespace {

std::vector<Box> boxes_of(const LaidPage& page, Ink ink) {
  std::vector<Box> boxes;
  for (const Step& step : page.steps) {
    if (step.kind == Step::Kind::draw && step.ink == ink) boxes.push_back(step.box);
  }
  return boxes;
}

void expect_clean(const LaidOut& pages) {
  for (std::size_t p = 0; p < pages.pages.size(); ++p) {
    const std::vector<Box> words = boxes_of(pages.pages[p], Ink::words);
    const Box within = within_margins(pages.pages[p].setup);
    EXPECT_FALSE(words.empty()) << "page " << p + 1;
    for (std::size_t i = 0; i < words.size(); ++i) {
      EXPECT_GE(words[i].x_mm, within.x_mm - 0.01) << "page " << p + 1;
      EXPECT_LE(words[i].right_mm(), within.right_mm() + 0.01) << "page " << p + 1;
      EXPECT_LE(words[i].bottom_mm(), within.bottom_mm() + 0.01) << "page " << p + 1;
      for (std::size_t j = i + 1; j < words.size(); ++j) {
        EXPECT_FALSE(overlap(words[i], words[j])) << "page " << p + 1 << ", texts " << i << " and " << j;
      }
    }
  }
}

TEST(Layout, KeepsLongNotesAndNamesInEveryScriptApartOnEveryPageSize) {
  for (const PageSize size : {PageSize::a4, PageSize::letter, PageSize::a3, PageSize::tabloid}) {
    const LaidOut pages = lay_out(sample_paper(size));
    EXPECT_GE(pages.pages.size(), 5U);
    expect_clean(pages);
  }
}

TEST(Layout, HasALetterForEachCharacterOfTheScriptsThatClientsWrite) {
  EXPECT_EQ(lay_out(sample_paper()).unknown_glyphs, 0U);
}

TEST(Layout, CountsACharacterThatNoFontHas) {
  Document paper = sample_paper();
  // A character of the private range: no font of a system has it.
  paper.sections.front().blocks.push_back(Paragraph{"\U000F1234"});
  EXPECT_EQ(lay_out(paper).unknown_glyphs, 1U);
}

TEST(Layout, RepeatsATablesHeadOnEachPageItGoesOnTo) {
  const LaidOut pages = lay_out(sample_paper());
  std::size_t with_table = 0;
  std::size_t heads = 0;
  for (const LaidPage& page : pages.pages) {
    bool table = false;
    for (const Step& step : page.steps) {
      if (step.kind != Step::Kind::open) continue;
      table = table || (step.tag == "TD" && !page.setup.landscape);
      heads += step.tag == "TH" ? 1 : 0;
    }
    with_table += table ? 1 : 0;
  }
  EXPECT_GE(with_table, 3U);
  // Three titles on each page of the table, three group rows; the facts on page 1 have no titles.
  EXPECT_EQ(heads, 3 * (with_table - 1) + 3);
}

TEST(Layout, OpensAndClosesEachTagOnOnePage) {
  for (const LaidPage& page : lay_out(sample_paper()).pages) {
    std::vector<std::string> open;
    for (const Step& step : page.steps) {
      if (step.kind == Step::Kind::open) open.push_back(step.tag);
      if (step.kind != Step::Kind::close) continue;
      ASSERT_FALSE(open.empty());
      EXPECT_EQ(open.back(), step.tag);
      open.pop_back();
    }
    EXPECT_TRUE(open.empty());
  }
}

TEST(Layout, NeverSendsTheLastRowOfATableOnAlone) {
  // Moved down by half a millimetre each time, the foot of the page falls between every two of the rows.
  bool broken = false;
  for (int shift = 0; shift < 160; ++shift) {
    Document paper;
    paper.title.title = "Paper";
    Table table;
    table.columns = {Column{"What"}, Column{"Price"}};
    for (int row = 0; row < 6; ++row) table.rows.push_back(Row{{"a thing", "1.00"}});
    table.rows.push_back(Row{{"In all", "6.00"}, RowKind::sum});
    Section section;
    section.blocks = {Paragraph{"Above."}, Space{170 + 0.5 * shift}, table};
    paper.sections = {section};
    std::vector<std::size_t> rows;  // by page, those with cells of content
    for (const LaidPage& page : lay_out(paper).pages) {
      rows.push_back(std::count_if(page.steps.begin(), page.steps.end(),
                                   [](const Step& step) { return step.kind == Step::Kind::open && step.tag == "TD"; }) /
                     2);
    }
    std::erase(rows, 0U);
    broken = broken || rows.size() > 1;
    EXPECT_NE(rows.back(), 1U) << shift;
  }
  EXPECT_TRUE(broken);
}

TEST(Layout, NeverLeavesAHeadingAloneAtTheFootOfAPage) {
  // Moved down by a millimetre each time, the heading meets every place of a page.
  for (int shift = 0; shift < 60; ++shift) {
    Document paper;
    paper.title.title = "Paper";
    Section section;
    section.blocks = {Paragraph{"Above."}, Space{180.0 + shift}, Heading{1, "Part"},
                      Paragraph{"Below. " + std::string(200, 'a')}};
    paper.sections = {section};
    const LaidOut pages = lay_out(paper);
    const LaidPage& page = pages.pages.at(pages.outline.front().page);
    bool seen = false;
    bool followed = false;
    for (const Step& step : page.steps) {
      followed = followed || (seen && step.kind == Step::Kind::open && step.tag == "P");
      seen = seen || step.tag == "H2";
    }
    EXPECT_TRUE(followed) << shift;
  }
}

TEST(Layout, NeverLeavesAHeadingOnThePageBeforeItsDrawing) {
  for (int shift = 0; shift < 60; ++shift) {
    Document paper;
    paper.title.title = "Paper";
    Drawing drawing;
    drawing.width_mm = 100;
    drawing.height_mm = 120;
    drawing.draw = [](Pen&) {};
    Section section;
    section.blocks = {Paragraph{"Above."}, Space{80.0 + shift}, Heading{1, "Part"}, drawing};
    paper.sections = {section};
    const LaidOut pages = lay_out(paper);
    const auto& steps = pages.pages.at(pages.outline.front().page).steps;
    EXPECT_TRUE(std::any_of(steps.begin(), steps.end(), [](const Step& step) { return step.tag == "Figure"; }))
        << shift;
  }
}

}  // namespace
}  // namespace duskwire::paper
