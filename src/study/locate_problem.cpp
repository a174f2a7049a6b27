// SPDX-License-Identifier: Apache-2.0
#include "study/locate_problem.hpp"

#include <algorithm>
#include <cmath>

#include "diagnosis/loops.hpp"

namespace duskwire::study {
namespace {

using diagnosis::PlaceKind;
using diagnosis::Quantity;

std::uint32_t to_index(std::size_t value) { return static_cast<std::uint32_t>(value); }

// Minutes, common practice, no source: a splice in mulch 12, in lawn 30; a metre of cable laid bare at the pace of a
// slit trench; a spot without a record is searched for first.
constexpr double at_transformer_min = 2;
constexpr double at_lamp_min = 2;
constexpr double look_min = 1;  // at all lamps, from the path
constexpr double ladder_min = 20;
constexpr double search_min = 20;
constexpr double box_min = 4;  // a joint that is not in the ground

double hole_min(std::optional<job::GroundKind> ground) {
  if (!ground) return 30;
  switch (*ground) {
    case job::GroundKind::bed:
      return 12;
    case job::GroundKind::lawn:
      return 30;
    case job::GroundKind::gravel:
      return 25;
    case job::GroundKind::root_zone:
      return 45;
    case job::GroundKind::paving:
    case job::GroundKind::deck:
    case job::GroundKind::steps:
      return 120;
    case job::GroundKind::drive:
    case job::GroundKind::street:
    case job::GroundKind::building:
    case job::GroundKind::wall:
      return 240;
    case job::GroundKind::water:
    case job::GroundKind::pool:
    case job::GroundKind::forbidden:
      return 480;
  }
  return 30;
}

class Maker {
 public:
  explicit Maker(const Built& built) : built_(built), job_(*built.job), ground_(job_.plan) {}

  LocateProblem run() {
    diagnosis::FaultProblem& problem = to_.problem;
    problem.network = electrical::network_of(*built_.prepared);
    problem.nominal = built_.nominal;
    for (std::uint32_t node = 0; node < problem.network.node_count; ++node) {
      problem.output_of_node.push_back(built_.supply[node].output);
    }
    count_ends();
    outputs();
    nodes();
    spans();
    lamps();
    candidates();
    return std::move(to_);
  }

 private:
  std::uint32_t hole(const Site& site, double effort_min) {
    to_.sites.push_back(site);
    to_.problem.holes.push_back({effort_min});
    return to_index(to_.sites.size() - 1);
  }

  std::uint32_t place(PlaceKind kind, std::uint32_t index, std::uint32_t hole, bool at_to = false, double weight = 1) {
    to_.problem.places.push_back({kind, index, at_to, hole, weight, false});
    return to_index(to_.problem.places.size() - 1);
  }

  void count_ends() {
    cables_at_.assign(to_.problem.network.node_count, 0);
    for (std::size_t s = 0; s < built_.wires.size(); ++s) {
      if (built_.wires[s].is_lead) continue;
      ++cables_at_[to_.problem.network.segments[s].from];
      ++cables_at_[to_.problem.network.segments[s].to];
    }
  }

  void outputs() {
    diagnosis::FaultProblem& problem = to_.problem;
    for (std::uint32_t t = 0; t < job_.transformers.size(); ++t) {
      panel_.push_back(hole({{SpotKind::transformer, t, 0}, false, std::nullopt}, at_transformer_min));
    }
    for (std::uint32_t o = 0; o < built_.outputs.size(); ++o) {
      const OutputRef& ref = built_.outputs[o];
      const job::Transformer& transformer = job_.transformers[ref.transformer];
      problem.output_place.push_back(place(PlaceKind::output, o, panel_[ref.transformer]));
      problem.choices.emplace_back();
      if (const auto* item = job::find_transformer(job_.catalogue, transformer.item)) {
        problem.choices.back().other_tap_v = item->taps_v;
        std::erase(problem.choices.back().other_tap_v, problem.network.outputs[o].emf_v);
      }
    }
    for (std::uint32_t t = 0; t < job_.transformers.size(); ++t) {
      problem.transformer_place.push_back(place(PlaceKind::transformer, t, panel_[t]));
    }
    if (!panel_.empty()) problem.supply_place = place(PlaceKind::supply, 0, panel_.front());
  }

  // A joint, or the splices inside or beside a luminaire that cables end at.
  void nodes() {
    for (std::uint32_t node = 0; node < to_.problem.network.node_count; ++node) {
      const Spot spot = built_.spot_of_node(node);
      if (spot.kind == SpotKind::output) {
        node_hole_.push_back(panel_[spot.index]);
        continue;
      }
      Site site{spot, true, std::nullopt};
      bool recorded = false;
      if (spot.kind == SpotKind::joint) {
        const job::Joint& joint = job_.joints[spot.index];
        site.digging = joint.buried;
        if (joint.position) site.ground = ground_.at(*joint.position);
        recorded = joint.position || (joint.as_built && joint.as_built->offset_1_m);
      } else {
        const job::Luminaire& lamp = job_.luminaires[spot.index];
        if (lamp.position) site.ground = ground_.at({lamp.position->x_m, lamp.position->y_m});
        recorded = true;  // the lamp itself shows where
      }
      const double effort_min = site.digging ? hole_min(site.ground) + (recorded ? 0 : search_min) : box_min;
      node_hole_.push_back(hole(site, effort_min));
    }
  }

  Site cable_site(const Wire& wire) const {
    if (wire.is_lead) return {{SpotKind::luminaire, wire.index, 0}, true, std::nullopt};
    const job::Cable& cable = job_.cables[wire.index];
    Site site{{SpotKind::cable, wire.index, 0}, true, cable.ground};
    if (!site.ground && !cable.path.empty()) {
      double longest_m = -1;
      for (const job::GroundStretch& stretch : ground_.along(cable.path)) {
        if (stretch.length_m <= longest_m) continue;
        longest_m = stretch.length_m;
        site.ground = stretch.kind;
      }
    }
    return site;
  }

  void spans() {
    constexpr double share_of_metre = 0.25;  // of a hole's minutes for each metre laid bare
    diagnosis::FaultProblem& problem = to_.problem;
    for (std::uint32_t s = 0; s < problem.network.segments.size(); ++s) {
      const electrical::Segment& segment = problem.network.segments[s];
      const Wire& wire = built_.wires[s];
      const Site site = cable_site(wire);
      diagnosis::SpanPlaces span;
      span.is_lead = wire.is_lead || leads_from_joint_to_lamp(segment);
      span.output = problem.output_of_node[segment.from];
      if (span.output == none) span.output = problem.output_of_node[segment.to];
      const double bare_min = hole_min(site.ground) * (1 + share_of_metre * std::min(wire.length_m, 40.0));
      span.from_side = place(PlaceKind::joint_side, s, node_hole_[segment.from]);
      span.cable = place(PlaceKind::cable, s, hole(site, bare_min), false, wire.length_m > 0 ? 1 : 0);
      span.to_side = place(PlaceKind::joint_side, s, to_side_hole(segment.to, wire), true);
      problem.spans.push_back(span);
    }
  }

  // A cable from a joint to one lamp and no farther is that lamp's lead.
  bool leads_from_joint_to_lamp(const electrical::Segment& segment) const {
    const auto kind = [&](std::uint32_t node) { return built_.spot_of_node(node).kind; };
    const auto ends = [&](std::uint32_t lamp, std::uint32_t joint) {
      return kind(lamp) == SpotKind::luminaire && cables_at_[lamp] == 1 && kind(joint) == SpotKind::joint;
    };
    return ends(segment.to, segment.from) || ends(segment.from, segment.to);
  }

  // The end of a lead, and of a run at its last lamp, is in the lamp: no digging.
  std::uint32_t to_side_hole(std::uint32_t node, const Wire& wire) {
    const Spot spot = built_.spot_of_node(node);
    const bool in_lamp = spot.kind == SpotKind::luminaire && (wire.is_lead || cables_at_[node] < 2);
    return in_lamp ? hole({spot, false, std::nullopt}, lamp_min(spot.index)) : node_hole_[node];
  }

  double lamp_min(std::uint32_t i) const {
    constexpr double ladder_from_m = 3;
    const auto& position = job_.luminaires[i].position;
    return position && position->z_m > ladder_from_m ? ladder_min : at_lamp_min;
  }

  void lamps() {
    for (std::uint32_t i = 0; i < job_.luminaires.size(); ++i) {
      const std::uint32_t at = hole({{SpotKind::luminaire, i, 0}, false, std::nullopt}, lamp_min(i));
      to_.problem.lamp_place.push_back(place(PlaceKind::lamp, i, at));
    }
  }

  void offer(const diagnosis::Probe& probe, double expected, double effort_min, std::uint32_t lamp = none) {
    to_.problem.candidates.push_back({probe, sigma_of({}, probe.quantity, expected), effort_min, lamp});
  }

  void candidates() {
    constexpr double usual_v = 12;
    constexpr double usual_a = 3;
    const diagnosis::FaultProblem& problem = to_.problem;
    if (!job_.luminaires.empty()) offer({Quantity::lamps_seen, 0}, 0, look_min);
    if (!panel_.empty()) offer({Quantity::mains_v, 0}, 1, at_transformer_min);
    for (std::uint32_t o = 0; o < problem.network.outputs.size(); ++o) {
      offer({Quantity::output_v, o}, usual_v, at_transformer_min);
      offer({Quantity::output_a, o}, usual_a, at_transformer_min);
      offer({Quantity::loop_ohm, problem.network.outputs[o].node}, 1, 5 * at_transformer_min);
      offer({Quantity::breaker, o}, 0, at_transformer_min);
    }
    for (std::uint32_t node = 0; node < problem.network.node_count; ++node) {
      const Spot spot = built_.spot_of_node(node);
      if (spot.kind == SpotKind::output || problem.output_of_node[node] == none) continue;
      const bool lamp = spot.kind == SpotKind::luminaire;
      const double effort_min = lamp ? lamp_min(spot.index) : problem.holes[node_hole_[node]].effort_min;
      offer({Quantity::node_v, node}, usual_v, effort_min, lamp ? spot.index : none);
      if (lamp) offer({Quantity::loop_ohm, node}, 1, 2 * effort_min);
    }
    const std::vector<bool> on_loop = diagnosis::segments_on_loops(problem.network);
    for (std::uint32_t s = 0; s < problem.network.segments.size(); ++s) cable_candidates(s, on_loop[s]);
  }

  void cable_candidates(std::uint32_t s, bool on_loop) {
    constexpr double usual_a = 3;
    const electrical::Segment& segment = to_.problem.network.segments[s];
    for (const bool at_to : {false, true}) {
      const std::uint32_t node = at_to ? segment.to : segment.from;
      if (built_.spot_of_node(node).kind == SpotKind::output) {
        offer({Quantity::cable_a, s}, usual_a, at_transformer_min);
        if (on_loop) offer({Quantity::cable_a, s, false, true}, usual_a, at_transformer_min);
        if (on_loop) offer({Quantity::cable_net_a, s}, usual_a, at_transformer_min);
      } else if (!built_.wires[s].is_lead || !at_to) {
        offer({Quantity::cable_end_v, s, at_to}, 12, to_.problem.holes[node_hole_[node]].effort_min);
      }
    }
  }

  const Built& built_;
  const job::Job& job_;
  job::PlanGround ground_;
  LocateProblem to_;
  std::vector<std::uint32_t> cables_at_;
  std::vector<std::uint32_t> panel_;
  std::vector<std::uint32_t> node_hole_;
};

}  // namespace

LocateProblem locate_problem(const Built& built) { return Maker(built).run(); }

std::string id_of_node(const Built& built, std::uint32_t node) { return id_of(*built.job, built.spot_of_node(node)); }

std::string id_of_segment(const Built& built, std::uint32_t segment) {
  const Wire& wire = built.wires[segment];
  return wire.is_lead ? built.job->luminaires[wire.index].id : built.job->cables[wire.index].id;
}

// Two digits of the last place beside the share.
double sigma_of(const Meter& meter, diagnosis::Quantity quantity, double value) {
  switch (quantity) {
    case Quantity::node_v:
    case Quantity::cable_end_v:
    case Quantity::output_v:
    case Quantity::open_output_v:
      return std::hypot(meter.volts_share * value / 2, 0.01);
    case Quantity::mains_v:
      return std::hypot(meter.volts_share, 0.002);
    case Quantity::output_a:
    case Quantity::cable_a:
    case Quantity::cable_net_a:
      return std::hypot(meter.clamp_share * value / 2, 0.01);
    case Quantity::input_va:
      return std::hypot(2 * meter.clamp_share * value, 2.0);
    case Quantity::loop_ohm:
      return std::hypot(0.02 * value, 0.03);
    case Quantity::lamp_state:
    case Quantity::breaker:
    case Quantity::lamps_seen:
      return 0;
  }
  return 0;
}

}  // namespace duskwire::study
