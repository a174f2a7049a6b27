// SPDX-License-Identifier: Apache-2.0
#include "study/route_job.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <unordered_set>

#include "estimate/joint_wires.hpp"
#include "study/route_depth.hpp"
#include "study/route_ids.hpp"
#include "study/route_ways.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;
using wiring::none;
using wiring::PlanAnswer;
using wiring::PlanCable;

// Rises below that are the last stretch beside the way, which the plan shows.
constexpr double on_the_ground_m = 1.0;

template <class Item>
void keep_item(std::vector<Item>& own, const Item& item) {
  const bool there = std::any_of(own.begin(), own.end(), [&](const Item& known) { return known.id == item.id; });
  if (!there) own.push_back(item);
}

class JobBuilder {
 public:
  JobBuilder(const job::Job& job, const Ruleset& ruleset, const RouteGoods& goods, const RouteProblem& asked,
             const PlanAnswer& answer)
      : before_(job), goods_(goods), asked_(asked), answer_(answer), depths_(ruleset), ids_(job) {}

  RoutedJob run() {
    out_.job = before_;
    out_.job.transformers.clear();
    out_.job.cables.clear();
    out_.job.joints.clear();
    for (job::Luminaire& luminaire : out_.job.luminaires) luminaire.joint.clear();
    add_transformers();
    out_.cable_ids.resize(answer_.cables.size());
    end_ids_.resize(answer_.cables.size());
    name_kept();
    for (std::uint32_t c = 0; c < answer_.cables.size(); ++c) add_end(c);
    RouteWays ways(before_, asked_, out_.job.plan, out_.sleeves_to_lay);
    for (std::uint32_t c = 0; c < answer_.cables.size(); ++c) add_cable(c, ways);
    choose_connectors();
    return std::move(out_);
  }

 private:
  [[nodiscard]] const job::TransformerItem& item_of(std::uint32_t unit) const {
    return *goods_.transformers[answer_.units[unit].type];
  }

  // The first unit at a place is the transformer that hangs there today.
  void add_transformers() {
    output_ids_.resize(answer_.outputs.size());
    name_kept_outputs();
    for (std::uint32_t u = 0; u < answer_.units.size(); ++u) {
      const RoutePlace& place = asked_.places[answer_.units[u].place];
      const bool first = u == 0 || answer_.units[u - 1].place != answer_.units[u].place;
      job::Transformer transformer;
      if (place.transformer != none) transformer = before_.transformers[place.transformer];
      if (place.transformer == none || !first) {
        const std::string was = transformer.id;
        transformer.id = ids_.transformer();
        transformer.name = was.empty() ? "" : fmt::format("Beside {}", was);
        transformer.outputs.clear();
        const Point2 at = asked_.problem.ground.nodes[asked_.problem.places[answer_.units[u].place].node].at;
        if (!transformer.position) transformer.position = at;
      }
      if (place.receptacle != none) {
        transformer.receptacle = before_.plan.receptacles[place.receptacle].id;
        if (const job::ControlItem* clock = goods_.usual_clock()) {
          transformer.controls = {clock->id};
          keep_item(out_.job.catalogue.controls, *clock);
        }
        transformer.mounting_height_m = 0.5;
      }
      const job::TransformerItem& item = item_of(u);
      transformer.item = item.id;
      keep_item(out_.job.catalogue.transformers, item);
      set_outputs(u, item, transformer);
      out_.job.transformers.push_back(std::move(transformer));
    }
  }

  void name_kept_outputs() {
    for (const PlanCable& cable : answer_.cables) {
      if (cable.kept_id == none || cable.from != none) continue;
      const job::Cable& kept = before_.cables[asked_.kept_cables[cable.kept_id]];
      output_ids_[cable.output] = asked_.kept_reversed[cable.kept_id] ? kept.to : kept.from;
    }
  }

  void set_outputs(std::uint32_t unit, const job::TransformerItem& item, job::Transformer& transformer) {
    std::vector<job::Output> had = std::move(transformer.outputs);
    transformer.outputs.clear();
    const auto taken = [&](const std::string& id) {
      return std::find(output_ids_.begin(), output_ids_.end(), id) != output_ids_.end();
    };
    for (std::uint32_t o = 0; o < answer_.outputs.size(); ++o) {
      if (answer_.outputs[o].unit != unit) continue;
      if (output_ids_[o].empty()) {
        const auto free = std::find_if(had.begin(), had.end(), [&](const job::Output& old) { return !taken(old.id); });
        output_ids_[o] = free != had.end() ? free->id : ids_.output(transformer.id);
      }
      const auto old =
          std::find_if(had.begin(), had.end(), [&](const job::Output& known) { return known.id == output_ids_[o]; });
      job::Output output = old != had.end() ? *old : job::Output{};
      output.id = output_ids_[o];
      output.tap_v = answer_.outputs[o].tap_v;
      output.limit_a =
          answer_.outputs[o].device_a < item.output_limit_a ? std::optional(answer_.outputs[o].device_a) : std::nullopt;
      transformer.outputs.push_back(std::move(output));
    }
    // Outputs that stay unused keep their names as long as the unit has so many.
    for (job::Output& old : had) {
      const bool used = std::any_of(transformer.outputs.begin(), transformer.outputs.end(),
                                    [&](const job::Output& output) { return output.id == old.id; });
      if (used || taken(old.id) || transformer.outputs.size() >= item.output_count) continue;
      old.tap_v = item.taps_v.front();
      old.limit_a.reset();
      transformer.outputs.push_back(std::move(old));
    }
  }

  void name_kept() {
    for (std::uint32_t c = 0; c < answer_.cables.size(); ++c) {
      const std::uint32_t kept_id = answer_.cables[c].kept_id;
      if (kept_id == none) continue;
      const job::Cable& kept = before_.cables[asked_.kept_cables[kept_id]];
      const bool reversed = asked_.kept_reversed[kept_id];
      end_ids_[c] = reversed ? kept.from : kept.to;
      const std::uint32_t from = answer_.cables[c].from;
      if (from != none) end_ids_[from] = reversed ? kept.to : kept.from;
    }
  }

  // The joint at the end of a cable, or the lamp in which it ends.
  void add_end(std::uint32_t c) {
    const PlanCable& cable = answer_.cables[c];
    if (cable.ends_in_lamp) {
      end_ids_[c] = out_.job.luminaires[asked_.luminaires[cable.lamps.front()]].id;
      return;
    }
    job::Joint joint;
    const auto was = std::find_if(before_.joints.begin(), before_.joints.end(),
                                  [&](const job::Joint& old) { return old.id == end_ids_[c]; });
    if (was != before_.joints.end()) {
      joint = *was;
    } else {
      joint.id = ids_.joint();
      joint.position = asked_.problem.ground.nodes[cable.nodes.back()].at;
    }
    end_ids_[c] = joint.id;
    for (const std::uint32_t lamp : cable.lamps) out_.job.luminaires[asked_.luminaires[lamp]].joint = joint.id;
    out_.job.joints.push_back(std::move(joint));
  }

  void add_cable(std::uint32_t c, RouteWays& ways) {
    const PlanCable& plan = answer_.cables[c];
    if (plan.kept_id != none) {
      out_.job.cables.push_back(before_.cables[asked_.kept_cables[plan.kept_id]]);
      out_.cable_ids[c] = out_.job.cables.back().id;
      return;
    }
    const job::CableItem& item = *goods_.cables[plan.type];
    keep_item(out_.job.catalogue.cables, item);
    job::Cable cable;
    cable.id = ids_.cable(output_ids_[plan.output]);
    cable.item = item.id;
    cable.from = plan.from == none ? output_ids_[plan.output] : end_ids_[plan.from];
    cable.to = end_ids_[c];
    const RouteWays::Drawn drawn = ways.draw(plan);
    cable.path = drawn.path;
    cable.sleeve = drawn.sleeve;
    if (plan.ends_in_lamp) reach_lamp(plan.lamps.front(), drawn.length_m, cable);
    cable.depth_m = depths_.cover_for(cable, out_.job.plan);
    out_.cable_ids[c] = cable.id;
    out_.job.cables.push_back(std::move(cable));
  }

  // The last stretch to a lamp beside the way, and up the tree or wall.
  void reach_lamp(std::uint32_t lamp, double way_m, job::Cable& cable) const {
    const geometry::Point3 at = *before_.luminaires[asked_.luminaires[lamp]].position;
    constexpr double apart_m = 0.01;
    if (geometry::distance_m(cable.path.back(), {at.x_m, at.y_m}) > apart_m) cable.path.push_back({at.x_m, at.y_m});
    const double rise_m = asked_.problem.lamps[lamp].rise_m;
    if (rise_m > on_the_ground_m) cable.length_m = way_m + rise_m;
  }

  void choose_connectors() {
    const auto wires = estimate::all_joint_wires(out_.job);
    for (std::size_t j = 0; j < out_.job.joints.size(); ++j) {
      job::Joint& joint = out_.job.joints[j];
      if (const auto kind = estimate::joint_kind(wires[j])) joint.kind = *kind;
      const auto choice = goods_.connector_for(wires[j]);
      const job::ConnectorItem* present = job::find_connector(out_.job.catalogue, joint.connector);
      if (present && present->sealed && present->mechanically_held) {
        const auto fit = estimate::connector_fit(*present, wires[j]);
        if (fit && fit->pieces_per_conductor == 1) continue;
      }
      joint.connector = choice ? choice->item->id : "";
      joint.connector_count.reset();
      if (choice) keep_item(out_.job.catalogue.connectors, *choice->item);
    }
  }

  const job::Job& before_;
  const RouteGoods& goods_;
  const RouteProblem& asked_;
  const PlanAnswer& answer_;
  RouteDepths depths_;
  RouteIds ids_;
  RoutedJob out_;
  std::vector<std::string> output_ids_;  // by output of the answer
  std::vector<std::string> end_ids_;     // by cable of the answer
};

}  // namespace

RoutedJob routed_job(const job::Job& job, const Ruleset& ruleset, const RouteGoods& goods, const RouteProblem& asked,
                     const PlanAnswer& answer) {
  return JobBuilder(job, ruleset, goods, asked, answer).run();
}

}  // namespace duskwire::study
