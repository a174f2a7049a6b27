// SPDX-License-Identifier: Apache-2.0
// A flight of steps lit from its risers: one light to every riser, two where the flight is broad.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/clip.hpp"
#include "study/choose_parts.hpp"
#include "study/step_flight.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;

constexpr double light_width_m = 1.5;  // that one step light serves
constexpr double usual_steps_lx = 5;   // where the set in force is silent
constexpr double before_riser_m = 0.04;
constexpr double up_riser = 0.6;  // of its height

std::vector<ChosenLamp> places(const job::Job& job, const StepFlight& flight, double width_m,
                               const job::LuminaireItem& item) {
  const int across = std::max(1, static_cast<int>(std::ceil(width_m / light_width_m - 1e-9)));
  const Point2 side{-flight.up.y_m, flight.up.x_m};
  const Aim down = aim_of(job.plan, {-flight.up.x_m, -flight.up.y_m, 0});
  std::vector<ChosenLamp> lamps;
  double below_m = 0;
  for (const Tread& tread : flight.treads) {
    const double z_m = below_m + up_riser * (tread.height_m - below_m);
    for (int i = 0; i < across; ++i) {
      const double aside_m = width_m * ((i + 0.5) / across - 0.5);
      lamps.push_back({item.id,
                       {tread.nosing.x_m + aside_m * side.x_m - before_riser_m * flight.up.x_m,
                        tread.nosing.y_m + aside_m * side.y_m - before_riser_m * flight.up.y_m, z_m},
                       down.azimuth_deg,
                       0});
    }
    below_m = tread.height_m;
  }
  return lamps;
}

}  // namespace

Choice choose_for_steps(const ChooseContext& context, const job::Area& area) {
  const StepFlight flight = step_flight(context.job.plan, area);
  const geometry::Extent extent = extent_along(area.outline, {-flight.up.y_m, flight.up.x_m});
  const double asked_lx = asked_average_lx(context, LitPlace::steps).value_or(usual_steps_lx);
  Choice choice;
  choice.place = LitPlace::steps;
  choice.target = area.id;
  choice.need.average_lx = asked_lx;
  for (const job::LuminaireItem* item : candidates(context, {job::LuminaireKind::step})) {
    std::vector<ChosenLamp> lamps = places(context.job, flight, extent.high - extent.low, *item);
    ChoiceOption option = option_of(*item, static_cast<std::uint32_t>(lamps.size()));
    option.lamps = std::move(lamps);
    const LuxFigures lit = light_of(context, option, area.id);
    option.average_lx = lit.average_lx;
    option.minimum_lx = lit.minimum_lx;
    if (lit.average_lx < asked_lx) {
      option.warnings.push_back(fmt::format("{:.1f} lx on average where {:g} are asked", lit.average_lx, asked_lx));
    }
    option.fits = option.warnings.empty();
    option.reason = fmt::format("{} in {} risers: {:.1f} lx on average, {:.1f} at the darkest.", option.count,
                                flight.treads.size(), lit.average_lx, lit.minimum_lx);
    choice.options.push_back(std::move(option));
  }
  put_best_first(choice.options);
  if (choice.options.empty()) {
    choice.sentence = "The catalogue has no step light.";
    return choice;
  }
  choice.need.count = choice.options.front().count;
  choice.sentence = fmt::format("{} × {}: {}", choice.options.front().count, choice.options.front().title,
                                choice.options.front().reason);
  if (flight.assumed) {
    choice.remarks.push_back(
        "Risers and ascent are taken from what adjoins: set riser_count and ascent_deg of the steps.");
  }
  if (area.height_m <= 0) choice.remarks.push_back("The height of the steps is not known: set it.");
  return choice;
}

}  // namespace duskwire::study
