// SPDX-License-Identifier: Apache-2.0
#include "faulty/problem_of.hpp"

#include <algorithm>
#include <stdexcept>

namespace duskwire::faulty {
namespace {

using diagnosis::FaultProblem;
using diagnosis::PlaceKind;
using diagnosis::Quantity;

std::uint32_t to_index(std::size_t value) { return static_cast<std::uint32_t>(value); }

// Outputs by node, spread along the cables.
std::vector<std::uint32_t> output_of_node(const electrical::Network& network) {
  std::vector<std::uint32_t> output(network.node_count, diagnosis::none);
  for (std::uint32_t o = 0; o < network.outputs.size(); ++o) output[network.outputs[o].node] = o;
  for (bool moved = true; moved;) {
    moved = false;
    for (const electrical::Segment& segment : network.segments) {
      for (const auto& [here, there] : {std::pair{segment.from, segment.to}, std::pair{segment.to, segment.from}}) {
        if (output[here] == diagnosis::none || output[there] != diagnosis::none) continue;
        output[there] = output[here];
        moved = true;
      }
    }
  }
  return output;
}

class Maker {
 public:
  Maker(electrical::Network network, const Efforts& efforts, const std::vector<bool>& leads) : efforts_(efforts) {
    problem_.network = std::move(network);
    output_at_ = std::vector<bool>(problem_.network.node_count, false);
    for (const electrical::Output& output : problem_.network.outputs) output_at_[output.node] = true;
    leads_ = leads;
    leads_.resize(problem_.network.segments.size(), false);
  }

  FaultProblem run() {
    panel_hole_ = hole(efforts_.transformer_min);
    for (std::uint32_t node = 0; node < problem_.network.node_count; ++node) {
      node_hole_.push_back(output_at_[node] ? panel_hole_ : hole(efforts_.joint_min));
    }
    spans();
    lamps();
    for (std::uint32_t o = 0; o < problem_.network.outputs.size(); ++o) {
      problem_.output_place.push_back(place(PlaceKind::output, o, panel_hole_));
      problem_.choices.push_back({{12, 13, 14, 15}});
      std::erase(problem_.choices.back().other_tap_v, problem_.network.outputs[o].emf_v);
    }
    for (std::uint32_t t = 0; t < problem_.network.transformers.size(); ++t) {
      problem_.transformer_place.push_back(place(PlaceKind::transformer, t, panel_hole_));
    }
    problem_.supply_place = place(PlaceKind::supply, 0, panel_hole_);
    candidates();
    return std::move(problem_);
  }

 private:
  std::uint32_t hole(double effort_min) {
    problem_.holes.push_back({effort_min});
    return to_index(problem_.holes.size() - 1);
  }

  std::uint32_t place(PlaceKind kind, std::uint32_t index, std::uint32_t hole, bool at_to = false) {
    problem_.places.push_back({kind, index, at_to, hole, 1, false});
    return to_index(problem_.places.size() - 1);
  }

  void spans() {
    problem_.output_of_node = output_of_node(problem_.network);
    for (std::uint32_t s = 0; s < problem_.network.segments.size(); ++s) {
      const electrical::Segment& segment = problem_.network.segments[s];
      diagnosis::SpanPlaces span;
      span.is_lead = leads_[s];
      span.output = problem_.output_of_node[segment.from];
      span.from_side = place(PlaceKind::joint_side, s, node_hole_[segment.from], false);
      span.cable = place(PlaceKind::cable, s, hole(efforts_.cable_min));
      span.to_side = place(PlaceKind::joint_side, s, node_hole_[segment.to], true);
      problem_.spans.push_back(span);
    }
  }

  void lamps() {
    for (std::uint32_t j = 0; j < problem_.network.loads.size(); ++j) {
      problem_.lamp_place.push_back(place(PlaceKind::lamp, j, hole(efforts_.lamp_min)));
    }
  }

  void offer(const diagnosis::Probe& probe, double sigma, double effort_min, std::uint32_t lamp = diagnosis::none) {
    problem_.candidates.push_back({probe, sigma, effort_min, lamp});
  }

  [[nodiscard]] std::uint32_t lamp_at(std::uint32_t node) const {
    for (std::uint32_t j = 0; j < problem_.network.loads.size(); ++j) {
      if (problem_.network.loads[j].plus.node == node) return j;
    }
    return diagnosis::none;
  }

  void candidates() {
    const double v = efforts_.meter_sigma_v;
    const double a = efforts_.meter_sigma_a;
    offer({Quantity::lamps_seen, 0}, 0, efforts_.look_min);
    offer({Quantity::mains_v, 0}, 0.004, efforts_.transformer_min);
    for (std::uint32_t o = 0; o < problem_.network.outputs.size(); ++o) {
      offer({Quantity::output_v, o}, v, efforts_.transformer_min);
      offer({Quantity::output_a, o}, a, efforts_.transformer_min);
      offer({Quantity::loop_ohm, problem_.network.outputs[o].node}, 0.02, 3 * efforts_.transformer_min);
      offer({Quantity::breaker, o}, 0, efforts_.transformer_min);
    }
    for (std::uint32_t node = 0; node < problem_.network.node_count; ++node) {
      if (output_at_[node]) continue;
      const std::uint32_t lamp = lamp_at(node);
      offer({Quantity::node_v, node}, v, lamp != diagnosis::none ? efforts_.lamp_min : efforts_.joint_min, lamp);
      if (lamp != diagnosis::none) offer({Quantity::loop_ohm, node}, 0.02, 1.5 * efforts_.lamp_min);
    }
    for (std::uint32_t s = 0; s < problem_.network.segments.size(); ++s) cable_candidates(s);
  }

  void cable_candidates(std::uint32_t s) {
    const electrical::Segment& segment = problem_.network.segments[s];
    for (const bool at_to : {false, true}) {
      const std::uint32_t node = at_to ? segment.to : segment.from;
      if (output_at_[node]) {
        offer({Quantity::cable_a, s}, efforts_.meter_sigma_a, efforts_.transformer_min);
        offer({Quantity::cable_a, s, false, true}, efforts_.meter_sigma_a, efforts_.transformer_min);
        offer({Quantity::cable_net_a, s}, efforts_.meter_sigma_a, efforts_.transformer_min);
      } else {
        offer({Quantity::cable_end_v, s, at_to}, efforts_.meter_sigma_v, efforts_.joint_min);
      }
    }
  }

  Efforts efforts_;
  FaultProblem problem_;
  std::vector<bool> output_at_;
  std::vector<bool> leads_;
  std::vector<std::uint32_t> node_hole_;
  std::uint32_t panel_hole_ = 0;
};

}  // namespace

FaultProblem problem_of(electrical::Network network, const Efforts& efforts, const std::vector<bool>& leads) {
  return Maker(std::move(network), efforts, leads).run();
}

const diagnosis::Candidate& candidate(const FaultProblem& problem, const diagnosis::Probe& probe) {
  const auto found = std::find_if(problem.candidates.begin(), problem.candidates.end(),
                                  [&](const diagnosis::Candidate& one) { return one.probe == probe; });
  if (found == problem.candidates.end()) throw std::runtime_error("no such candidate");
  return *found;
}

}  // namespace duskwire::faulty
