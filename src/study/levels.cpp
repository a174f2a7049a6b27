// SPDX-License-Identifier: Apache-2.0
#include "study/levels.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "study/brightness.hpp"
#include "study/garden_light.hpp"
#include "study/level_judge.hpp"
#include "study/level_places.hpp"
#include "study/lit_scene.hpp"
#include "study/sight.hpp"
#include "study/spill.hpp"
#include "study/walk_lights.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

// Where neither job nor set says (common practice, no source).
constexpr double usual_limit_lx = 1;
constexpr const char* usual_set = "garden";

struct Limit {
  double lx = usual_limit_lx;
  Provenance provenance{"", "", "common practice, no source", ""};
};

// What the caller asks, else the job, else the set in force, else whichever set has a limit for such a place:
// neighbours are owed one whatever the garden is lit by.
Limit limit_of(LitPlace place, std::optional<double> asked, std::optional<double> of_job, const LevelSet* in_force,
               const LevelSets& sets) {
  if (asked) return {*asked, {"", "", "common practice, no source", "as asked"}};
  if (of_job) return {*of_job, {"", "", "common practice, no source", "as the job says"}};
  std::vector<const LevelSet*> order;
  if (in_force) order.push_back(in_force);
  for (const LevelSet& set : sets) order.push_back(&set);
  for (const LevelSet* set : order) {
    const LevelTarget* target = chosen_target(*set, place);
    if (target && target->most_lx) return {*target->most_lx, target->provenance};
  }
  return {};
}

std::vector<LampLevels> lamp_levels(const job::Job& job, const LitJob& lit) {
  std::vector<LampLevels> lamps;
  for (std::size_t i = 0; i < lit.lamps.size(); ++i) {
    const LitLamp& lamp = lit.lamps[i];
    const light::Lamp& source = lit.scene.lamps[i];
    const light::Distribution& table = lit.scene.distributions[source.distribution];
    const Aim aim = aim_of(job.plan, lamp.stance == Stance::aimed ? lamp.aim : lamp.zero);
    LampLevels out;
    out.id = job.luminaires[lamp.luminaire].id;
    out.share = lamp.share;
    out.dim_share = lamp.dim_share;
    out.flux_lm = lamp.share * flux_lm(table);
    out.azimuth_deg = aim.azimuth_deg;
    out.tilt_deg = aim.tilt_deg;
    out.aim_assumed = lamp.aim_assumed;
    out.upward_share = upward_share(table, source);
    lamps.push_back(std::move(out));
  }
  return lamps;
}

UpwardLight upward_light(const std::vector<LampLevels>& lamps) {
  UpwardLight upward;
  for (const LampLevels& lamp : lamps) {
    upward.flux_lm += lamp.flux_lm;
    upward.upward_lm += lamp.flux_lm * lamp.upward_share;
  }
  if (upward.flux_lm > 0) upward.upward_share = upward.upward_lm / upward.flux_lm;
  return upward;
}

Findings line_findings(job::DisplayUnits units, const std::vector<SpillEdge>& edges, const Limit& limit) {
  const auto words = [&](double length_m) { return worded(length_m, distance_unit(units)); };
  Findings findings;
  for (const SpillEdge& edge : edges) {
    if (edge.maximum_lx <= limit.lx) continue;
    Finding finding;
    finding.id = "light/property-line";
    finding.severity = Severity::warning;
    finding.subject = edge.lamp;
    finding.pointer = "/plan/property_line";
    finding.message = fmt::format(
        "{} leave the lot over edge {} of the property line at ({}, {}), {} up. Limit: {:g} lx. Most of it is from {}.",
        lux_words(edge.maximum_lx), edge.edge + 1, words(edge.maximum_at.x_m), words(edge.maximum_at.y_m),
        words(edge.maximum_at.z_m), limit.lx, edge.lamp);
    finding.measured = edge.maximum_lx;
    finding.limit = limit.lx;
    finding.unit = "lx";
    finding.provenance = limit.provenance;
    findings.push_back(std::move(finding));
  }
  return findings;
}

Findings window_findings(const job::Job& job, const std::vector<WindowSpill>& windows, const Limit& limit) {
  Findings findings;
  for (const WindowSpill& window : windows) {
    if (window.lx <= limit.lx) continue;
    const auto& eyes = job.plan.view_points;
    const auto eye = std::find_if(eyes.begin(), eyes.end(), [&](const auto& e) { return e.id == window.view_point; });
    Finding finding;
    finding.id = "light/window";
    finding.severity = Severity::error;
    finding.subject = window.view_point;
    finding.pointer = fmt::format("/plan/view_points/{}", eye - eyes.begin());
    finding.message = fmt::format("{} fall on {}. Limit: {:g} lx. Most of it is from {}.", lux_words(window.lx),
                                  eye->name.empty() ? eye->id : eye->name, limit.lx, window.lamp);
    finding.measured = window.lx;
    finding.limit = limit.lx;
    finding.unit = "lx";
    finding.provenance = limit.provenance;
    findings.push_back(std::move(finding));
  }
  return findings;
}

void append(Findings& all, Findings more) { std::move(more.begin(), more.end(), std::back_inserter(all)); }

bool is_error(const Finding& finding) { return finding.severity == Severity::error; }

}  // namespace

Levels levels(const job::Job& job, const LevelSets& sets, const LevelsOptions& options) {
  LitJob lit = lit_scene(job);
  Levels out;
  out.targets = options.targets.empty() ? job.light.targets : options.targets;
  if (out.targets.empty()) out.targets = usual_set;
  const LevelSet* in_force = find_set(sets, out.targets);
  out.lamps = lamp_levels(job, lit);
  const std::vector<LitLamp> lamps = std::move(lit.lamps);
  out.findings = std::move(lit.findings);
  const light::LitScene scene(std::move(lit.scene));

  const GardenLight garden = options.bounce ? GardenLight(scene, job) : GardenLight(scene);
  if (garden.bounce()) {
    out.bounce = BounceLevels{garden.patch_m(), static_cast<std::uint32_t>(garden.bounce()->patch_count()),
                              garden.bounce()->sent_lm()};
  }

  out.places = place_levels(job, garden);
  judge_places(sets, out.targets, out.places);
  const Limit line = limit_of(LitPlace::property_line, options.property_line_limit_lx, job.light.property_line_limit_lx,
                              in_force, sets);
  const Limit window = limit_of(LitPlace::window, options.window_limit_lx, job.light.window_limit_lx, in_force, sets);
  out.property_line_limit_lx = line.lx;
  out.window_limit_lx = window.lx;
  out.property_line = property_line_spill(job, garden, lamps);
  out.windows = window_spill(job, garden, lamps);
  out.sights = sight_lines(job, scene, lamps);
  out.upward = upward_light(out.lamps);
  out.brightness = brightness_order(out.places);
  if (options.plan) out.plan = night_plan(job, garden, options.cell_m);

  append(out.findings, sight_findings(job, out.sights));
  append(out.findings, window_findings(job, out.windows, window));
  append(out.findings, line_findings(job.site.units, out.property_line, line));
  append(out.findings, place_findings(out.places));
  append(out.findings, runway_findings(job));
  if (in_force) append(out.findings, lamp_findings(job, *in_force, out.lamps));
  std::stable_sort(out.findings.begin(), out.findings.end(),
                   [](const Finding& p, const Finding& q) { return p.severity > q.severity; });
  out.sound = std::none_of(out.findings.begin(), out.findings.end(), is_error);
  out.blocks_quote = !out.sound;
  return out;
}

}  // namespace duskwire::study
