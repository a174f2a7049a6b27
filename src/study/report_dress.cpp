// SPDX-License-Identifier: Apache-2.0
#include "study/report_dress.hpp"

#include <algorithm>

namespace duskwire::study {
namespace {

class Dresser {
 public:
  Dresser(const Built& built, const Numbers& numbers)
      : built_(built), job_(*built.job), numbers_(numbers), network_(electrical::network_of(*built.prepared)) {
    for (const Corner& corner : built.corners) corner_names_.push_back(corner_words(corner, built.corners.front()));
  }

  Report run() {
    for (std::uint32_t i = 0; i < built_.lamps.size(); ++i) report_.lamps.push_back(lamp(i));
    for (std::uint32_t c = 0; c < job_.cables.size(); ++c) report_.cables.push_back(cable(c));
    for (std::uint32_t o = 0; o < built_.outputs.size(); ++o) report_.outputs.push_back(output(o));
    for (std::uint32_t t = 0; t < job_.transformers.size(); ++t) report_.transformers.push_back(transformer(t));
    for (std::size_t c = 0; c < numbers_.corners.size(); ++c) report_.corners.push_back(corner(c));
    add_shorts();
    report_.margin = margin();
    for (std::size_t i = 0; i < network_.loads.size(); ++i) {
      const double level = built_.nominal.load_level.empty() ? 1 : built_.nominal.load_level[i];
      report_.lamp_va += network_.loads[i].power_va * level;
    }
    return std::move(report_);
  }

 private:
  [[nodiscard]] std::string lamp_id(std::uint32_t lamp) const { return lamp == none ? "" : job_.luminaires[lamp].id; }
  [[nodiscard]] std::string output_id(std::uint32_t output) const {
    return output == none ? "" : id_of(job_, built_.spot_of_output(output));
  }
  [[nodiscard]] std::string node_id(std::uint32_t node) const {
    return node == none ? "" : id_of(job_, built_.spot_of_node(node));
  }

  [[nodiscard]] LampReport lamp(std::uint32_t i) const {
    const LampNumbers& numbers = numbers_.lamps[i];
    const Lamp& lamp = built_.lamps[i];
    const Supply& supply = built_.supply[built_.node_of_luminaire(i)];
    LampReport report;
    report.id = lamp_id(i);
    report.nominal_v = numbers.nominal_v;
    report.worst_low_v = numbers.low_v;
    report.worst_high_v = numbers.high_v;
    report.worst_low_corner = corner_names_[numbers.low_corner];
    report.worst_high_corner = corner_names_[numbers.high_corner];
    report.window_min_v = lamp.window_min_v;
    report.window_max_v = lamp.window_max_v;
    report.current_a = numbers.current_a;
    report.state = numbers.state;
    report.worst_state = worst_state(lamp, numbers);
    report.light = numbers.light;
    report.output = output_id(supply.output);
    report.distance_m = supply.distance_m;
    return report;
  }

  static electrical::LampState worst_state(const Lamp& lamp, const LampNumbers& numbers) {
    const bool over = lamp.window_max_v > 0 && numbers.high_v > lamp.window_max_v;
    const bool low_is_fine = numbers.low_state == electrical::LampState::regulated;
    return over && low_is_fine ? electrical::LampState::over : numbers.low_state;
  }

  [[nodiscard]] CableReport cable(std::uint32_t c) const {
    CableReport report;
    report.id = job_.cables[c].id;
    const std::uint32_t s = built_.segment_of_cable[c];
    if (s == none) return report;
    const SegmentNumbers& numbers = numbers_.segments[s];
    report.length_m = built_.wires[s].length_m;
    report.current_a = numbers.current_a;
    report.worst_current_a = numbers.worst_current_a;
    report.drop_v = numbers.drop_v;
    report.loss_w = numbers.loss_w;
    report.from_v = numbers_.node_v[network_.segments[s].from];
    report.to_v = numbers_.node_v[network_.segments[s].to];
    report.output = output_id(built_.supply[network_.segments[s].from].output);
    return report;
  }

  [[nodiscard]] OutputReport output(std::uint32_t o) const {
    const OutputNumbers& numbers = numbers_.outputs[o];
    OutputReport report;
    report.id = output_id(o);
    report.transformer = job_.transformers[built_.outputs[o].transformer].id;
    report.tap_v = network_.outputs[o].emf_v;
    report.terminal_v = numbers.terminal_v;
    report.current_a = numbers.current_a;
    report.worst_current_a = numbers.worst_current_a;
    report.limit_a = network_.outputs[o].limit_a;
    report.load_share = report.limit_a > 0 ? report.worst_current_a / report.limit_a : 0;
    report.lowest_lamp_v = numbers.low_v;
    report.highest_lamp_v = numbers.high_v;
    report.lamp_count = numbers.lamp_count;
    report.far_short_a = numbers.far_short_a;
    report.far_short_at = node_id(numbers.far_short_node);
    return report;
  }

  [[nodiscard]] TransformerReport transformer(std::uint32_t t) const {
    const TransformerNumbers& numbers = numbers_.transformers[t];
    TransformerReport report;
    report.id = job_.transformers[t].id;
    report.lamp_va = numbers.lamp_va;
    report.load_va = numbers.load_va;
    report.worst_load_va = numbers.worst_load_va;
    report.rating_va = network_.transformers[t].rating_va;
    report.headroom_va = report.rating_va - report.worst_load_va;
    report.load_share = report.rating_va > 0 ? report.worst_load_va / report.rating_va : 0;
    report.copper_loss_w = numbers.copper_loss_w;
    report.core_loss_w = network_.transformers[t].core_loss_w;
    report.cable_loss_w = numbers.cable_loss_w;
    report.input_w = numbers.lamp_input_w + report.copper_loss_w + report.core_loss_w + report.cable_loss_w;
    return report;
  }

  [[nodiscard]] CornerReport corner(std::size_t c) const {
    const CornerNumbers& numbers = numbers_.corners[c];
    CornerReport report;
    report.name = corner_names_[c];
    report.mains_factor = built_.corners[c].mains_factor;
    report.cable_c = built_.corners[c].cable_c;
    report.length_factor = built_.corners[c].length_factor;
    report.lowest_v = numbers.lowest_v;
    report.lowest_lamp = lamp_id(numbers.lowest_lamp);
    report.highest_v = numbers.highest_v;
    report.highest_lamp = lamp_id(numbers.highest_lamp);
    report.converged = numbers.converged;
    return report;
  }

  void add_shorts() {
    for (std::uint32_t node = built_.joint_base; node < numbers_.shorts.output.size(); ++node) {
      const std::uint32_t o = numbers_.shorts.output[node];
      if (o == electrical::no_output) continue;
      report_.shorts.push_back(
          {node_id(node), output_id(o), numbers_.shorts.output_share_a[node], network_.outputs[o].limit_a});
    }
  }

  [[nodiscard]] MarginReport margin() const {
    MarginReport report;
    const auto first_lamp = [&](const electrical::Margin& margin) {
      return margin.beyond_cap || margin.first_load >= job_.luminaires.size() ? "" : lamp_id(margin.first_load);
    };
    report.load_factor = numbers_.load_margin.factor;
    report.load_beyond_cap = numbers_.load_margin.beyond_cap;
    report.load_first_lamp = first_lamp(numbers_.load_margin);
    report.length_factor = numbers_.length_margin.factor;
    report.length_beyond_cap = numbers_.length_margin.beyond_cap;
    report.length_first_lamp = first_lamp(numbers_.length_margin);
    return report;
  }

  const Built& built_;
  const job::Job& job_;
  const Numbers& numbers_;
  const electrical::Network& network_;
  std::vector<std::string> corner_names_;
  Report report_;
};

}  // namespace

Report dress(const Built& built, const Numbers& numbers) { return Dresser(built, numbers).run(); }

}  // namespace duskwire::study
