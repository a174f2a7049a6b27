// SPDX-License-Identifier: Apache-2.0
#include "study/crew.hpp"

#include <utility>

namespace duskwire::study {
namespace {

CrewTotals totals_of(const CrewSet& set) {
  CrewTotals totals;
  for (const CrewRun& run : set.runs) {
    totals.luminaires += static_cast<std::uint32_t>(run.lamps.size());
    totals.cables += static_cast<std::uint32_t>(run.steps.size());
    totals.lamp_va += run.va;
    totals.route_m += run.route_m;
    totals.cut_m += run.cut_m;
  }
  totals.joints = static_cast<std::uint32_t>(set.joints.size());
  for (const CrewJoint& joint : set.joints) totals.connectors += joint.pieces;
  for (const estimate::Reel& reel : set.materials.reels) totals.bought_m += reel.length_m;
  for (const CrewTrench& trench : set.ground.trenches) totals.dug_m += trench.dug_m;
  return totals;
}

}  // namespace

CrewSet crew_set(const job::Job& job, const job::Catalogue& stock, estimate::Materials materials,
                 const Report& report) {
  CrewSet set;
  set.runs = crew_runs(job, stock, report);
  set.joints = crew_joints(job, stock, materials, report);
  set.ground = crew_ground(job);
  set.aims = crew_aims(job, stock);
  set.bags = crew_bags(job, stock, materials, set.runs);
  set.gate = crew_gate(job, report, set.aims);
  set.commissioning = commissioning_sheet(job, set.runs);
  set.materials = std::move(materials);
  set.sound = report.sound;
  set.totals = totals_of(set);
  return set;
}

}  // namespace duskwire::study
