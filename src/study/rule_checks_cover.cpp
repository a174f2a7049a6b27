// SPDX-License-Identifier: Apache-2.0
// Rule checks of what lies above: cover over cables by surface, splices under surfaces that nobody wants to lift.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "study/ground.hpp"
#include "study/rule_checks.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using job::GroundKind;

// A route drawn along an edge strays over it: less than this is not a crossing.
constexpr double least_crossing_m = 0.05;
constexpr const char* unknown_ground = "other";  // key of the tables for ground that nobody has named

bool is_off_the_ground(GroundKind kind) {
  return kind == GroundKind::building || kind == GroundKind::deck || kind == GroundKind::wall ||
         kind == GroundKind::steps;
}

bool is_hard(GroundKind kind) {
  constexpr std::array hard = {GroundKind::paving, GroundKind::drive,    GroundKind::street,
                               GroundKind::steps,  GroundKind::building, GroundKind::deck};
  return std::find(hard.begin(), hard.end(), kind) != hard.end();
}

// What a cable lies under; nothing stands for ground that neither plan nor cable names.
using GroundsOver = std::set<std::optional<GroundKind>>;

GroundsOver grounds_over(const RuleContext& context, const job::Cable& cable) {
  if (cable.ground && is_off_the_ground(*cable.ground)) return {cable.ground};
  GroundsOver over;
  const GroundAlong along = ground_along(context.ground, cable.path);
  for (const auto& [kind, length_m] : along.length_m) {
    if (length_m >= least_crossing_m) over.insert(kind);
  }
  if (cable.ground) over.insert(*cable.ground);
  if (over.empty() || (!cable.ground && along.unknown_m >= least_crossing_m)) over.insert(std::nullopt);
  return over;
}

std::optional<double> sleeve_depth_m(const RuleContext& context, const job::Cable& cable) {
  if (cable.sleeve.empty()) return std::nullopt;
  for (const job::Sleeve& sleeve : context.job.plan.sleeves) {
    if (sleeve.id == cable.sleeve && sleeve.depth_m > 0) return sleeve.depth_m;
  }
  return std::nullopt;
}

// The most cover asked for at one depth, and what for.
struct Asked {
  double cover_m = 0;
  std::optional<GroundKind> ground;
};

std::string_view words(const std::optional<GroundKind>& ground) {
  return ground ? ground_words(*ground) : std::string_view("ground that the plan does not name");
}

class CoverCheck {
 public:
  CoverCheck(const RuleContext& context, const Rule& rule) : context_(context), rule_(rule) {}

  Findings run() {
    for (std::size_t c = 0; c < context_.job.cables.size(); ++c) judge(c);
    if (!depth_unknown_.empty()) {
      findings_.push_back(not_judged(context_, rule_, "/cables",
                                     fmt::format("Cover could not be judged for {} without a depth: {}.",
                                                 counted(depth_unknown_.size(), "cable"), listed(depth_unknown_))));
    }
    if (!ground_unknown_.empty()) {
      findings_.push_back(not_judged(
          context_, rule_, "/cables",
          fmt::format("What lies over {} is not wholly known ({}): judged by the general limit there; drives and "
                      "streets ask for more.",
                      counted(ground_unknown_.size(), "cable"), listed(ground_unknown_))));
    }
    return std::move(findings_);
  }

 private:
  std::optional<double> asked_m(const std::optional<GroundKind>& ground) const {
    const std::map<std::string, double>& limits = table(rule_, "cover_m");
    const auto found = limits.find(ground ? std::string(ground_key(*ground)) : unknown_ground);
    return found == limits.end() ? std::nullopt : std::optional<double>(found->second);
  }

  void judge(std::size_t index) {
    const job::Cable& cable = context_.job.cables[index];
    const std::optional<double> in_sleeve_m = sleeve_depth_m(context_, cable);
    Asked bare;
    Asked sleeved;
    for (const std::optional<GroundKind>& ground : grounds_over(context_, cable)) {
      const std::optional<double> least_m = asked_m(ground);
      if (!least_m) continue;
      if (!ground) ground_unknown_.push_back(cable.id);
      Asked& asked = in_sleeve_m && ground && is_hard(*ground) ? sleeved : bare;
      if (*least_m > asked.cover_m) asked = {*least_m, ground};
    }
    if (sleeved.cover_m > 0 && exceeds(sleeved.cover_m, *in_sleeve_m)) sleeve_finding(index, *in_sleeve_m, sleeved);
    if (bare.cover_m <= 0) return;
    if (!cable.depth_m) {
      depth_unknown_.push_back(cable.id);
    } else if (exceeds(bare.cover_m, *cable.depth_m)) {
      cable_finding(index, *cable.depth_m, bare);
    }
  }

  void cable_finding(std::size_t index, double depth_m, const Asked& asked) {
    const job::Cable& cable = context_.job.cables[index];
    const WordedPair depths = worded_apart(depth_m, asked.cover_m, depth_unit(context_.units()));
    Finding finding = finding_of(context_, rule_, place_of("cables", index, cable.id), {depth_m, asked.cover_m, "m"},
                                 fmt::format("Cable {} has {} of cover under {}; {} or more is asked for there.",
                                             cable.id, depths.measured, words(asked.ground), depths.limit));
    finding.cures.push_back({fmt::format("Lay it with {} of cover, measured to the top of the cable.", depths.limit),
                             {change(job::ChangeKind::set_depth, cable.id, asked.cover_m)}});
    findings_.push_back(std::move(finding));
  }

  void sleeve_finding(std::size_t index, double depth_m, const Asked& asked) {
    const job::Cable& cable = context_.job.cables[index];
    const WordedPair depths = worded_apart(depth_m, asked.cover_m, depth_unit(context_.units()));
    findings_.push_back(
        finding_of(context_, rule_, place_of("cables", index, cable.id), {depth_m, asked.cover_m, "m"},
                   fmt::format("Sleeve {} takes cable {} under {} at {}; {} or more is asked for there. The sleeve has "
                               "to be laid deeper.",
                               cable.sleeve, cable.id, words(asked.ground), depths.measured, depths.limit)));
  }

  const RuleContext& context_;
  const Rule& rule_;
  Findings findings_;
  std::vector<std::string> depth_unknown_;
  std::vector<std::string> ground_unknown_;
};

}  // namespace

Findings check_cover_depth(const RuleContext& context, const Rule& rule) { return CoverCheck(context, rule).run(); }

Findings check_splice_under_surface(const RuleContext& context, const Rule& rule) {
  const std::map<std::string, double>& surfaces = table(rule, "surface");
  Findings findings;
  std::vector<std::string> unplaced;
  for (std::size_t j = 0; j < context.job.joints.size(); ++j) {
    const job::Joint& joint = context.job.joints[j];
    if (!joint.buried) continue;
    if (!joint.position || context.job.plan.areas.empty()) {
      unplaced.push_back(joint.id);
      continue;
    }
    const std::optional<GroundKind> ground = context.ground.at(*joint.position);
    const auto surface = ground ? surfaces.find(std::string(ground_key(*ground))) : surfaces.end();
    if (surface == surfaces.end() || surface->second == 0) continue;
    findings.push_back(finding_of(
        context, rule, place_of("joints", j, joint.id),
        fmt::format("Joint {} is buried under {}: it could never be reached. Move it into a bed or the lawn and note "
                    "where it lies.",
                    called(joint.id, joint.name), ground_words(*ground))));
  }
  if (!unplaced.empty()) {
    findings.push_back(not_judged(
        context, rule, "/joints",
        fmt::format("What lies over {} is not known ({}): {}.", counted(unplaced.size(), "buried joint"),
                    listed(unplaced),
                    context.job.plan.areas.empty() ? "the plan has no areas drawn" : "no position is given")));
  }
  return findings;
}

}  // namespace duskwire::study
