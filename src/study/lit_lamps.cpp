// SPDX-License-Identifier: Apache-2.0
#include "study/lit_lamps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "geometry/polygon.hpp"
#include "study/network_builder.hpp"
#include "study/numbers.hpp"
#include "study/trouble.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;
using geometry::Vec3;

constexpr double degree = std::numbers::pi / 180;
constexpr double usual_wash_tilt_deg = 45;

// The nearest place on the outline of a building or wall; nothing where the plan has none.
std::optional<geometry::OutlinePlace> nearest_wall(const job::Plan& plan, Point2 from) {
  std::optional<geometry::OutlinePlace> best;
  for (const job::Area& area : plan.areas) {
    if (area.kind != job::GroundKind::building && area.kind != job::GroundKind::wall) continue;
    const auto place = nearest_on_outline(area.outline, from);
    if (place && (!best || place->away_m < best->away_m)) best = place;
  }
  return best;
}

struct Assumed {
  Aim aim;
  std::string words;
};

// Where a job says nothing of a lamp's aim: what such a luminaire mostly does (common practice, no source).
Assumed usual_aim(const job::Plan& plan, const job::LuminaireItem& item, geometry::Point3 position) {
  if (item.kind == job::LuminaireKind::tree_downlight) return {{0, -90}, "straight down"};
  if (item.kind != job::LuminaireKind::wall_wash) return {{0, 90}, "straight up"};
  const auto wall = nearest_wall(plan, {position.x_m, position.y_m});
  if (!wall) return {{0, usual_wash_tilt_deg}, "north, 45° up"};
  const Vec3 way{wall->place.x_m - position.x_m, wall->place.y_m - position.y_m, 0};
  return {{aim_of(plan, way).azimuth_deg, usual_wash_tilt_deg}, "at the nearest wall, 45° up"};
}

class Lighting {
 public:
  Lighting(const job::Job& job, const LitOptions& options) : job_(job), options_(options) {
    if (!options.volts) return;
    built_.emplace(build(job));
    numbers_ = analyse(*built_, {.corners = false, .margins = false, .shorts = false});
  }

  LitLamps run() {
    for (std::uint32_t i = 0; i < job_.luminaires.size(); ++i) add(i);
    tell_unfed();
    return std::move(out_);
  }

 private:
  void add(std::uint32_t index) {
    const job::Luminaire& luminaire = job_.luminaires[index];
    const job::LuminaireItem* item = find_luminaire(job_.catalogue, luminaire.item);
    if (item == nullptr) {
      tell("light/no-article", Severity::warning, index,
           fmt::format("{} names the article \"{}\", which the job's catalogue lacks: it gives no light here.",
                       name_of(index), luminaire.item));
      return;
    }
    if (!luminaire.position) {
      tell("light/no-place", Severity::warning, index,
           fmt::format("{} has no place on the plan: it gives no light here. Place it.", name_of(index)));
      return;
    }
    LitLamp lamp;
    lamp.luminaire = index;
    lamp.item = item;
    lamp.position = *luminaire.position;
    lamp.stance = stance_of(*item);
    turn(lamp, luminaire);
    share(lamp, luminaire);
    out_.lamps.push_back(lamp);
  }

  void turn(LitLamp& lamp, const job::Luminaire& luminaire) {
    Aim aim{luminaire.azimuth_deg, luminaire.tilt_deg};
    if (lamp.stance == Stance::upright) {
      lamp.zero = way_of(job_.plan, aim.azimuth_deg, 0);
      return;
    }
    if (aim.azimuth_deg == 0 && aim.tilt_deg == 0) {
      Assumed assumed = usual_aim(job_.plan, *lamp.item, lamp.position);
      tell("light/aim-not-set", Severity::warning, lamp.luminaire,
           fmt::format("The aim of {} is not set: taken as {}. Set its azimuth and tilt.", name_of(lamp.luminaire),
                       assumed.words));
      lamp.aim_assumed = true;
      aim = assumed.aim;
    }
    lamp.aim = way_of(job_.plan, aim.azimuth_deg, aim.tilt_deg);
    lamp.zero = upper_side_of(job_.plan, aim.azimuth_deg, aim.tilt_deg);
  }

  void share(LitLamp& lamp, const job::Luminaire& luminaire) {
    lamp.dim_share = std::clamp(luminaire.dim_pct / 100, 0.0, 1.0);
    lamp.share = lamp.dim_share;
    if (!options_.volts) return;
    if (built_->supply[built_->node_of_luminaire(lamp.luminaire)].output == none) {
      unfed_.push_back(lamp.luminaire);
    } else {
      lamp.share = numbers_.lamps[lamp.luminaire].light;
    }
  }

  void tell_unfed() {
    if (unfed_.empty()) return;
    std::vector<std::string> names;
    for (const std::uint32_t index : unfed_) names.push_back(job_.luminaires[index].id);
    tell("light/not-wired", Severity::note, unfed_.front(),
         fmt::format("No cable feeds {}: taken as if at rated volts.", listed(names)));
  }

  std::string name_of(std::uint32_t index) const {
    return called(job_.luminaires[index].id, job_.luminaires[index].name);
  }

  void tell(const char* id, Severity severity, std::uint32_t index, std::string message) {
    Finding finding;
    finding.id = id;
    finding.severity = severity;
    finding.subject = job_.luminaires[index].id;
    finding.pointer = pointer_of({SpotKind::luminaire, index, 0});
    finding.message = std::move(message);
    out_.findings.push_back(std::move(finding));
  }

  const job::Job& job_;
  LitOptions options_;
  std::optional<Built> built_;
  Numbers numbers_;
  LitLamps out_;
  std::vector<std::uint32_t> unfed_;
};

}  // namespace

Stance stance_of(const job::LuminaireItem& item) {
  switch (item.kind) {
    case job::LuminaireKind::path:
    case job::LuminaireKind::bollard:
    case job::LuminaireKind::step:
    case job::LuminaireKind::strip:
      return Stance::upright;
    default:
      return item.beam_deg >= 360 ? Stance::upright : Stance::aimed;
  }
}

LitLamps lit_lamps(const job::Job& job, const LitOptions& options) { return Lighting(job, options).run(); }

Vec3 way_of(const job::Plan& plan, double azimuth_deg, double tilt_deg) {
  const double turn = (plan.north_deg - azimuth_deg) * degree;
  const double tilt = tilt_deg * degree;
  return {std::cos(tilt) * std::cos(turn), std::cos(tilt) * std::sin(turn), std::sin(tilt)};
}

// d way / d tilt: square to the way, and steady where the way passes the zenith.
Vec3 upper_side_of(const job::Plan& plan, double azimuth_deg, double tilt_deg) {
  return way_of(plan, azimuth_deg, tilt_deg + 90);
}

Aim aim_of(const job::Plan& plan, Vec3 way) {
  Aim aim;
  const double level = std::hypot(way.x, way.y);
  aim.tilt_deg = std::atan2(way.z, level) / degree;
  if (level <= 1e-9 * std::abs(way.z)) return aim;
  const double azimuth_deg = plan.north_deg - std::atan2(way.y, way.x) / degree;
  constexpr double hair_deg = 1e-9;  // just short of north is north
  aim.azimuth_deg = azimuth_deg - 360 * std::floor((azimuth_deg + hair_deg) / 360);
  return aim;
}

}  // namespace duskwire::study
