// SPDX-License-Identifier: Apache-2.0
#include "study/starter_layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <set>

namespace duskwire::study {
namespace {

using geometry::Point2;

// Habits of the trade (common practice, no source): what one run carries, when a hub is handy, how deep and how far
// apart lamps are laid where the list does not say.
constexpr double run_load_va = 120;
constexpr std::size_t run_lamps = 12;
constexpr std::size_t hub_lamps_least = 3;
constexpr std::size_t hub_lamps_most = 9;
constexpr double hub_lead_m = 9;
constexpr double row_spacing_m = 3;
constexpr double usual_depth_m = 0.2;
constexpr double shortest_cable_m = 0.5;

Point2 place_of(const job::Job& job, std::size_t lamp) {
  const geometry::Point3 point = job.luminaires[lamp].position.value_or(geometry::Point3{});
  return {point.x_m, point.y_m};
}

double load_of(const job::Job& job, std::size_t lamp) {
  const job::LuminaireItem* item = find_luminaire(job.catalogue, job.luminaires[lamp].item);
  return item == nullptr ? 0 : item->power_va;
}

// Zones in the order in which the list names them.
std::vector<std::vector<std::size_t>> zones_of(const job::Job& job) {
  std::vector<std::vector<std::size_t>> zones;
  std::map<std::string, std::size_t> index;
  for (std::size_t i = 0; i < job.luminaires.size(); ++i) {
    const auto [found, fresh] = index.try_emplace(job.luminaires[i].zone, zones.size());
    if (fresh) zones.emplace_back();
    zones[found->second].push_back(i);
  }
  return zones;
}

void name_and_place(job::Job& job, const std::vector<std::vector<std::size_t>>& zones) {
  std::set<std::string> taken;
  for (const job::Luminaire& lamp : job.luminaires) taken.insert(lamp.id);
  std::size_t number = 0;
  for (job::Luminaire& lamp : job.luminaires) {
    while (lamp.id.empty()) {
      const std::string id = fmt::format("L{}", ++number);
      if (taken.insert(id).second) lamp.id = id;
    }
  }
  for (std::size_t zone = 0; zone < zones.size(); ++zone) {
    double x_m = row_spacing_m;
    for (const std::size_t lamp : zones[zone]) {
      std::optional<geometry::Point3>& position = job.luminaires[lamp].position;
      if (position) continue;
      position = geometry::Point3{x_m, -row_spacing_m * static_cast<double>(zone + 1), 0};
      x_m += row_spacing_m;
    }
  }
}

// From the transformer to the nearest lamp, from there to the nearest left, and so on.
std::vector<std::size_t> walk(const job::Job& job, std::vector<std::size_t> lamps) {
  std::vector<std::size_t> order;
  Point2 here;
  while (!lamps.empty()) {
    const auto next = std::min_element(lamps.begin(), lamps.end(), [&](std::size_t p, std::size_t q) {
      return distance_m(here, place_of(job, p)) < distance_m(here, place_of(job, q));
    });
    here = place_of(job, *next);
    order.push_back(*next);
    lamps.erase(next);
  }
  return order;
}

Point2 middle_of(const job::Job& job, const StarterRun& run) {
  Point2 sum;
  for (const std::size_t lamp : run.lamps) {
    sum.x_m += place_of(job, lamp).x_m;
    sum.y_m += place_of(job, lamp).y_m;
  }
  const auto count = static_cast<double>(run.lamps.size());
  return {sum.x_m / count, sum.y_m / count};
}

bool suits_a_hub(const job::Job& job, const StarterRun& run) {
  if (run.lamps.size() < hub_lamps_least || run.lamps.size() > hub_lamps_most) return false;
  const Point2 middle = middle_of(job, run);
  double leads_m = 0;
  double chain_m = 0;
  for (std::size_t i = 0; i < run.lamps.size(); ++i) {
    const double lead_m = distance_m(middle, place_of(job, run.lamps[i]));
    if (lead_m > hub_lead_m) return false;
    leads_m += lead_m;
    if (i > 0) chain_m += distance_m(place_of(job, run.lamps[i - 1]), place_of(job, run.lamps[i]));
  }
  return leads_m <= chain_m;
}

void add_cable(job::Job& job, const std::string& id, const std::string& item, const std::string& from,
               const std::string& to, Point2 start, Point2 end) {
  job::Cable cable;
  cable.id = id;
  cable.item = item;
  cable.from = from;
  cable.to = to;
  cable.path = {start, end};
  cable.depth_m = usual_depth_m;
  if (distance_m(start, end) < shortest_cable_m) cable.length_m = shortest_cable_m;
  job.cables.push_back(std::move(cable));
}

void add_joint(job::Job& job, const std::string& id, job::JointKind kind, Point2 place) {
  job::Joint joint;
  joint.id = id;
  joint.kind = kind;
  joint.position = place;
  job.joints.push_back(std::move(joint));
}

void lay_hub(job::Job& job, StarterRun& run, const std::string& output, const StarterCables& cables) {
  const Point2 middle = middle_of(job, run);
  const std::string hub = run.id + "-HUB";
  add_joint(job, hub, job::JointKind::hub, middle);
  run.trunk = run.id + "-C0";
  add_cable(job, run.trunk, cables.trunk, output, hub, {}, middle);
  for (std::size_t i = 0; i < run.lamps.size(); ++i) {
    const job::Luminaire& lamp = job.luminaires[run.lamps[i]];
    add_cable(job, fmt::format("{}-C{}", run.id, i + 1), cables.lead, hub, lamp.id, middle,
              place_of(job, run.lamps[i]));
  }
}

void lay_chain(job::Job& job, StarterRun& run, const std::string& output, const StarterCables& cables) {
  std::string previous = output;
  Point2 here;
  for (std::size_t i = 0; i < run.lamps.size(); ++i) {
    const bool last = i + 1 == run.lamps.size();
    const Point2 next = place_of(job, run.lamps[i]);
    const std::string joint = fmt::format("{}-J{}", run.id, i + 1);
    add_joint(job, joint, last ? job::JointKind::end_of_run : job::JointKind::branch, next);
    job.luminaires[run.lamps[i]].joint = joint;
    const std::string cable = fmt::format("{}-C{}", run.id, i + 1);
    if (i == 0) run.trunk = cable;
    add_cable(job, cable, cables.trunk, previous, joint, here, next);
    previous = joint;
    here = next;
  }
}

}  // namespace

std::vector<StarterRun> plan_runs(job::Job& job) {
  const std::vector<std::vector<std::size_t>> zones = zones_of(job);
  name_and_place(job, zones);
  std::vector<StarterRun> runs;
  for (const std::vector<std::size_t>& zone : zones) {
    bool fresh = true;
    for (const std::size_t lamp : walk(job, zone)) {
      const double load_va = load_of(job, lamp);
      fresh = fresh || runs.back().lamps.size() >= run_lamps || runs.back().load_va + load_va > run_load_va;
      if (fresh) runs.push_back({fmt::format("R{}", runs.size() + 1), {}, 0, ""});
      runs.back().lamps.push_back(lamp);
      runs.back().load_va += load_va;
      fresh = false;
    }
  }
  return runs;
}

void lay_run(job::Job& job, StarterRun& run, const std::string& output, const StarterCables& cables) {
  if (suits_a_hub(job, run)) {
    lay_hub(job, run, output, cables);
  } else {
    lay_chain(job, run, output, cables);
  }
}

}  // namespace duskwire::study
