// SPDX-License-Identifier: Apache-2.0
// A walk lit by path lights: even, on alternating sides, a step light where risers lie far from all of them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/polygon.hpp"
#include "light/illuminance.hpp"
#include "study/choose_parts.hpp"
#include "study/lamp_distribution.hpp"
#include "study/step_flight.hpp"
#include "study/walk_lights.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;

constexpr double beside_m = 0.3;     // off the walk's edge, out of the mower's way
constexpr double usual_walk_lx = 3;  // where the set in force is silent
constexpr double pool_share = 0.1;   // a pool ends at a tenth of its brightest
constexpr double widest_pool_m = 6;

// Across the pool on flat ground below a lamp that shines all round.
double pool_of(const job::LuminaireItem& item) {
  const light::Distribution table = distribution_of(item);
  const double height_m = std::max(item.mounting_height_m, 0.2);
  const auto lx_at = [&](double out_m) {
    const geometry::Vec3 way{out_m, 0, -height_m};
    const double away_m = length(way);
    return direction_cd(table, way) * height_m / (away_m * away_m * away_m);
  };
  double most_lx = 0;
  double edge_m = 0;
  for (double out_m = 0; out_m <= widest_pool_m / 2; out_m += 0.05) {
    most_lx = std::max(most_lx, lx_at(out_m));
    if (lx_at(out_m) >= pool_share * most_lx) edge_m = out_m;
  }
  return 2 * edge_m;
}

struct Walk {
  const job::Area& area;
  const geometry::Strip& strip;
  double longest_m = light::usual_longest_m;
  std::vector<double> risers_m;
  const job::LuminaireItem* step_light = nullptr;
};

ChosenLamp beside(const job::Job& job, const Walk& walk, const job::LuminaireItem& item, double along_m, bool left,
                  double off_m) {
  const geometry::LinePlace middle = place_along(walk.strip.centreline, along_m);
  const Point2 side = left ? Point2{-middle.way.y_m, middle.way.x_m} : Point2{middle.way.y_m, -middle.way.x_m};
  const double away_m = walk.strip.width_m / 2 + off_m;
  const Aim inwards = aim_of(job.plan, {-side.x_m, -side.y_m, 0});
  return {item.id,
          {middle.place.x_m + away_m * side.x_m, middle.place.y_m + away_m * side.y_m, item.mounting_height_m},
          inwards.azimuth_deg,
          0};
}

ChoiceOption option(const ChooseContext& context, const Walk& walk, double asked_lx, const job::LuminaireItem& item) {
  const double pool_m = context.request.pool_m.value_or(pool_of(item));
  const light::WalkPlan plan = light::walk_plan(walk.strip.length_m, walk.longest_m, pool_m);
  ChoiceOption out = option_of(item, static_cast<std::uint32_t>(plan.lights.size()));
  out.spot_m = pool_m;
  for (const light::WalkLight& lamp : plan.lights) {
    out.lamps.push_back(beside(context.job, walk, item, lamp.along_m, lamp.left, beside_m));
  }
  std::size_t step_lights = 0;
  for (const double riser_m : walk.risers_m) {
    if (walk.step_light == nullptr || !light::needs_step_light(plan.lights, riser_m)) continue;
    out.lamps.push_back(beside(context.job, walk, *walk.step_light, riser_m, true, 0.05));
    out.price_minor += walk.step_light->price_minor;
    ++step_lights;
  }
  const LuxFigures lit = light_of(context, out, walk.area.id);
  out.average_lx = lit.average_lx;
  out.minimum_lx = lit.minimum_lx;
  if (lit.average_lx < asked_lx) {
    out.warnings.push_back(fmt::format("{:.1f} lx on average where {:g} are asked", lit.average_lx, asked_lx));
  }
  out.fits = out.warnings.empty();
  out.reason = fmt::format(
      "{} lights {} apart on alternating sides, pools {} across: {:.1f} lx on average, "
      "{:.1f} at the darkest",
      plan.lights.size(), span_words(context, plan.pitch_m, 1), span_words(context, pool_m), lit.average_lx,
      lit.minimum_lx);
  if (step_lights > 0) out.reason += fmt::format("; and {} where risers are", counted(step_lights, "step light"));
  out.reason += ".";
  return out;
}

const job::LuminaireItem* usual_step_light(const ChooseContext& context) {
  const job::LuminaireItem* best = nullptr;
  for (const job::Catalogue* catalogue : {&context.job.catalogue, &context.stock}) {
    for (const job::LuminaireItem& item : catalogue->luminaires) {
      if (item.kind != job::LuminaireKind::step || item.flux_lm <= 0) continue;
      constexpr double usual_lm = 60;
      if (best == nullptr || std::abs(item.flux_lm - usual_lm) < std::abs(best->flux_lm - usual_lm)) best = &item;
    }
  }
  return best;
}

void tell_risers(const ChooseContext& context, const Walk& walk, Choice& choice) {
  if (choice.options.empty()) return;
  const light::WalkPlan plan{0, walk_lights_of(walk.strip, choice.options.front())};
  for (const double riser_m : walk.risers_m) {
    const double away_m = light::nearest_light_m(plan.lights, riser_m);
    choice.remarks.push_back(fmt::format(
        "Risers at {}: the nearest light is {} away, {}.", span_words(context, riser_m), span_words(context, away_m, 1),
        light::needs_step_light(plan.lights, riser_m) ? fmt::format("farther than {}, so a step light is added there",
                                                                    span_words(context, light::riser_reach_m, 1))
                                                      : "near enough"));
  }
}

}  // namespace

Choice choose_for_walk(const ChooseContext& context, const job::Area& area, const geometry::Strip& strip) {
  Walk walk{area, strip, context.request.longest_m.value_or(light::usual_longest_m), context.request.risers_m,
            usual_step_light(context)};
  if (walk.risers_m.empty()) walk.risers_m = risers_along(context.job.plan, strip);
  const LitPlace place = place_of_area(area).value_or(LitPlace::path);
  const double asked_lx = asked_average_lx(context, place).value_or(usual_walk_lx);
  Choice choice;
  choice.place = place;
  choice.target = area.id;
  choice.need.average_lx = asked_lx;
  for (const job::LuminaireItem* item : candidates(context, {job::LuminaireKind::path, job::LuminaireKind::bollard})) {
    choice.options.push_back(option(context, walk, asked_lx, *item));
  }
  put_best_first(choice.options);
  if (choice.options.empty()) {
    choice.sentence = "The catalogue has no path light.";
    return choice;
  }
  const ChoiceOption& best = choice.options.front();
  choice.need.count = best.count;
  choice.need.spacing_m = strip.length_m / best.count;
  choice.sentence = fmt::format("{} × {}: {}", best.count, best.title, best.reason);
  tell_risers(context, walk, choice);
  const std::string row = runway_words(walk_lights_of(context.job, area, strip));
  if (!row.empty()) choice.remarks.push_back("As it is placed now: " + row);
  return choice;
}

}  // namespace duskwire::study
