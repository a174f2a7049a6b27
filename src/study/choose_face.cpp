// SPDX-License-Identifier: Apache-2.0
// A face of a building or garden wall, washed from the ground before it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "geometry/polygon.hpp"
#include "study/choose_parts.hpp"
#include "study/lit_scene.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;
using geometry::Point3;

constexpr double used_share = 0.5;      // of a wash's light that meets the wall (estimate)
constexpr double usual_facade_lx = 30;  // where the set in force is silent: handbook, dark surround
constexpr double narrow = 0.75;         // beam over what spans the height
constexpr double enough = 0.7;          // of the light asked for
constexpr double too_much = 2.5;

struct Face {
  std::string id;
  Point2 from;
  Point2 to;
  Point2 out;
  double length_m = 0;
  double height_m = 0;
  LitPlace place = LitPlace::facade;
};

std::vector<ChosenLamp> places(const job::Job& job, const Face& face, const light::WallNeed& need,
                               const job::LuminaireItem& item) {
  const double rise_m = face.height_m - item.mounting_height_m;
  const double tilt = light::wash_tilt_deg(rise_m, need.setback_m, item.beam_deg);
  std::vector<ChosenLamp> lamps;
  for (std::uint32_t i = 0; i < need.count; ++i) {
    const double share = (i + 0.5) / need.count;
    const Point3 at{face.from.x_m + share * (face.to.x_m - face.from.x_m) + need.setback_m * face.out.x_m,
                    face.from.y_m + share * (face.to.y_m - face.from.y_m) + need.setback_m * face.out.y_m,
                    item.mounting_height_m};
    const Aim aim = aim_of(job.plan, {-face.out.x_m, -face.out.y_m, 0});
    lamps.push_back({item.id, at, aim.azimuth_deg, tilt});
  }
  return lamps;
}

ChoiceOption option(const ChooseContext& context, const Face& face, const light::WallNeed& need, double asked_lx,
                    const job::LuminaireItem& item) {
  ChoiceOption out = option_of(item, need.count);
  out.lamps = places(context.job, face, need, item);
  const LuxFigures lit = light_of(context, out, face.id);
  out.average_lx = lit.average_lx;
  out.minimum_lx = lit.minimum_lx;
  if (item.beam_deg < narrow * need.beam_deg) {
    out.warnings.push_back(fmt::format("{:g}° beam where {:.0f}° span the height", item.beam_deg, need.beam_deg));
  }
  if (lit.average_lx < enough * asked_lx) {
    out.warnings.push_back(fmt::format("{:.0f} lx on average where {:g} are asked", lit.average_lx, asked_lx));
  }
  if (lit.average_lx > too_much * asked_lx) {
    out.warnings.push_back(fmt::format("{:.0f} lx on average: too bright beside {:g}", lit.average_lx, asked_lx));
  }
  out.fits = out.warnings.empty();
  out.reason = fmt::format("{} × {:g}°, {} off the wall, {} apart: {:.0f} lx on average, {:.1f} at the darkest.",
                           need.count, item.beam_deg, span_words(context, need.setback_m, 1),
                           span_words(context, need.spacing_m, 1), lit.average_lx, lit.minimum_lx);
  return out;
}

}  // namespace

Choice choose_for_face(const ChooseContext& context, const job::Area& area, std::size_t edge) {
  Face face;
  face.id = fmt::format("{}/{}", area.id, edge);
  face.from = area.outline[edge];
  face.to = area.outline[(edge + 1) % area.outline.size()];
  face.out = outward(area.outline, edge);
  face.length_m = geometry::distance_m(face.from, face.to);
  face.height_m = solid_height_m(area);
  face.place = area.kind == job::GroundKind::building ? LitPlace::facade : LitPlace::background;
  const double asked_lx = asked_average_lx(context, face.place).value_or(usual_facade_lx);
  const light::WallNeed need = light::wall_need(face.length_m, face.height_m, context.request.setback_m);

  Choice choice;
  choice.place = face.place;
  choice.target = face.id;
  choice.need.setback_m = need.setback_m;
  choice.need.spacing_m = need.spacing_m;
  choice.need.count = need.count;
  choice.need.beam_deg = need.beam_deg;
  choice.need.flux_lm = asked_lx * face.length_m * face.height_m / used_share;
  choice.need.average_lx = asked_lx;
  // Of each beam the wattage whose lumens come nearest, and its neighbours: the light itself is computed.
  std::map<double, std::vector<const job::LuminaireItem*>> by_beam;
  for (const job::LuminaireItem* item : candidates(context, {job::LuminaireKind::wall_wash})) {
    by_beam[item->beam_deg].push_back(item);
  }
  const auto miss = [&](const job::LuminaireItem* item) {
    return std::abs(std::log(item->flux_lm * need.count / *choice.need.flux_lm));
  };
  for (auto& [beam_deg, items] : by_beam) {
    std::sort(items.begin(), items.end(), [&](const auto* p, const auto* q) { return miss(p) < miss(q); });
    for (std::size_t i = 0; i < std::min<std::size_t>(items.size(), 2); ++i) {
      choice.options.push_back(option(context, face, need, asked_lx, *items[i]));
    }
  }
  put_best_first(choice.options);
  const bool found = !choice.options.empty() && choice.options.front().fits;
  choice.sentence =
      fmt::format("{} lamps {} off the wall and {} apart, {:.0f}° to span {}: {}.", need.count,
                  span_words(context, need.setback_m, 1), span_words(context, need.spacing_m, 1), need.beam_deg,
                  span_words(context, face.height_m, 1),
                  found ? "take " + choice.options.front().title : "nothing in the catalogue fits as it is");
  if (need.setback_m <= light::graze_m) {
    choice.remarks.push_back("So near the wall the light grazes: it shows the relief, and every unevenness.");
  }
  return choice;
}

}  // namespace duskwire::study
