// SPDX-License-Identifier: Apache-2.0
#include "cli/findings_page.hpp"

#include <fmt/format.h>

#include <algorithm>

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

std::string source_of(const study::Provenance& provenance) {
  std::string text = provenance.clause;
  if (!provenance.edition.empty()) text += (text.empty() ? "" : ", edition ") + provenance.edition;
  if (!provenance.status.empty()) text += text.empty() ? provenance.status : fmt::format(" [{}]", provenance.status);
  if (!provenance.note.empty()) text += (text.empty() ? "" : ". ") + provenance.note;
  return text;
}

std::string row(const std::string& label, const std::string& text, const TextStyle& style) {
  if (text.empty()) return "";
  return paragraph("     " + paint(style, Ink::faint, pad_right(label, 9)), text, style.width);
}

std::string one_finding(std::size_t number, const study::Finding& finding, const Names& names, const TextStyle& style) {
  const std::string word = paint(style, ink_of(finding.severity), word_of(finding.severity));
  std::string out = paragraph(fmt::format("{:3}. {}  ", number, word), finding.message, style.width);
  out += row("where", finding.subject.empty() ? "" : names.called(finding.subject), style);
  out += row("measured", measured_against(finding, style), style);
  out += row("why", source_of(finding.provenance), style);
  for (std::size_t i = 0; i < finding.cures.size(); ++i)
    out += row(i == 0 ? "cure" : "or", finding.cures[i].text, style);
  return out;
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

std::string findings_page(const study::Findings& findings, const Names& names, const TextStyle& style) {
  std::string out;
  for (std::size_t i = 0; i < findings.size(); ++i) {
    if (i > 0) out += "\n";
    out += one_finding(i + 1, findings[i], names, style);
  }
  return out;
}

}  // namespace duskwire::cli
