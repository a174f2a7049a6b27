// SPDX-License-Identifier: Apache-2.0
#include "cli/table.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

TextStyle plain(int width) {
  TextStyle style;
  style.width = width;
  return style;
}

Table lamps() {
  Table table({{"lamp"}, {"name", Align::left, true}, {"volts", Align::right}});
  table.add({{"L1"}, {"gate"}, {"12.31"}});
  table.add({{"L12"}, {"the old oak at the far end of the lawn"}, {"9.71", Ink::bad}});
  return table;
}

TEST(Table, AlignsColumnsUnderTheirHeads) {
  EXPECT_EQ(lamps().text(plain(80)),
            "  lamp  name                                    volts\n"
            "  L1    gate                                    12.31\n"
            "  L12   the old oak at the far end of the lawn   9.71\n");
}

TEST(Table, WrapsTheFlexibleColumnToFit) {
  EXPECT_EQ(lamps().text(plain(32)),
            "  lamp  name               volts\n"
            "  L1    gate               12.31\n"
            "  L12   the old oak at      9.71\n"
            "        the far end of\n"
            "        the lawn\n");
}

TEST(Table, NoLineIsWiderThanAskedAndNoneEndsInSpaces) {
  std::istringstream lines(lamps().text(plain(30)));
  for (std::string line; std::getline(lines, line);) {
    EXPECT_LE(display_width(line), 30) << line;
    EXPECT_NE(line.back(), ' ') << line;
  }
}

TEST(Table, ColourDoesNotMoveAnything) {
  TextStyle coloured = plain(80);
  coloured.colour = true;
  std::string text = lamps().text(coloured);
  EXPECT_NE(text.find("\x1b[1;31m9.71\x1b[0m"), std::string::npos);
  for (std::size_t at = text.find('\x1b'); at != std::string::npos; at = text.find('\x1b')) {
    text.erase(at, text.find('m', at) - at + 1);
  }
  EXPECT_EQ(text, lamps().text(plain(80)));
}

TEST(Table, SectionsShareTheColumns) {
  Table table({{"lamp"}, {"volts", Align::right}});
  table.add_section("Output A");
  table.add({{"L1"}, {"12.31"}});
  table.add_section("Output B");
  table.add({{"L200"}, {"9.71"}});
  EXPECT_EQ(table.text(plain(80)),
            "  lamp  volts\n"
            "  Output A\n"
            "  L1    12.31\n"
            "\n"
            "  Output B\n"
            "  L200   9.71\n");
}

TEST(Table, WithoutHeadsHasNoHeadLine) {
  Table table({{""}, {""}});
  table.add({{"a"}, {"b"}});
  EXPECT_EQ(table.text(plain(80)), "  a  b\n");
}

}  // namespace
}  // namespace duskwire::cli
