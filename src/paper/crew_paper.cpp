// SPDX-License-Identifier: Apache-2.0
#include "paper/crew_paper.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "paper/burial_drawing.hpp"
#include "paper/crew_tables.hpp"
#include "paper/crew_words.hpp"
#include "paper/joint_drawing.hpp"
#include "paper/wiring_diagram.hpp"

namespace duskwire::paper {
namespace {

constexpr double foot_room_mm = 12;    // what the strip and a heading take of a page
constexpr double between_mm = 6;       // two drawings side by side
constexpr std::size_t most_hubs = 12;  // each hub has its own drawing up to here
constexpr std::size_t most_drawings = 40;

Section portrait(const CrewWish& wish, Blocks blocks) {
  Section section;
  section.setup.size = wish.size;
  section.blocks = std::move(blocks);
  return section;
}

Section landscape(const CrewWish& wish, Blocks blocks) {
  Section section = portrait(wish, std::move(blocks));
  section.setup.landscape = true;
  return section;
}

Section front(const CrewWish& wish, const job::Job& job, const study::CrewSet& set) {
  const study::CrewTotals& totals = set.totals;
  Blocks blocks;
  blocks.push_back(Heading{0, "Crew set: " + job.title});
  if (study::is_blocked(set.gate)) {
    blocks.push_back(Callout{
        Tone::caution, "Do not start. The job itself says that something is missing: the lines marked STOP below."});
  }
  blocks.push_back(
      Facts{{{"Where", job.site.address},
             {"Mains", fmt::format("{:g} V, {:g} Hz", job.site.mains_v, job.site.mains_hz)},
             {"In all", fmt::format("{} lamps, {} VA of lamps, {} cables, {} joints, {} connectors", totals.luminaires,
                                    va_figure(totals.lamp_va), totals.cables, totals.joints, totals.connectors)},
             {"Cable", fmt::format("{} route, {} cut, {} bought", length_words(totals.route_m, wish.units),
                                   length_words(totals.cut_m, wish.units), length_words(totals.bought_m, wish.units))},
             {"Trench", fmt::format("{} to dig", length_words(totals.dug_m, wish.units))}}});
  blocks.push_back(Heading{1, "Do not start until"});
  blocks.push_back(gate_table(set.gate));

  blocks.push_back(side_by_side(
      {{Heading{2, "While you work"}, List{set.gate.cautions, Mark::bullet}}, {Heading{2, "In this set"}, Contents{}}},
      {0.72, 0.28}));
  blocks.push_back(Callout{Tone::estimate, "Volts, amps, metres and hours here are computed. " + rests_on(job) +
                                               " What the meter says is what counts: write it on the commissioning "
                                               "sheet."});
  return portrait(wish, std::move(blocks));
}

Section diagram(const CrewWish& wish, const study::CrewSet& set) {
  const PageSetup setup{wish.size, false};
  const Box page = within_margins(setup);
  std::vector<Drawing> sheets = wiring_diagram(set, wish.units, page.width_mm, page.height_mm - foot_room_mm - 8);
  Blocks blocks = {Heading{1, "Wiring diagram"}};
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    if (i > 0) blocks.push_back(PageBreak{});
    blocks.push_back(std::move(sheets[i]));
  }
  return portrait(wish, std::move(blocks));
}

Section runs(const CrewWish& wish, const study::CrewSet& set) {
  Blocks blocks = {Heading{1, "Run schedule"},
                   Paragraph{"Cables in walking order, outward from the transformer. Volts and amps are predicted for "
                             "nominal mains with every lamp on; in brackets the least and the most at any corner."},
                   run_summary_table(set, wish.units)};
  for (const study::CrewRun& run : set.runs) {
    if (run.steps.empty() && run.lamps.empty()) continue;
    const std::string name = run.output.empty() ? std::string("Not fed by any output: ask the office")
                                                : fmt::format("{}, tap {:g} V, from {}", run.output, run.tap_v,
                                                              id_and_name(run.transformer, run.transformer_name));
    blocks.push_back(Heading{2, name});
    blocks.push_back(run_table(run, wish.units));
  }
  return landscape(wish, std::move(blocks));
}

Section cuts(const CrewWish& wish, const study::CrewSet& set) {
  return portrait(
      wish,
      {Heading{1, "Cut list"}, Paragraph{"Longest first. Write the tag on both ends before the cable leaves the reel."},
       cut_table(set.materials, wish.units), Heading{2, "Reels"}, reel_table(set.materials, wish.units)});
}

// One drawing for each way in which joints of the job are made; each hub its own.
struct Pattern {
  const study::CrewJoint* joint = nullptr;
  std::vector<std::string> also;
};

std::vector<Pattern> patterns_of(const study::CrewSet& set) {
  std::vector<Pattern> patterns;
  std::map<std::tuple<int, std::uint32_t, std::string>, std::size_t> known;
  std::size_t hubs = 0;
  for (const study::CrewJoint& joint : set.joints) {
    if (!joint.kind) continue;
    const bool own = *joint.kind == job::JointKind::hub && hubs++ < most_hubs;
    const std::tuple key(static_cast<int>(*joint.kind), joint.wires_per_conductor, joint.connector);
    const auto found = known.find(key);
    if (!own && found != known.end()) {
      patterns[found->second].also.push_back(joint.id);
      continue;
    }
    known.try_emplace(key, patterns.size());
    patterns.push_back({&joint, {}});
  }
  std::stable_sort(patterns.begin(), patterns.end(),
                   [](const Pattern& p, const Pattern& q) { return *p.joint->kind < *q.joint->kind; });
  return patterns;
}

std::string pattern_title(const Pattern& pattern) {
  const study::CrewJoint& joint = *pattern.joint;
  std::string title = fmt::format("{}: {}", joint_kind_words(joint.kind), joint.id);
  if (!pattern.also.empty()) title += fmt::format(" and {} more like it", pattern.also.size());
  return title;
}

// Which other joints the drawing is for. So many ids are as much as half a page holds.
std::string also_words(const Pattern& pattern) {
  constexpr std::size_t most_named = 120;
  if (pattern.also.empty()) return "";
  const auto named = static_cast<std::ptrdiff_t>(std::min(pattern.also.size(), most_named));
  std::string words =
      "Made alike: " + joined(std::vector<std::string>(pattern.also.begin(), pattern.also.begin() + named));
  const std::size_t left = pattern.also.size() - static_cast<std::size_t>(named);
  return words + (left > 0 ? fmt::format(" and {} more of the joint list.", left) : ".");
}

std::vector<Drawing> joint_drawings(const CrewWish& wish, const study::CrewSet& set, double width_mm) {
  std::vector<Drawing> drawings;
  std::map<job::JointKind, bool> shown;
  for (const Pattern& pattern : patterns_of(set)) {
    if (drawings.size() >= most_drawings) break;
    shown[*pattern.joint->kind] = true;
    drawings.push_back(joint_drawing(*pattern.joint, pattern_title(pattern), wish.units, width_mm));
    drawings.back().caption = also_words(pattern);
  }
  for (const job::JointKind kind :
       {job::JointKind::in_line, job::JointKind::branch, job::JointKind::hub, job::JointKind::end_of_run}) {
    if (shown.contains(kind)) continue;
    const std::string title = fmt::format("{} (this job has none)", joint_kind_words(kind));
    drawings.push_back(joint_drawing(example_joint(kind), title, wish.units, width_mm));
  }
  return drawings;
}

Section joints(const CrewWish& wish, const study::CrewSet& set) {
  const double page_mm = within_margins({wish.size, false}).width_mm;
  Blocks blocks = {Heading{1, "How each joint is made"},
                   Paragraph{"Both conductors are joined, each in its own connector: A to A, B to B. A port that stays "
                             "free is left sealed. One drawing stands for all joints made alike; it names them."},
                   joint_legend(page_mm)};
  std::vector<Drawing> drawings = joint_drawings(wish, set, (page_mm - between_mm) / 2);
  for (std::size_t i = 0; i < drawings.size(); i += 2) {
    Blocks left = {std::move(drawings[i])};
    Blocks right;
    if (i + 1 < drawings.size()) right.push_back(std::move(drawings[i + 1]));
    blocks.push_back(side_by_side({std::move(left), std::move(right)}));
  }
  return portrait(wish, std::move(blocks));
}

Section joint_list(const CrewWish& wish, const study::CrewSet& set) {
  return landscape(wish,
                   {Heading{1, "Joint list"},
                    Callout{Tone::caution, "Every joint: picture, two tape offsets and depth before backfill."},
                    Paragraph{"Wires and free ports are per conductor. The side is that of the line from the first "
                              "fixed point to the second, as you walk it. Known: \"site\" is measured, \"plan\" is "
                              "taken off the plan."},
                    joint_table(set, wish.units)});
}

Section ground(const CrewWish& wish, const job::Job& job, const study::CrewSet& set) {
  const double page_mm = within_margins({wish.size, false}).width_mm;
  Blocks blocks = {Heading{1, "Trench list"}, Paragraph{"Each stretch once, however many cables lie in it."},
                   trench_table(set.ground, wish.units)};
  if (!set.ground.sleeves.empty()) {
    blocks.push_back(Heading{2, "Sleeves"});
    blocks.push_back(sleeve_table(set.ground, wish.units));
  }
  blocks.push_back(Space{4});
  blocks.push_back(burial_drawing(job, set.ground, wish.units, page_mm));
  return portrait(wish, std::move(blocks));
}

Section aims(const CrewWish& wish, const study::CrewSet& set) {
  return landscape(wish,
                   {Heading{1, "Aiming list"},
                    Paragraph{"Directions are clockwise from north, tilts from level. Set them by day, judge them "
                              "by night. Tapes and their side as in the joint list."},
                    aim_table(set.aims, wish.units)});
}

Section picks(const CrewWish& wish, const study::CrewSet& set) {
  return portrait(wish,
                  {Heading{1, "Pick list"},
                   Paragraph{"One bag per zone and one per transformer. Cable is listed as cut; what is bought over "
                             "that stays on the reels."},
                   pick_table(set, wish.units)});
}

}  // namespace

std::string rests_on(const job::Job& job) {
  const job::Corners& corners = job.site.corners;
  return fmt::format(
      "They rest on mains of {:g} V \u00b1 {:g} %, cable at {:g} \u00b0C to {:g} \u00b0C, lengths \u00b1 {:g} %.",
      job.site.mains_v, corners.mains_tolerance_pct, corners.cable_cold_c, corners.cable_hot_c,
      corners.length_tolerance_pct);
}

Document crew_paper(const CrewWish& wish, const job::Job& job, const study::CrewSet& set) {
  Document paper = wish.frame;
  if (paper.title.title.empty()) paper.title.title = "Crew set";
  if (paper.title.kind.empty()) paper.title.kind = "Crew set";
  if (paper.title.job.empty()) paper.title.job = job.title;
  paper.sections = {front(wish, job, set)};
  paper.sections.insert(paper.sections.end(), wish.plans.begin(), wish.plans.end());
  for (Section& section :
       std::vector<Section>{diagram(wish, set), runs(wish, set), cuts(wish, set), joint_list(wish, set),
                            joints(wish, set), ground(wish, job, set), aims(wish, set), picks(wish, set)}) {
    paper.sections.push_back(std::move(section));
  }
  return paper;
}

}  // namespace duskwire::paper
