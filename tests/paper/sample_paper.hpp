// SPDX-License-Identifier: Apache-2.0
// A paper with every kind of block, names in many scripts and a note of ten thousand characters.
#pragma once

#include "paper/document.hpp"
#include "paper/pen.hpp"

namespace duskwire::paper {

inline std::string long_note() {
  std::string text;
  for (int i = 0; text.size() < 10000; ++i)
    text += "Part " + std::to_string(i) + " of a long note about the old gate. ";
  return text;
}

inline Document sample_paper(PageSize size = PageSize::a4) {
  Document paper;
  paper.title = {
      "Example Lights", "EX-7", "Sample paper", "Sample garden", "Sample", "2026-11-26", "B", "A. Maker", "", "en"};
  paper.revisions = {{"A", "2026-11-01", "First issue", "AM"},
                     {"B", "2026-11-26", "Steps moved: the landing is wider", "AM"}};
  Table table;
  table.columns = {{"Tag"}, {"What it is"}, {"Length", Side::end}};
  table.caption = "Runs by zone";
  for (int i = 0; i < 90; ++i) {
    if (i % 30 == 0) table.rows.push_back({{"Zone " + std::to_string(i / 30)}, RowKind::group});
    table.rows.push_back(
        {{"F" + std::to_string(i), i == 45 ? long_note() : "Bullet uplight", "12.4 m"}, RowKind::plain});
  }
  table.rows.push_back({{"", "All", "1116.0 m"}, RowKind::sum});
  Drawing square;
  square.width_mm = 60;
  square.height_mm = 40;
  square.alternative = "A square of 20 mm with a hatch";
  square.draw = [](Pen& pen) {
    const PathMm outline{{5, 5}, {25, 5}, {25, 25}, {5, 25}};
    pen.hatch(outline, Hatch::slanted);
    pen.path(outline, {Width::w050}, true);
  };
  Section text;
  text.setup.size = size;
  text.blocks = {Heading{0, "Sample paper"},
                 Contents{},
                 Facts{{{"Greek", "Ελένη Παπαδοπούλου"},
                        {"Cyrillic", "Анна Иванова"},
                        {"Chinese", "王小明"},
                        {"Arabic", "مريم الحسن"},
                        {"Hebrew", "רות לוי"},
                        {"Hindi", "सीता शर्मा"},
                        {"A name without end", std::string(400, 'w')}}},
                 Heading{1, "First part"},
                 Paragraph{long_note()},
                 Callout{Tone::caution, "Switch off and unplug before joints are opened."},
                 Callout{Tone::estimate, "Computed volts are estimates."},
                 List{{"first thing", "second thing"}, Mark::check_box},
                 Heading{1, "Second part"},
                 table,
                 side_by_side({{Heading{2, "Left"}, Paragraph{"On the left."}}, {Heading{2, "Right"}, square}}),
                 Signatures{{"Client, date", "Contractor, date"}},
                 WritingLines{2}};
  Section drawing;
  drawing.setup = {size, true};
  drawing.foot = Foot::title_block;
  drawing.sheet_title = "Drawing";
  drawing.scale = "1:100";
  drawing.blocks = {square};
  paper.sections = {text, drawing};
  return paper;
}

}  // namespace duskwire::paper
