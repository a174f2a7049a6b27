// SPDX-License-Identifier: Apache-2.0
#include "study/crew_trench.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string_view>
#include <unordered_map>

#include "estimate/laid_sleeves.hpp"
#include "estimate/trench.hpp"

namespace duskwire::study {
namespace {

constexpr double least_shared_m = 0.05;  // where two cables meet is no shared trench
constexpr double same_depth_m = 1e-6;

// Depths that are the same on a tape are one row.
long millimetres(const std::optional<double>& depth_m) { return depth_m ? std::lround(*depth_m * 1000) : -1; }

int order_of(const std::optional<job::GroundKind>& ground) { return ground ? static_cast<int>(*ground) : 99; }

std::vector<CrewSleeve> sleeves_of(const job::Job& job) {
  const estimate::LaidSleeves laid(job.plan, {});
  std::unordered_map<std::string_view, std::vector<std::string>> through;
  for (const job::Cable& cable : job.cables) {
    for (const job::Sleeve* sleeve : laid.serving(cable)) through[sleeve->id].push_back(cable.id);
  }
  std::vector<CrewSleeve> sleeves;
  for (const job::Sleeve& sleeve : job.plan.sleeves) {
    sleeves.push_back({sleeve.id, estimate::length_m(sleeve.path), sleeve.diameter_mm, sleeve.depth_m,
                       through[sleeve.id], sleeve.laid.value_or(false)});
  }
  return sleeves;
}

}  // namespace

CrewGround crew_ground(const job::Job& job) {
  std::vector<std::string> sleeves_to_lay;
  for (const job::Sleeve& sleeve : job.plan.sleeves) {
    if (!sleeve.laid.value_or(false)) sleeves_to_lay.push_back(sleeve.id);
  }
  const estimate::TrenchWork work = estimate::trench_work(job, {}, sleeves_to_lay);
  std::unordered_map<std::string_view, const job::Cable*> cables;
  double shallowest_m = INFINITY;
  for (const job::Cable& cable : job.cables) {
    cables.emplace(cable.id, &cable);
    if (cable.depth_m) shallowest_m = std::min(shallowest_m, *cable.depth_m);
  }
  std::map<std::pair<int, long>, CrewTrench> rows;
  for (const estimate::TrenchStretch& stretch : work.stretches) {
    const std::optional<double> cover_m = cables.at(stretch.cable)->depth_m;
    CrewTrench& row = rows[{order_of(stretch.ground), millimetres(cover_m)}];
    row.ground = stretch.ground;
    row.cover_m = cover_m;
    row.dug_m += stretch.dug_m;
    row.shared_m += stretch.shared_m;
    row.pulled_m += stretch.pulled_m;
    row.fastened_m += stretch.fastened_m;
    row.minutes += stretch.minutes;
    if (row.cables.empty() || row.cables.back() != stretch.cable) row.cables.push_back(stretch.cable);
    const bool deeper = cover_m && *cover_m > shallowest_m + same_depth_m;
    if (stretch.shared_m >= least_shared_m && deeper) row.deeper_in_shared.push_back(stretch.cable);
  }
  CrewGround ground;
  for (auto& [key, row] : rows) ground.trenches.push_back(std::move(row));
  ground.sleeves = sleeves_of(job);
  ground.dug_m = work.dug_m;
  ground.minutes = work.minutes;
  return ground;
}

}  // namespace duskwire::study
