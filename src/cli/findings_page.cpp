// SPDX-License-Identifier: Apache-2.0
#include "cli/findings_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/quantity.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

std::string counted(std::size_t count, const std::string& word) {
  return fmt::format("{} {}{}", count == 0 ? "no" : std::to_string(count), word, count == 1 ? "" : "s");
}

std::string measure(double value, const std::string& unit, const TextStyle& style) {
  if (unit == "V") return volts(value);
  if (unit == "A") return amps(value);
  if (unit == "VA") return volt_amperes(value);
  if (unit == "W") return watts(value);
  if (unit == "m") return short_length(value, style);
  if (unit == "%" || unit == "pct") return number(value, 1) + " %";
  if (unit == "ohm") return number(value, 3) + " ohm";
  return fmt::format("{:.4g}{}{}", value, unit.empty() ? "" : " ", unit);
}

std::string measured_against(const study::Finding& finding, const TextStyle& style) {
  std::string text;
  if (finding.measured) text += measure(*finding.measured, finding.unit, style);
  if (finding.limit) text += (text.empty() ? "limit " : ", limit ") + measure(*finding.limit, finding.unit, style);
  return text;
}

// "NFPA 70 411.2, edition 2005 [seen]: what it says". Addresses stay out unless asked for: they only break lines.
std::string source_of(const study::Provenance& provenance, bool sources) {
  std::string text = provenance.clause;
  if (!provenance.edition.empty()) text += (text.empty() ? "" : ", edition ") + provenance.edition;
  if (!provenance.status.empty()) text += text.empty() ? provenance.status : fmt::format(" [{}]", provenance.status);
  std::string note = provenance.note;
  if (const std::size_t seen = note.find("; seen at "); !sources && seen != std::string::npos) note.resize(seen);
  if (!note.empty()) text += (text.empty() ? "" : ": ") + note;
  return text;
}

std::string row(const std::string& label, const std::string& text, const TextStyle& style) {
  if (text.empty()) return "";
  return paragraph("     " + paint(style, Ink::faint, pad_right(label, 9)), text, style.width);
}

using Group = std::vector<const study::Finding*>;

bool same_change(const job::Change& p, const job::Change& q) {
  return p.kind == q.kind && p.target == q.target && p.text == q.text && p.other == q.other && p.number == q.number;
}

// Of one kind, and the first cure of each asks for the same changes.
bool belong_together(const study::Finding& p, const study::Finding& q) {
  if (p.id != q.id || p.severity != q.severity || p.cures.empty() || q.cures.empty()) return false;
  const std::vector<job::Change>& a = p.cures.front().changes;
  const std::vector<job::Change>& b = q.cures.front().changes;
  return !a.empty() && std::equal(a.begin(), a.end(), b.begin(), b.end(), same_change);
}

double excess(const study::Finding& finding) {
  return finding.measured && finding.limit ? std::abs(*finding.measured - *finding.limit) : 0;
}

// In the order of the report, the gravest of each group first.
std::vector<Group> groups_of(const study::Findings& findings) {
  std::vector<Group> groups;
  for (const study::Finding& finding : findings) {
    if (finding.severity == Severity::note) continue;
    const auto group = std::find_if(groups.begin(), groups.end(),
                                    [&](const Group& held) { return belong_together(*held.front(), finding); });
    if (group == groups.end()) {
      groups.push_back({&finding});
    } else {
      group->push_back(&finding);
    }
  }
  for (Group& group : groups) {
    std::stable_sort(group.begin(), group.end(), [](const auto* p, const auto* q) { return excess(*p) > excess(*q); });
  }
  return groups;
}

std::string others(const Group& group, const TextStyle& style) {
  std::vector<std::string> rest;
  for (std::size_t i = 1; i < group.size(); ++i) {
    const study::Finding& finding = *group[i];
    rest.push_back(finding.subject + (finding.measured ? " " + measure(*finding.measured, finding.unit, style) : ""));
  }
  return rest.empty() ? "" : fmt::format("{} more, cured by the same: {}", rest.size(), fmt::join(rest, ", "));
}

std::string one_group(std::size_t number, const Group& group, const Names& names, bool sources,
                      const TextStyle& style) {
  const study::Finding& finding = *group.front();
  const std::string word = paint(style, ink_of(finding.severity), word_of(finding.severity));
  const std::string lead = fmt::format("{:3}. {}  ", number, word);
  std::string out = paragraph(lead, finding.message, style.width, 5);
  out += row("where", finding.subject.empty() ? "" : names.called(finding.subject), style);
  out += row("measured", measured_against(finding, style), style);
  out += row("why", source_of(finding.provenance, sources), style);
  for (std::size_t i = 0; i < finding.cures.size(); ++i) {
    out += row(i == 0 ? "cure" : "or", finding.cures[i].text, style);
  }
  return out + row("also", others(group, style), style);
}

}  // namespace

Ink ink_of(Severity severity) {
  switch (severity) {
    case Severity::error:
      return Ink::bad;
    case Severity::warning:
      return Ink::caution;
    case Severity::note:
      break;
  }
  return Ink::faint;
}

std::string word_of(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "error";
    case Severity::warning:
      return "warning";
    case Severity::note:
      break;
  }
  return "note";
}

std::string tally(const std::vector<Severity>& severities) {
  const auto count = [&](Severity severity) {
    return static_cast<std::size_t>(std::count(severities.begin(), severities.end(), severity));
  };
  std::string text = counted(count(Severity::error), "error") + ", " + counted(count(Severity::warning), "warning");
  if (const std::size_t notes = count(Severity::note); notes > 0) text += ", " + counted(notes, "note");
  return text;
}

std::vector<Severity> severities_of(const study::Findings& findings) {
  std::vector<Severity> severities;
  for (const study::Finding& finding : findings) severities.push_back(finding.severity);
  return severities;
}

std::string findings_page(const study::Findings& findings, const Names& names, bool sources, const TextStyle& style) {
  std::string out;
  std::size_t number = 0;
  for (const Group& group : groups_of(findings)) {
    if (number > 0) out += "\n";
    out += one_group(++number, group, names, sources, style);
  }
  return out;
}

std::string notes_page(const study::Findings& findings, const TextStyle& style) {
  std::string out;
  for (const study::Finding& finding : findings) {
    if (finding.severity == Severity::note) out += paragraph("  - ", finding.message, style.width);
  }
  return out;
}

}  // namespace duskwire::cli
