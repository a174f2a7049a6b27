// SPDX-License-Identifier: Apache-2.0
// A tree lit from the ground: as many lamps side by side as it takes to span its crown, by beam.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

#include "study/choose_parts.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;
using geometry::Point3;

constexpr double too_bright = 1.6;  // times what serves
constexpr double too_faint = 0.7;
constexpr double too_wide = 1.5;  // spots' width over the crown's

struct Plan {
  const job::Tree& tree;
  light::CrownNeed need;
  double setback_m = 0;
  double flux_lm = 0;  // that serves
  std::uint32_t most = 0;
};

// Spread about the side that is looked at: a single lamp a little aside, since light from the eye's own side is flat.
std::vector<ChosenLamp> places(const job::Job& job, const Plan& plan, const job::LuminaireItem& item,
                               std::uint32_t count) {
  const Point2 to_eye = way_to_eye(job, plan.tree.position);
  const double facing = std::atan2(to_eye.y_m, to_eye.x_m);
  const double step = std::min(100.0, 300.0 / count) * std::numbers::pi / 180;
  const Point3 middle{plan.tree.position.x_m, plan.tree.position.y_m,
                      (plan.tree.crown_base_m + plan.tree.height_m) / 2};
  std::vector<ChosenLamp> lamps;
  for (std::uint32_t i = 0; i < count; ++i) {
    const double aside = count == 1 ? std::numbers::pi / 9 : step * (i - (count - 1) / 2.0);
    const Point3 at{plan.tree.position.x_m + plan.setback_m * std::cos(facing + aside),
                    plan.tree.position.y_m + plan.setback_m * std::sin(facing + aside), item.mounting_height_m};
    lamps.push_back(aimed_lamp(job, item.id, at, middle));
  }
  return lamps;
}

ChoiceOption option(const ChooseContext& context, const Plan& plan, const job::LuminaireItem& item) {
  const double spot = light::spot_m(item.beam_deg, plan.need.distance_m);
  const double crown_m = plan.tree.crown_width_m;
  const std::uint32_t wanted = light::lamps_across(crown_m, spot);
  const std::uint32_t count = std::clamp(wanted, 1u, plan.most);
  ChoiceOption out = option_of(item, count);
  out.spot_m = spot;
  const bool spans = wanted >= 1 && wanted <= plan.most;
  if (!spans)
    out.warnings.push_back(
        fmt::format("{} spot on a {} crown", span_words(context, spot), span_words(context, crown_m)));
  if (count == 1 && spot > too_wide * crown_m) {
    out.warnings.push_back(
        fmt::format("{} spot spills past a {} crown", span_words(context, spot), span_words(context, crown_m)));
  }
  if (out.flux_lm > too_bright * plan.flux_lm) {
    out.warnings.push_back(fmt::format("{:.0f} lm where about {:.0f} serve", out.flux_lm, plan.flux_lm));
  }
  if (out.flux_lm < too_faint * plan.flux_lm) {
    out.warnings.push_back(fmt::format("{:.0f} lm where about {:.0f} are wanted", out.flux_lm, plan.flux_lm));
  }
  out.fits = out.warnings.empty();
  out.lamps = places(context.job, plan, item, count);
  const LuxFigures lit = light_of(context, out, plan.tree.id);
  out.average_lx = lit.average_lx;
  out.minimum_lx = lit.minimum_lx;
  out.reason = fmt::format("{} × {:g}°: {} spot{} at {} for a {} crown, {:.0f} lm where about {:.0f} serve.", count,
                           item.beam_deg, span_words(context, spot), count > 1 ? " each" : "",
                           span_words(context, plan.need.distance_m, 1), span_words(context, crown_m), out.flux_lm,
                           plan.flux_lm);
  return out;
}

// Of each kind and beam the one whose lumens come nearest: the rest of a row of wattages only fills a list.
std::vector<ChoiceOption> options(const ChooseContext& context, const Plan& plan) {
  using Kind = job::LuminaireKind;
  std::map<std::pair<Kind, double>, const job::LuminaireItem*> best;
  const auto miss = [&](const job::LuminaireItem& item) {
    const std::uint32_t wanted =
        light::lamps_across(plan.tree.crown_width_m, light::spot_m(item.beam_deg, plan.need.distance_m));
    const double flux_lm = item.flux_lm * std::clamp(wanted, 1u, plan.most);
    return std::abs(std::log(std::max(flux_lm, 1.0) / plan.flux_lm));
  };
  for (const job::LuminaireItem* item : candidates(context, {Kind::bullet, Kind::well})) {
    if (item->beam_deg <= 0 || item->beam_deg >= 180) continue;
    const job::LuminaireItem*& held = best[{item->kind, item->beam_deg}];
    if (held == nullptr || miss(*item) < miss(*held)) held = item;
  }
  std::vector<ChoiceOption> out;
  for (const auto& [key, item] : best) out.push_back(option(context, plan, *item));
  put_best_first(out);
  return out;
}

// The fitting ways, each beam once: "1 × 60° or 2 × 36°".
std::string offers(const std::vector<ChoiceOption>& options) {
  std::vector<std::string> words;
  for (const ChoiceOption& option : options) {
    const std::string word = fmt::format("{} × {:g}°", option.count, option.beam_deg);
    if (option.fits && std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
  }
  return fmt::format("{}", fmt::join(words, " or "));
}

}  // namespace

Choice choose_for_tree(const ChooseContext& context, const job::Tree& tree) {
  Plan plan{tree, {}, 0, 0, light::most_lamps_of_tree(tree.height_m)};
  plan.setback_m =
      context.request.setback_m.value_or(light::tree_setback_m(tree.crown_width_m, tree.crown_transmittance));
  plan.need = light::crown_need({tree.crown_width_m, tree.crown_base_m, tree.height_m}, plan.setback_m);
  plan.flux_lm = light::tree_flux_lm(tree.height_m);
  Choice choice;
  choice.place = LitPlace::tree;
  choice.target = tree.id;
  choice.need.setback_m = plan.setback_m;
  choice.need.distance_m = plan.need.distance_m;
  choice.need.beam_deg = plan.need.beam_deg;
  choice.need.tilt_deg = plan.need.tilt_deg;
  choice.need.flux_lm = plan.flux_lm;
  choice.need.average_lx = asked_average_lx(context, LitPlace::tree);
  choice.options = options(context, plan);
  const std::string found = offers(choice.options);
  choice.sentence =
      fmt::format("From {} beside the trunk the crown spans {:.0f}° at {}, aim {:.1f}° up: {}.",
                  span_words(context, plan.setback_m), plan.need.beam_deg, span_words(context, plan.need.distance_m, 1),
                  plan.need.tilt_deg, found.empty() ? "nothing in the catalogue fits" : "take " + found);
  if (tree.crown_base_m > 1) {
    choice.remarks.push_back(
        "A crown that is lit while its trunk is dark seems to float: let some light graze the trunk.");
  }
  return choice;
}

}  // namespace duskwire::study
