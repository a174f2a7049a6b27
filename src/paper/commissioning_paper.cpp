// SPDX-License-Identifier: Apache-2.0
#include "paper/commissioning_paper.hpp"

#include <fmt/format.h>

#include "paper/crew_words.hpp"

namespace duskwire::paper {
namespace {

constexpr const char* box = "\u2610";
constexpr double blank_mm = 20;  // to write a figure in
constexpr double writing_row_mm = 7;

std::string give_or_take(double tolerance) { return fmt::format("\u00b1 {:.2f}", tolerance); }

Table output_table(const study::CommissioningSheet& sheet) {
  Table table;
  table.columns = {{"Output"}, {"Tap, V", Side::end}};
  if (!sheet.outputs.empty()) {
    for (const study::MainsStep& step : sheet.outputs.front().by_mains) {
      table.columns.push_back({fmt::format("Mains {:.0f} V", step.mains_v), Side::end});
    }
  }
  table.columns.push_back({"within, V", Side::end});
  table.columns.push_back({"Read, V", Side::start, blank_mm});
  table.columns.push_back({"Amps", Side::end});
  table.columns.push_back({"within, A", Side::end});
  table.columns.push_back({"Read, A", Side::start, blank_mm});
  table.columns.push_back({"OK", Side::middle, 7});
  for (const study::CommissioningOutput& output : sheet.outputs) {
    Row row;
    row.cells = {output.output, fmt::format("{:g}", output.tap_v)};
    for (const study::MainsStep& step : output.by_mains) row.cells.push_back(volts_figure(step.terminal_v));
    row.cells.push_back(give_or_take(output.terminal_tolerance_v));
    row.cells.emplace_back();
    row.cells.push_back(amps_figure(output.current_a));
    row.cells.push_back(give_or_take(output.tolerance_a));
    row.cells.emplace_back();
    row.cells.emplace_back(box);
    table.rows.push_back(std::move(row));
  }
  table.text_pt = 9;
  table.least_row_mm = writing_row_mm;
  return table;
}

std::string place_words(const study::CommissioningRow& row) {
  if (row.kind == study::CommissioningKind::lamp) return "Lamp";
  return row.joint == job::JointKind::hub ? "Hub" : "Joint";
}

std::string window_words(const study::CommissioningRow& row) {
  if (row.window_max_v <= 0) return "";
  return fmt::format("{:g}\u2013{:g}", row.window_min_v, row.window_max_v);
}

Table place_table(const study::CommissioningOutput& output) {
  Table table;
  table.columns = {{"Place"},
                   {"", Side::start, 11},
                   {"Window, V", Side::end},
                   {"Volts", Side::end},
                   {"Drop, V", Side::end},
                   {"within, V", Side::end},
                   {"Read, V", Side::start, blank_mm},
                   {"Output less read", Side::start, blank_mm + 4},
                   {"OK", Side::middle, 7}};
  for (const study::CommissioningRow& row : output.rows) {
    table.rows.push_back(
        {{id_and_name(row.id, row.name), place_words(row), window_words(row), volts_figure(row.nominal_v),
          volts_figure(row.drop_v), give_or_take(row.tolerance_v), "", "", box},
         RowKind::plain});
  }
  table.text_pt = 9;
  table.least_row_mm = writing_row_mm;
  return table;
}

Blocks conditions(const job::Job& job) {
  return {Facts{{{"Date and time", "________________________________"},
                 {"Read by", "________________________________"},
                 {"Meter and clamp", "________________________________"},
                 {"Weather, soil", "________________________________   wet / damp / dry"},
                 {fmt::format("Mains, lamps on ({:g} V nominal)", job.site.mains_v), "____________ V"},
                 {"Mains, lamps off", "____________ V"}}}};
}

std::string meter_words(const study::MeterAccuracy& meter) {
  return fmt::format(
      "The meter is taken as good to {:g} % and {:g} V, the clamp to {:g} % and {:g} A (common practice, no source). A "
      "worse one makes this sheet too strict.",
      meter.volts_pct, meter.volts_v, meter.amps_pct, meter.amps_a);
}

}  // namespace

Document commissioning_paper(const CrewWish& wish, const job::Job& job, const study::CrewSet& set) {
  const study::CommissioningSheet& sheet = set.commissioning;
  Blocks blocks = {Heading{0, "Commissioning sheet: " + job.title}};
  for (Block& block : conditions(job)) blocks.push_back(std::move(block));
  blocks.push_back(
      Callout{Tone::caution,
              "\"They all light\" is not a pass. A bad joint lights every lamp and is found here, while the "
              "trench is open."});
  blocks.push_back(Heading{1, "How to read"});
  blocks.push_back(
      List{{"Every lamp on, for 15 minutes. Clamp one conductor alone: around both it reads nothing.",
            "Read the mains first, then each output at its terminals, then the places outward. Use dry, "
            "open places: at lamp bases nothing is dug.",
            "Take each reading from the output's: \"output less read\". Compare with \"drop\". What is "
            "farther off than \"within\" is a finding: look at the first place on the way where it begins.",
            "Amps that are too few: a lamp or a branch is dead. Amps and drop that are too many: a poor "
            "joint, a wrong cable, or lamps that are not on the plan."},
           Mark::number});
  blocks.push_back(Heading{1, "Outputs"});
  blocks.push_back(Paragraph{"Volts at the terminals by what the mains are when you read."});
  blocks.push_back(output_table(sheet));
  blocks.push_back(
      Callout{Tone::estimate, "Predicted, not measured. " + rests_on(job) + " " + meter_words(sheet.meter)});
  for (const study::CommissioningOutput& output : sheet.outputs) {
    if (output.rows.empty()) continue;
    blocks.push_back(Heading{1, fmt::format("Places on {}, tap {:g} V", output.output, output.tap_v)});
    blocks.push_back(
        Paragraph{fmt::format("Read at the terminals of {}: ____________ V. Predicted {} V at nominal mains.",
                              output.output, volts_figure(output.terminal_v))});
    blocks.push_back(place_table(output));
  }
  blocks.push_back(Heading{1, "Findings and what was done"});
  blocks.push_back(WritingLines{5});
  blocks.push_back(Signatures{{"Read by, date", "Checked by, date"}});

  Document paper = wish.frame;
  if (paper.title.title.empty()) paper.title.title = "Commissioning sheet";
  if (paper.title.kind.empty()) paper.title.kind = "Commissioning sheet";
  if (paper.title.job.empty()) paper.title.job = job.title;
  Section section;
  section.setup.size = wish.size;
  section.blocks = std::move(blocks);
  paper.sections = {std::move(section)};
  return paper;
}

}  // namespace duskwire::paper
