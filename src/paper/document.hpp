// SPDX-License-Identifier: Apache-2.0
// A paper as plain values: what stands on it in reading order, and whose it is. Nothing here knows a page: lay_out()
// breaks it into pages, render.hpp makes files of them.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "paper/page.hpp"
#include "pictures/picture.hpp"

namespace duskwire::paper {

class Pen;

enum class Side : std::uint8_t { start = 0, middle = 1, end = 2 };

// Level 0 is the paper's own title, then 1 and 2. Levels 0 and 1 come into the outline.
struct Heading {
  int level = 1;
  std::string text;
};

enum class Voice : std::uint8_t { body = 0, small = 1, strong = 2 };

struct Paragraph {
  std::string text;  // line feeds are kept
  Voice voice = Voice::body;
};

enum class Mark : std::uint8_t { bullet = 0, number = 1, check_box = 2 };

struct List {
  std::vector<std::string> items;
  Mark mark = Mark::bullet;
};

// Set apart by a bar and a word in front, for what must not be overlooked.
enum class Tone : std::uint8_t { caution = 0, estimate = 1, template_text = 2, note = 3 };

struct Callout {
  Tone tone = Tone::note;
  std::string text;
};

struct Column {
  std::string title;
  Side side = Side::start;
  std::optional<double> width_mm = std::nullopt;  // where absent by what stands in it
};

enum class RowKind : std::uint8_t { plain = 0, group = 1, sum = 2 };

// A group row has one cell, which goes over the whole width.
struct Row {
  std::vector<std::string> cells;
  RowKind kind = RowKind::plain;
};

// Repeats its head on each page that it goes on to.
struct Table {
  std::vector<Column> columns;
  std::vector<Row> rows;
  std::string caption = "";
  double text_pt = 8.5;
  double least_row_mm = 0;  // of plain rows: room to write in by hand
};

// Names on the left, what they are on the right.
struct Facts {
  std::vector<std::pair<std::string, std::string>> facts;
};

// A photograph or a calculated picture; fills the width, never higher than said.
struct Picture {
  std::shared_ptr<const pictures::Picture> picture;
  std::string alternative;  // what it shows, for who cannot see it
  std::string caption = "";
  double max_height_mm = 150;
};

// Drawn at its own size and never scaled. (0, 0) is its top left corner.
struct Drawing {
  double width_mm = 0;
  double height_mm = 0;
  std::function<void(Pen& pen)> draw;
  std::string alternative;
  std::string caption = "";
};

// Lines to sign on, side by side.
struct Signatures {
  std::vector<std::string> captions;
};

// Blank lines to write on by hand.
struct WritingLines {
  int count = 3;
};

// The paper's headings of level 1 with their pages, each a link.
struct Contents {};

struct PageBreak {};

struct Space {
  double height_mm = 4;
};

struct Columns;   // blocks side by side
struct Together;  // blocks that stay on one page where a page holds them

using Block = std::variant<Heading, Paragraph, List, Callout, Table, Facts, Picture, Drawing, Signatures, WritingLines,
                           Contents, PageBreak, Space, std::shared_ptr<Columns>, std::shared_ptr<Together>>;
using Blocks = std::vector<Block>;

struct Columns {
  std::vector<Blocks> columns;
  std::vector<double> shares;  // of the width; empty: all alike
};

struct Together {
  Blocks blocks;
};

[[nodiscard]] inline Block side_by_side(std::vector<Blocks> columns, std::vector<double> shares = {}) {
  return std::make_shared<Columns>(Columns{std::move(columns), std::move(shares)});
}
[[nodiscard]] inline Block together(Blocks blocks) { return std::make_shared<Together>(Together{std::move(blocks)}); }

// How a section's pages are marked at their foot: a strip of one line, or the title block of a drawing.
enum class Foot : std::uint8_t { strip = 0, title_block = 1 };

// Pages of one size and way up; starts on a new page.
struct Section {
  PageSetup setup;
  Foot foot = Foot::strip;
  Blocks blocks;
  std::string sheet_title = "";  // in the title block, where it is not the paper's title
  std::string scale = "";        // in the title block: "1:100"
  // What stands at the left of the title block, on each page; 0 wide: nothing.
  Drawing corner = {};
};

struct Revision {
  std::string letter;
  std::string date;
  std::string what;  // what changed, and why
  std::string by;
};

// Fields as ISO 7200 asks for (from memory). Number of the sheet and count of the sheets come from the pages.
struct TitleBlock {
  std::string owner;   // the contractor
  std::string number;  // identification number of the paper
  std::string title;
  std::string job;       // whose garden
  std::string kind;      // "Proposal"
  std::string date;      // of issue, ISO 8601; the only date that a paper knows
  std::string revision;  // letter
  std::string made_by;
  std::string approved_by;
  std::string language = "en";
};

struct Document {
  TitleBlock title;
  std::vector<Revision> revisions;
  std::vector<Section> sections;
};

}  // namespace duskwire::paper
