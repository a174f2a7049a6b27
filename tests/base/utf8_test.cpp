// SPDX-License-Identifier: Apache-2.0
#include "base/utf8.hpp"

#include <gtest/gtest.h>

namespace duskwire {
namespace {

TEST(Utf8, CharactersHaveOneToFourBytes) {
  EXPECT_EQ(character_bytes("a"), 1u);
  EXPECT_EQ(character_bytes("\xC3\xA4"), 2u);
  EXPECT_EQ(character_bytes("\xE2\x82\xAC"), 3u);
  EXPECT_EQ(character_bytes("\xF0\x9F\x8C\x99"), 4u);
}

// Unicode Standard, table 3-7: overlong forms, surrogates and what lies above U+10FFFF are ill-formed.
TEST(Utf8, IllFormedStartsHaveNone) {
  for (const char* bad : {"", "\x80", "\xC0\x80", "\xC3", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF",
                          "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xE2\x82"}) {
    EXPECT_EQ(character_bytes(bad), 0u) << bad;
  }
}

TEST(Utf8, CountsCharactersNotBytes) { EXPECT_EQ(count_chars("a\xC3\xA4\xF0\x9F\x8C\x99\xFF"), 4u); }

TEST(Utf8, IllFormedBytesAreReplaced) {
  EXPECT_EQ(well_formed("a\xFF\xC3\xA4"), "a\xEF\xBF\xBD\xC3\xA4");
  EXPECT_EQ(well_formed("fine"), "fine");
}

TEST(Utf8, ShownTextIsShortAndOnOneLine) {
  EXPECT_EQ(shortened("a\nb\x01"
                      "c",
                      10),
            "a b c");
  EXPECT_EQ(shortened("abcdef", 3), "abc...");
  EXPECT_EQ(shortened("abc", 3), "abc");
  EXPECT_EQ(shortened("\xC3\xA4\xC3\xA4\xC3\xA4", 2), "\xC3\xA4\xC3\xA4...");
}

}  // namespace
}  // namespace duskwire
