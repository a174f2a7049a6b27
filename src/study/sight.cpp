// SPDX-License-Identifier: Apache-2.0
#include "study/sight.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "study/trouble.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using geometry::Vec3;

constexpr double degree = std::numbers::pi / 180;
constexpr double least_seen_share = 0.02;  // through a crown: less is a glimmer
constexpr double least_seen_cd = 0.05;     // an upright lamp that sends less there hides its source

double angle_deg(Vec3 p, Vec3 q) { return std::acos(std::clamp(dot(unit(p), unit(q)), -1.0, 1.0)) / degree; }

// Of a lamp's table towards a place, at its share.
double sent_cd(const light::Scene& scene, std::uint32_t lamp, Vec3 way) {
  const light::Lamp& lit = scene.lamps[lamp];
  const Vec3 along = unit(lit.aim);
  const Vec3 x = unit(lit.zero - dot(lit.zero, along) * along);
  const Vec3 y = cross(x, along);
  const Vec3 own{dot(way, x), dot(way, y), -dot(way, along)};
  return lit.share * direction_cd(scene.distributions[lit.distribution], own);
}

std::string name_of(const job::ViewPoint& eye) { return eye.name.empty() ? eye.id : eye.name; }

bool is_accepted(const job::Job& job, const std::string& lamp, const std::string& eye) {
  const auto& accepted = job.light.accepted;
  return std::any_of(accepted.begin(), accepted.end(), [&](const job::AcceptedSight& sight) {
    return sight.luminaire == lamp && sight.view_point == eye;
  });
}

SightState state_of(const job::Job& job, const light::LitScene& scene, const LitLamp& lamp, const SightLine& sight,
                    const job::ViewPoint& eye) {
  const bool looks_there = lamp.stance == Stance::aimed ? sight.off_axis_deg < 90 : sight.intensity_cd > least_seen_cd;
  const std::optional<double> cut_off_deg = job.luminaires[lamp.luminaire].shield_cut_off_deg;
  if (cut_off_deg && sight.off_axis_deg > *cut_off_deg) return SightState::shielded;
  if (!looks_there) return SightState::turned_away;
  if (scene.visible_share(lamp.position, eye.position) < least_seen_share) return SightState::blocked;
  return is_accepted(job, sight.lamp, eye.id) ? SightState::accepted : SightState::visible;
}

std::string words_of(SightState state, const job::ViewPoint& eye) {
  switch (state) {
    case SightState::visible:
      return "lamp visible from " + name_of(eye);
    case SightState::accepted:
      return fmt::format("lamp visible from {}, accepted", name_of(eye));
    default:
      return "lamp hidden";
  }
}

std::uint32_t index_of_lamp(const job::Job& job, const std::string& id) {
  for (std::uint32_t i = 0; i < job.luminaires.size(); ++i) {
    if (job.luminaires[i].id == id) return i;
  }
  return none;
}

Finding neighbour_finding(const job::Job& job, const SightLine& sight, const job::ViewPoint& eye) {
  const std::uint32_t index = index_of_lamp(job, sight.lamp);
  Finding finding;
  finding.id = "light/lamp-visible";
  finding.severity = Severity::error;
  finding.subject = sight.lamp;
  finding.pointer = pointer_of({SpotKind::luminaire, index, 0});
  finding.message = fmt::format(
      "The lamp of {} is visible from {}, {:.1f}° off its axis. Aim it elsewhere, give it a shield that cuts off at "
      "{:.0f}° or less, or have it accepted.",
      called(sight.lamp, job.luminaires[index].name), name_of(eye), sight.off_axis_deg, std::floor(sight.off_axis_deg));
  finding.measured = sight.off_axis_deg;
  finding.unit = "deg";
  return finding;
}

}  // namespace

std::vector<SightLine> sight_lines(const job::Job& job, const light::LitScene& scene,
                                   const std::vector<LitLamp>& lamps) {
  std::vector<SightLine> sights;
  for (const job::ViewPoint& eye : job.plan.view_points) {
    for (std::uint32_t i = 0; i < lamps.size(); ++i) {
      const LitLamp& lamp = lamps[i];
      const Vec3 way = eye.position - lamp.position;
      SightLine sight;
      sight.view_point = eye.id;
      sight.lamp = job.luminaires[lamp.luminaire].id;
      sight.distance_m = length(way);
      if (sight.distance_m <= 0) continue;
      sight.off_axis_deg = angle_deg(lamp.aim, way);
      sight.intensity_cd = sent_cd(scene.scene(), i, way);
      sight.state = state_of(job, scene, lamp, sight, eye);
      sight.words = words_of(sight.state, eye);
      sights.push_back(std::move(sight));
    }
  }
  return sights;
}

Findings sight_findings(const job::Job& job, const std::vector<SightLine>& sights) {
  Findings findings;
  for (const job::ViewPoint& eye : job.plan.view_points) {
    std::vector<std::string> bright;
    for (const SightLine& sight : sights) {
      if (sight.view_point != eye.id || sight.state != SightState::visible) continue;
      if (eye.kind == job::ViewPointKind::neighbour_window) {
        findings.push_back(neighbour_finding(job, sight, eye));
      } else if (sight.intensity_cd / (sight.distance_m * sight.distance_m) >= bright_at_eye_lx) {
        bright.push_back(sight.lamp);
      }
    }
    if (bright.empty()) continue;
    Finding finding;
    finding.id = "light/bright-to-look-at";
    finding.severity = Severity::warning;
    finding.subject = eye.id;
    finding.pointer = fmt::format("/plan/view_points/{}", &eye - job.plan.view_points.data());
    finding.message = fmt::format("Bright to look at from {}: {}. Aim, shield or move.", name_of(eye), listed(bright));
    finding.provenance.status = "common practice, no source";
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace duskwire::study
