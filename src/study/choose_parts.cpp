// SPDX-License-Identifier: Apache-2.0
#include "study/choose_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "study/lit_scene.hpp"
#include "study/wording.hpp"

namespace duskwire::study {

std::vector<const job::LuminaireItem*> candidates(const ChooseContext& context,
                                                  const std::vector<job::LuminaireKind>& kinds) {
  std::vector<const job::LuminaireItem*> items;
  const auto take = [&](const job::Catalogue& catalogue) {
    for (const job::LuminaireItem& item : catalogue.luminaires) {
      const bool wanted = context.request.item.empty() ? std::find(kinds.begin(), kinds.end(), item.kind) != kinds.end()
                                                       : item.id == context.request.item;
      const bool known = std::any_of(items.begin(), items.end(), [&](const auto* had) { return had->id == item.id; });
      if (wanted && !known && item.flux_lm > 0) items.push_back(&item);
    }
  };
  // The job's own articles count before those of the stock.
  take(context.job.catalogue);
  take(context.stock);
  return items;
}

std::optional<double> asked_average_lx(const ChooseContext& context, LitPlace place) {
  if (context.set == nullptr) return std::nullopt;
  const LevelTarget* target = chosen_target(*context.set, place);
  if (target != nullptr) return target->average_lx;
  for (const LevelTarget& other : context.set->targets) {
    if (other.place == place) return other.average_lx;
  }
  return std::nullopt;
}

LuxFigures light_of(const ChooseContext& context, const ChoiceOption& option, const std::string& place_id) {
  job::Job trial;
  trial.site = context.job.site;
  trial.plan = context.job.plan;
  for (const job::Catalogue* catalogue : {&context.job.catalogue, &context.stock}) {
    for (const job::LuminaireItem& item : catalogue->luminaires) {
      const bool used = std::any_of(option.lamps.begin(), option.lamps.end(),
                                    [&](const ChosenLamp& lamp) { return lamp.item == item.id; });
      if (used && find_luminaire(trial.catalogue, item.id) == nullptr) trial.catalogue.luminaires.push_back(item);
    }
  }
  for (const ChosenLamp& lamp : option.lamps) {
    job::Luminaire placed;
    placed.id = fmt::format("L{}", trial.luminaires.size() + 1);
    placed.item = lamp.item;
    placed.position = lamp.position;
    placed.azimuth_deg = lamp.azimuth_deg == 0 && lamp.tilt_deg == 0 ? 360 : lamp.azimuth_deg;
    placed.tilt_deg = lamp.tilt_deg;
    trial.luminaires.push_back(std::move(placed));
  }
  const light::LitScene scene(lit_scene(trial, {.volts = false}).scene);
  const std::vector<PlaceLevels> places = place_levels(trial, GardenLight(scene), place_id);
  return places.empty() ? LuxFigures{} : places.front().lit;
}

std::string span_words(const ChooseContext& context, double length_m, int more_decimals) {
  const job::DisplayUnits units = context.job.site.units;
  // A foot is too coarse for a setback.
  return worded(length_m, distance_unit(units), units == job::DisplayUnits::us ? 1 : more_decimals);
}

ChoiceOption option_of(const job::LuminaireItem& item, std::uint32_t count) {
  ChoiceOption option;
  option.item = item.id;
  option.title = item.title;
  option.kind = item.kind;
  option.count = count;
  option.beam_deg = item.beam_deg;
  option.flux_lm = item.flux_lm * count;
  option.price_minor = item.price_minor * count;
  return option;
}

geometry::Point2 way_to_eye(const job::Job& job, geometry::Point2 from) {
  for (const job::ViewPoint& eye : job.plan.view_points) {
    if (eye.kind == job::ViewPointKind::neighbour_window) continue;
    const double x_m = eye.position.x_m - from.x_m;
    const double y_m = eye.position.y_m - from.y_m;
    const double away_m = std::hypot(x_m, y_m);
    if (away_m > 0) return {x_m / away_m, y_m / away_m};
  }
  const geometry::Vec3 south = way_of(job.plan, 180, 0);
  return {south.x, south.y};
}

ChosenLamp aimed_lamp(const job::Job& job, const std::string& item, geometry::Point3 from, geometry::Point3 at) {
  const Aim aim = aim_of(job.plan, at - from);
  return {item, from, aim.azimuth_deg, aim.tilt_deg};
}

void put_best_first(std::vector<ChoiceOption>& options) {
  std::stable_sort(options.begin(), options.end(), [](const ChoiceOption& p, const ChoiceOption& q) {
    if (p.fits != q.fits) return p.fits;
    if (p.fits && p.price_minor != q.price_minor) return p.price_minor < q.price_minor;
    return p.average_lx > q.average_lx;
  });
}

}  // namespace duskwire::study
