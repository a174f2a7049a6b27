// SPDX-License-Identifier: Apache-2.0
#include "wiring/plan_answer.hpp"

namespace duskwire::wiring {

PlanAnswer answer_of(const PlanProblem& problem, const Wiring& wiring) {
  const Layout& layout = wiring.layout;
  PlanAnswer answer;
  answer.left_out = wiring.left_out;
  answer.cost = wiring.cost() - left_out_cost * static_cast<double>(wiring.left_out.size());
  answer.trench_m = layout.trench_m;
  std::vector<std::uint32_t> first_unit(problem.places.size(), 0);
  for (std::uint32_t p = 0; p < problem.places.size(); ++p) {
    first_unit[p] = static_cast<std::uint32_t>(answer.units.size());
    const UnitChoice& choice = wiring.units[p];
    for (std::uint32_t u = 0; u < choice.count; ++u) {
      answer.units.push_back({p, u + 1 == choice.count ? choice.last_type : choice.type});
    }
  }
  std::vector<std::uint32_t> cable_of_lay(layout.lays.size(), none);
  const auto add = [&](std::uint32_t first, std::uint32_t from, std::uint32_t output,
                       std::vector<std::uint32_t>& spots) {
    for (std::uint32_t lay = first; lay != none; lay = layout.lays[lay].next) {
      const Lay& cable = layout.lays[lay];
      const Spot& end = layout.spots[cable.to];
      const std::uint32_t lamp_end = layout.lamp_end(end);
      PlanCable out;
      out.from = from;
      out.output = output;
      out.nodes = cable.way->nodes;
      out.edges = cable.way->edges;
      out.type = cable.type;
      out.kept_id = cable.kept_id;
      out.ends_in_lamp = lamp_end != none;
      for (std::uint32_t lamp = end.first_lamp; lamp != none; lamp = layout.next_lamp[lamp]) out.lamps.push_back(lamp);
      const double rise_m = lamp_end == none ? 0 : problem.lamps[lamp_end].rise_m;
      answer.cable_m += cable.kept ? cable.kept_cut_m
                                   : cable.way->length_m + rise_m +
                                         (from == none ? problem.slack_output_m : problem.slack_splice_m) +
                                         (lamp_end == none ? problem.slack_splice_m : problem.slack_luminaire_m);
      answer.joints += lamp_end == none ? 1 : 0;
      cable_of_lay[lay] = static_cast<std::uint32_t>(answer.cables.size());
      answer.cables.push_back(std::move(out));
      spots.push_back(cable.to);
    }
  };
  for (std::uint32_t o = 0; o < layout.outputs.size(); ++o) {
    const Output& output = layout.outputs[o];
    if (!output.alive) continue;
    const auto index = static_cast<std::uint32_t>(answer.outputs.size());
    answer.outputs.push_back(
        {output.place, first_unit[output.place] + output.unit, output.tap_v, output.device_a, output.current_a});
    std::vector<std::uint32_t> spots;
    add(output.first_out, none, index, spots);
    for (std::size_t k = 0; k < spots.size(); ++k) {
      const Spot& spot = layout.spots[spots[k]];
      add(spot.first_out, cable_of_lay[spot.in], index, spots);
    }
  }
  return answer;
}

}  // namespace duskwire::wiring
