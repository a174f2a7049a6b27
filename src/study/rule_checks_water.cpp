// SPDX-License-Identifier: Apache-2.0
// Rule checks of the distance to pools, spas, fountains and, where a rule says so, ponds.
#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "geometry/polygon.hpp"
#include "study/ground.hpp"
#include "study/rule_checks.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

struct NearWater {
  const job::Area* area = nullptr;
  double distance_m = 0;
  double limit_m = 0;
};

// The waters that a rule speaks of.
class Waters {
 public:
  Waters(const job::Plan& plan, const std::map<std::string, double>& distances_m) {
    for (const job::Area& area : plan.areas) {
      if (area.kind != job::GroundKind::pool && area.kind != job::GroundKind::water) continue;
      const auto found = distances_m.find(std::string(ground_key(area.kind)));
      if (found != distances_m.end()) waters_.push_back({&area, 0, found->second});
    }
  }
  [[nodiscard]] bool empty() const { return waters_.empty(); }

  // The water that a point or route comes too near to, the worst of them.
  template <class Shape>
  [[nodiscard]] std::optional<NearWater> too_near(const Shape& shape) const {
    std::optional<NearWater> worst;
    for (NearWater water : waters_) {
      water.distance_m = geometry::distance_m(water.area->outline, shape);
      if (!exceeds(water.limit_m, water.distance_m)) continue;
      if (!worst || water.limit_m - water.distance_m > worst->limit_m - worst->distance_m) worst = water;
    }
    return worst;
  }

 private:
  std::vector<NearWater> waters_;
};

geometry::Point2 on_plan(geometry::Point3 point) { return {point.x_m, point.y_m}; }

std::string sentence(const RuleContext& context, const std::string& what, const NearWater& near) {
  const WordedPair lengths = worded_apart(near.distance_m, near.limit_m, distance_unit(context.units()));
  const std::string water = called(near.area->id, near.area->name);
  const std::string where = near.distance_m > 0 ? fmt::format("{} from the edge of {}", lengths.measured, water)
                                                : fmt::format("inside {}", water);
  return fmt::format("{} is {}; {} is the least distance.", what, where, lengths.limit);
}

bool has_equipment(const job::Job& job) {
  return !job.luminaires.empty() || !job.cables.empty() || !job.joints.empty() || !job.transformers.empty();
}

// The note for a plan on which no water could be found, since nothing is drawn; empty where something is.
Findings nothing_drawn(const RuleContext& context, const Rule& rule) {
  if (!context.job.plan.areas.empty() || !has_equipment(context.job)) return {};
  return {not_judged(context, rule, "/plan",
                     "The plan has no areas drawn: distances to pools and other water could not be judged.")};
}

class WaterCheck {
 public:
  WaterCheck(const RuleContext& context, const Rule& rule)
      : context_(context), rule_(rule), waters_(context.job.plan, table(rule, "distance_m")) {}

  Findings run() {
    if (waters_.empty()) return nothing_drawn(context_, rule_);
    luminaires();
    cables();
    joints();
    if (!unplaced_.empty()) {
      findings_.push_back(
          not_judged(context_, rule_, "/plan",
                     fmt::format("The distance to water could not be judged for {} without a place on the plan: {}.",
                                 counted(unplaced_.size(), "object"), listed(unplaced_))));
    }
    return std::move(findings_);
  }

 private:
  void add(Place place, const NearWater& near, std::string message) {
    findings_.push_back(
        finding_of(context_, rule_, std::move(place), {near.distance_m, near.limit_m, "m"}, std::move(message)));
  }

  // Why an output may not feed equipment near a pool; empty where it may.
  std::string supply_flaw(const std::string& output_id) const {
    const OutputPlace* place = context_.output(output_id);
    if (!place || !place->item) return "its supply is not known";
    if (!place->item->pool_listed) return fmt::format("transformer {} is not", place->transformer->id);
    const double contact_limit_v = value(rule_, "contact_limit_v");
    if (!exceeds(place->output->tap_v, contact_limit_v)) return "";
    return fmt::format("its tap gives {}, more than {}", worded(place->output->tap_v, volt_unit),
                       worded(contact_limit_v, volt_unit));
  }

  // Why a luminaire may not be that near; empty where it may.
  std::string luminaire_flaw(const job::Luminaire& luminaire, const NearWater& near) const {
    const job::LuminaireItem* item = job::find_luminaire(context_.job.catalogue, luminaire.item);
    if (!item || !item->underwater_listed) return "Nearer only what is listed for it.";
    if (near.area->kind != job::GroundKind::pool) return "";
    const auto report = context_.lamp_reports.find(luminaire.id);
    const std::string flaw =
        supply_flaw(report == context_.lamp_reports.end() ? std::string() : report->second->output);
    return flaw.empty() ? "" : fmt::format("It is listed for water, but {}.", flaw);
  }

  void luminaires() {
    for (std::size_t l = 0; l < context_.job.luminaires.size(); ++l) {
      const job::Luminaire& luminaire = context_.job.luminaires[l];
      if (!luminaire.position) {
        unplaced_.push_back(luminaire.id);
        continue;
      }
      const std::optional<NearWater> near = waters_.too_near(on_plan(*luminaire.position));
      const std::string flaw = near ? luminaire_flaw(luminaire, *near) : "";
      if (flaw.empty()) continue;
      add(place_of("luminaires", l, luminaire.id), *near,
          sentence(context_, "Luminaire " + called(luminaire.id, luminaire.name), *near) + " " + flaw);
    }
  }

  bool feeds_listed_luminaire(const job::Cable& cable) const {
    for (const std::string& end : {cable.from, cable.to}) {
      const estimate::EndPlace place = context_.ends.find(end);
      if (place.kind != estimate::EndKind::luminaire) continue;
      const job::LuminaireItem* item =
          job::find_luminaire(context_.job.catalogue, context_.job.luminaires[place.index].item);
      if (item && item->underwater_listed) return true;
    }
    return false;
  }

  // Near a pool a cable may lie in a sleeve on a supply listed for it, in a pond also as the feed of a listed light.
  bool cable_may(const job::Cable& cable, const NearWater& near) const {
    const bool sleeved = !cable.sleeve.empty();
    if (near.area->kind != job::GroundKind::pool) return sleeved || feeds_listed_luminaire(cable);
    const auto report = context_.cable_reports.find(cable.id);
    return sleeved && report != context_.cable_reports.end() && supply_flaw(report->second->output).empty();
  }

  void cables() {
    for (std::size_t c = 0; c < context_.job.cables.size(); ++c) {
      const job::Cable& cable = context_.job.cables[c];
      if (cable.path.size() < 2) {
        unplaced_.push_back(cable.id);
        continue;
      }
      const std::optional<NearWater> near = waters_.too_near(cable.path);
      if (!near || cable_may(cable, *near)) continue;
      add(place_of("cables", c, cable.id), *near, sentence(context_, "Cable " + cable.id, *near) + " Lead it round.");
    }
  }

  void joints() {
    for (std::size_t j = 0; j < context_.job.joints.size(); ++j) {
      const job::Joint& joint = context_.job.joints[j];
      if (!joint.position) {
        unplaced_.push_back(joint.id);
        continue;
      }
      const std::optional<NearWater> near = waters_.too_near(*joint.position);
      if (!near) continue;
      add(place_of("joints", j, joint.id), *near,
          sentence(context_, "Joint " + called(joint.id, joint.name), *near) + " No splice belongs there.");
    }
  }

  const RuleContext& context_;
  const Rule& rule_;
  Waters waters_;
  Findings findings_;
  std::vector<std::string> unplaced_;
};

}  // namespace

Findings check_water_distance(const RuleContext& context, const Rule& rule) { return WaterCheck(context, rule).run(); }

Findings check_transformer_water(const RuleContext& context, const Rule& rule) {
  const Waters waters(context.job.plan, table(rule, "distance_m"));
  if (waters.empty()) return nothing_drawn(context, rule);
  Findings findings;
  std::vector<std::string> unplaced;
  for (std::size_t t = 0; t < context.job.transformers.size(); ++t) {
    const job::Transformer& transformer = context.job.transformers[t];
    if (transformer.mounting == job::Mounting::indoors) continue;
    if (!transformer.position) {
      unplaced.push_back(transformer.id);
      continue;
    }
    const std::optional<NearWater> near = waters.too_near(*transformer.position);
    if (!near) continue;
    findings.push_back(finding_of(context, rule, place_of("transformers", t, transformer.id),
                                  {near->distance_m, near->limit_m, "m"},
                                  sentence(context, "Transformer " + called(transformer.id, transformer.name), *near)));
  }
  if (!unplaced.empty()) {
    findings.push_back(not_judged(context, rule, "/transformers",
                                  fmt::format("The distance to water could not be judged for {} without a position: "
                                              "{}.",
                                              counted(unplaced.size(), "transformer"), listed(unplaced))));
  }
  return findings;
}

}  // namespace duskwire::study
