// SPDX-License-Identifier: Apache-2.0
#include "study/walk_lights.hpp"

#include <fmt/format.h>

#include <limits>

#include "geometry/polygon.hpp"
#include "study/finding.hpp"
#include "study/level_places.hpp"
#include "study/step_flight.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;

constexpr double beside_m = 1;  // off the walk's edge
constexpr double crosses_m = 0.5;

struct Along {
  double along_m = 0;
  double away_m = std::numeric_limits<double>::infinity();  // off the middle
  bool left = false;
};

Along project(const geometry::Polyline& line, Point2 point) {
  Along best;
  double before_m = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Point2 place = nearest_on_segment(point, line[i - 1], line[i]);
    const double away_m = geometry::distance_m(point, place);
    if (away_m < best.away_m) {
      const double turn = (line[i].x_m - line[i - 1].x_m) * (point.y_m - line[i - 1].y_m) -
                          (line[i].y_m - line[i - 1].y_m) * (point.x_m - line[i - 1].x_m);
      best = {before_m + geometry::distance_m(line[i - 1], place), away_m, turn > 0};
    }
    before_m += geometry::distance_m(line[i - 1], line[i]);
  }
  return best;
}

bool is_walk_light(const job::LuminaireItem* item) {
  return item != nullptr && (item->kind == job::LuminaireKind::path || item->kind == job::LuminaireKind::bollard);
}

}  // namespace

std::vector<light::WalkLight> walk_lights_of(const job::Job& job, const job::Area& area, const geometry::Strip& strip) {
  std::vector<light::WalkLight> lights;
  for (const job::Luminaire& lamp : job.luminaires) {
    if (!lamp.position || !is_walk_light(find_luminaire(job.catalogue, lamp.item))) continue;
    const Point2 foot{lamp.position->x_m, lamp.position->y_m};
    if (distance_m(area.outline, foot) > beside_m) continue;
    const Along place = project(strip.centreline, foot);
    lights.push_back({place.along_m, place.left});
  }
  return lights;
}

std::vector<light::WalkLight> walk_lights_of(const geometry::Strip& strip, const ChoiceOption& option) {
  std::vector<light::WalkLight> lights;
  for (const ChosenLamp& lamp : option.lamps) {
    if (lamp.item != option.item) continue;
    const Along place = project(strip.centreline, {lamp.position.x_m, lamp.position.y_m});
    lights.push_back({place.along_m, place.left});
  }
  return lights;
}

std::vector<double> risers_along(const job::Plan& plan, const geometry::Strip& strip) {
  std::vector<double> risers;
  for (const job::Area& area : plan.areas) {
    if (area.kind != job::GroundKind::steps || area.outline.size() < 3) continue;
    const StepFlight flight = step_flight(plan, area);
    if (flight.treads.empty()) continue;
    const Along place = project(strip.centreline, flight.treads[flight.treads.size() / 2].nosing);
    if (place.away_m <= strip.width_m / 2 + crosses_m) risers.push_back(place.along_m);
  }
  return risers;
}

std::string runway_words(const std::vector<light::WalkLight>& lights) {
  switch (light::runway(lights)) {
    case light::Runway::facing_pairs:
      return "lights face each other in pairs, which looks like a runway. Let them alternate.";
    case light::Runway::one_row:
      return fmt::format("{} lights stand in one even row, which looks like a runway. Let them alternate.",
                         lights.size());
    case light::Runway::none:
      break;
  }
  return "";
}

Findings runway_findings(const job::Job& job) {
  Findings findings;
  for (std::size_t i = 0; i < job.plan.areas.size(); ++i) {
    const job::Area& area = job.plan.areas[i];
    const std::optional<LitPlace> place = place_of_area(area);
    if (place != LitPlace::path && place != LitPlace::drive) continue;
    const std::optional<geometry::Strip> strip = geometry::strip_of(area.outline);
    if (!strip) continue;
    const std::string words = runway_words(walk_lights_of(job, area, *strip));
    if (words.empty()) continue;
    Finding finding;
    finding.id = "light/runway";
    finding.severity = Severity::warning;
    finding.subject = area.id;
    finding.pointer = fmt::format("/plan/areas/{}", i);
    finding.message = fmt::format("{}: {}", area.name.empty() ? area.id : area.name, words);
    finding.provenance.status = "common practice, no source";
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace duskwire::study
