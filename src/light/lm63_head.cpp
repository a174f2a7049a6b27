// SPDX-License-Identifier: Apache-2.0
// Edition, keywords and TILT of LM-63 (ANSI/IESNA LM-63-02 sec. 5.1 to 5.5; first lines: values seen in files).
#include "light/lm63_head.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace duskwire::light {
namespace {

std::string capitals(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return out;
}

struct Edition {
  const char* first_line;
  IntensityFormat format;
};

constexpr Edition editions[] = {
    {"IESNA91", IntensityFormat::lm63_1991},
    {"IESNA:LM-63-1995", IntensityFormat::lm63_1995},
    {"IESNA:LM-63-2002", IntensityFormat::lm63_2002},
    {"IES:LM-63-2019", IntensityFormat::lm63_2019},
};

// Whether the first line is the edition's own and so no label.
bool read_edition(std::string_view line, Lm63Head& head, IntensityFindings& findings) {
  const std::string first = capitals(trimmed(line));
  for (const Edition& edition : editions) {
    if (first != edition.first_line) continue;
    head.format = edition.format;
    return true;
  }
  if (first.substr(0, 3) != "IES") return false;
  head.format = IntensityFormat::lm63_2002;
  findings.warning(1, line, "IESNA91, IESNA:LM-63-1995, IESNA:LM-63-2002 or IES:LM-63-2019",
                   "This edition of LM-63 is not known here. The file is read as one of 2002: compare the facts below "
                   "with the maker's sheet.");
  return true;
}

void read_keyword(std::string_view line, std::size_t number, Lm63Head& head, IntensityFindings& findings) {
  const std::string_view text = trimmed(line);
  if (text.empty()) return;
  const std::size_t end = text.find(']');
  if (text[0] != '[' || end == std::string_view::npos) {
    if (head.format != IntensityFormat::lm63_1986) {
      findings.note(number, text, "[KEYWORD] text", "This line has no keyword. It is kept as a label.");
    }
    head.keywords.push_back({"OTHER", utf8_from_field(text)});
    return;
  }
  const std::string name = capitals(trimmed(text.substr(1, end - 1)));
  const std::string value = utf8_from_field(trimmed(text.substr(end + 1)));
  if (name != "MORE") {
    head.keywords.push_back({utf8_from_field(name), value});
  } else if (!head.keywords.empty()) {
    head.keywords.back().text += "\n" + value;
  } else {
    findings.note(number, text, "a keyword before it", "[MORE] continues nothing. It is left out.");
  }
}

void note_missing_keywords(const Lm63Head& head, IntensityFindings& findings) {
  if (head.format < IntensityFormat::lm63_2002) return;
  std::string missing;
  for (const char* name : {"TEST", "TESTLAB", "ISSUEDATE", "MANUFAC"}) {
    const bool there = std::any_of(head.keywords.begin(), head.keywords.end(),
                                   [&](const Keyword& keyword) { return keyword.name == name; });
    if (!there) missing += fmt::format("{}[{}]", missing.empty() ? "" : ", ", name);
  }
  if (missing.empty()) return;
  findings.note(0, "", "[TEST], [TESTLAB], [ISSUEDATE] and [MANUFAC]",
                fmt::format("The file does not say {}: its edition asks for them. Ask the maker where the numbers come "
                            "from.",
                            missing));
}

void judge_tilt(const std::string& tilt, std::size_t number, const Lm63Head& head, IntensityFindings& findings) {
  const std::string word = capitals(tilt);
  if (word == "NONE" || word == "INCLUDE") return;
  const bool known = head.format < IntensityFormat::lm63_2019;
  findings.warning(
      number, tilt, "NONE or INCLUDE",
      fmt::format("TILT names another file, which is not read{}. Its factors are taken as 1. Where the lamp "
                  "burns tilted, put them into this file with TILT=INCLUDE.",
                  known ? "" : " (LM-63-2019 knows no such files)"));
}

}  // namespace

std::optional<std::string_view> tilt_of(std::string_view line) {
  const std::string_view text = trimmed(line);
  if (capitals(text.substr(0, 4)) != "TILT") return std::nullopt;
  const std::string_view rest = trimmed(text.substr(4));
  if (rest.substr(0, 1) != "=") return std::nullopt;
  return trimmed(rest.substr(1));
}

Lm63Head read_lm63_head(std::span<const std::string_view> lines, IntensityFindings& findings) {
  Lm63Head head;
  std::size_t at = read_edition(lines.empty() ? std::string_view() : lines[0], head, findings) ? 1 : 0;
  for (; at < lines.size(); ++at) {
    const std::optional<std::string_view> tilt = tilt_of(lines[at]);
    if (!tilt) {
      read_keyword(lines[at], at + 1, head, findings);
      continue;
    }
    head.tilt = tilt->empty() ? "NONE" : utf8_from_field(*tilt);
    head.numbers_line = at + 1;
    judge_tilt(head.tilt, at + 1, head, findings);
    note_missing_keywords(head, findings);
    if (capitals(head.tilt) == "NONE" || capitals(head.tilt) == "INCLUDE") head.tilt = capitals(head.tilt);
    return head;
  }
  findings.error(
      0, "", "a line TILT=NONE, TILT=INCLUDE or TILT=file before the numbers",
      "The file has no TILT line, so it is no LM-63 file or a damaged one. Get the file anew from its maker.");
  return head;
}

}  // namespace duskwire::light
