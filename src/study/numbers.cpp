// SPDX-License-Identifier: Apache-2.0
#include "study/numbers.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::study {
namespace {

class Analysis {
 public:
  Analysis(const Built& built, electrical::Workspace& workspace)
      : built_(built),
        workspace_(workspace),
        network_(electrical::network_of(*built.prepared)),
        condition_(built.nominal) {
    numbers_.lamps.resize(network_.loads.size());
    numbers_.segments.resize(network_.segments.size());
    numbers_.node_v.resize(network_.node_count);
    numbers_.outputs.resize(network_.outputs.size());
    numbers_.transformers.resize(network_.transformers.size());
    numbers_.corners.resize(1);
  }

  Numbers run(const Scope& scope) {
    solve_nominal();
    if (scope.corners) solve_corners();
    gather_outputs();
    if (scope.margins) {
      numbers_.load_margin = electrical::load_margin(*built_.prepared, built_.nominal, workspace_);
      numbers_.length_margin = electrical::length_margin(*built_.prepared, built_.nominal, workspace_);
    }
    if (scope.shorts) solve_shorts();
    return std::move(numbers_);
  }

 private:
  void solve_nominal() {
    const electrical::Solution& solution = electrical::solve(*built_.prepared, condition_, workspace_);
    for (std::size_t n = 0; n < numbers_.node_v.size(); ++n) numbers_.node_v[n] = std::abs(solution.node_v[n]);
    for (std::size_t i = 0; i < numbers_.lamps.size(); ++i) {
      LampNumbers& lamp = numbers_.lamps[i];
      lamp.nominal_v = lamp.low_v = lamp.high_v = std::abs(solution.load_v[i]);
      lamp.current_a = std::abs(solution.load_a[i]);
      lamp.light = solution.load_light[i];
      lamp.state = lamp.low_state = solution.load_state[i];
    }
    for (std::size_t s = 0; s < numbers_.segments.size(); ++s) nominal_segment(s, solution);
    for (std::size_t o = 0; o < numbers_.outputs.size(); ++o) {
      OutputNumbers& output = numbers_.outputs[o];
      output.terminal_v = std::abs(solution.output_v[o]);
      output.current_a = output.worst_current_a = std::abs(solution.output_a[o]);
    }
    nominal_transformers();
    take_extremes(0, solution.load_v.data(), solution.converged);
  }

  // R both conductors as in the nominal condition; P = sum I^2 R, drop = sum |I| R.
  void nominal_segment(std::size_t s, const electrical::Solution& solution) {
    const electrical::Segment& wire = network_.segments[s];
    SegmentNumbers& segment = numbers_.segments[s];
    const double a_a = std::abs(solution.segment_a_a[s]);
    const double b_a = std::abs(solution.segment_b_a[s]);
    const double a_ohm = wire.copper_a_ohm * condition_.copper_factor + wire.contact_a_ohm;
    const double b_ohm = wire.copper_b_ohm * condition_.copper_factor + wire.contact_b_ohm;
    segment.current_a = segment.worst_current_a = std::max(a_a, b_a);
    segment.drop_v = a_a * a_ohm + b_a * b_ohm;
    segment.loss_w = a_a * a_a * a_ohm + b_a * b_a * b_ohm;
  }

  void nominal_transformers() {
    for (std::size_t i = 0; i < numbers_.lamps.size(); ++i) nominal_lamp_power(static_cast<std::uint32_t>(i));
    for (std::size_t s = 0; s < numbers_.segments.size(); ++s) {
      const std::uint32_t output = built_.supply[network_.segments[s].from].output;
      if (output != none) transformer_of(output).cable_loss_w += numbers_.segments[s].loss_w;
    }
    for (std::size_t t = 0; t < numbers_.transformers.size(); ++t) {
      TransformerNumbers& transformer = numbers_.transformers[t];
      double sum_a = 0;
      for (std::size_t o = 0; o < numbers_.outputs.size(); ++o) {
        if (network_.outputs[o].transformer != t) continue;
        const OutputNumbers& output = numbers_.outputs[o];
        sum_a += output.current_a;
        transformer.load_va += output.terminal_v * output.current_a;
        transformer.copper_loss_w += output.current_a * output.current_a * network_.outputs[o].r_own_ohm;
      }
      transformer.copper_loss_w += sum_a * sum_a * network_.transformers[t].r_shared_ohm;
      transformer.worst_load_va = transformer.load_va;
    }
  }

  void nominal_lamp_power(std::uint32_t i) {
    const std::uint32_t output = built_.supply[built_.node_of_luminaire(i)].output;
    if (output == none) return;
    TransformerNumbers& transformer = transformer_of(output);
    const double level = built_.nominal.load_level.empty() ? 1 : built_.nominal.load_level[i];
    const double rated_va = network_.loads[i].power_va * level;
    const double power_factor = built_.lamps[i].power_factor;
    transformer.lamp_va += rated_va;
    transformer.lamp_w += rated_va * power_factor;
    transformer.lamp_input_w += numbers_.lamps[i].nominal_v * numbers_.lamps[i].current_a * power_factor;
  }

  TransformerNumbers& transformer_of(std::uint32_t output) {
    return numbers_.transformers[network_.outputs[output].transformer];
  }

  void solve_corners() {
    numbers_.corners.resize(built_.corners.size());
    for (std::uint32_t c = 1; c < built_.corners.size(); ++c) {
      set_condition(condition_, built_.corners[c]);
      if (built_.corners[c].lone_lamps) {
        take_lone(c, electrical::lone_lamp_v(*built_.prepared, condition_, workspace_));
      } else {
        take_corner(c, electrical::solve(*built_.prepared, condition_, workspace_));
      }
    }
  }

  void take_corner(std::uint32_t c, const electrical::Solution& solution) {
    for (std::size_t i = 0; i < numbers_.lamps.size(); ++i) {
      LampNumbers& lamp = numbers_.lamps[i];
      const double v = std::abs(solution.load_v[i]);
      if (v < lamp.low_v) {
        lamp.low_v = v;
        lamp.low_corner = c;
        lamp.low_state = solution.load_state[i];
      }
      raise(lamp, v, c);
    }
    for (std::size_t s = 0; s < numbers_.segments.size(); ++s) {
      const double current_a = std::max(std::abs(solution.segment_a_a[s]), std::abs(solution.segment_b_a[s]));
      numbers_.segments[s].worst_current_a = std::max(numbers_.segments[s].worst_current_a, current_a);
    }
    for (std::size_t t = 0; t < numbers_.transformers.size(); ++t) {
      double sum_va = 0;
      for (std::size_t o = 0; o < numbers_.outputs.size(); ++o) {
        if (network_.outputs[o].transformer == t) sum_va += std::abs(solution.output_v[o] * solution.output_a[o]);
      }
      numbers_.transformers[t].worst_load_va = std::max(numbers_.transformers[t].worst_load_va, sum_va);
    }
    for (std::size_t o = 0; o < numbers_.outputs.size(); ++o) {
      OutputNumbers& output = numbers_.outputs[o];
      output.worst_current_a = std::max(output.worst_current_a, std::abs(solution.output_a[o]));
    }
    take_extremes(c, solution.load_v.data(), solution.converged);
  }

  static void raise(LampNumbers& lamp, double v, std::uint32_t corner) {
    if (v <= lamp.high_v) return;
    lamp.high_v = v;
    lamp.high_corner = corner;
  }

  void take_lone(std::uint32_t c, const std::vector<double>& volts) {
    for (std::size_t i = 0; i < numbers_.lamps.size(); ++i) raise(numbers_.lamps[i], std::abs(volts[i]), c);
    take_extremes(c, volts.data(), true);
  }

  void take_extremes(std::uint32_t c, const double* volts, bool converged) {
    CornerNumbers& corner = numbers_.corners[c];
    corner.converged = converged;
    for (std::uint32_t i = 0; i < numbers_.lamps.size(); ++i) {
      if (!built_.lamps[i].counts) continue;
      const double v = std::abs(volts[i]);
      if (corner.lowest_lamp == none || v < corner.lowest_v) {
        corner.lowest_v = v;
        corner.lowest_lamp = i;
      }
      if (corner.highest_lamp == none || v > corner.highest_v) {
        corner.highest_v = v;
        corner.highest_lamp = i;
      }
    }
  }

  void gather_outputs() {
    for (std::uint32_t i = 0; i < numbers_.lamps.size(); ++i) {
      const std::uint32_t o = built_.supply[built_.node_of_luminaire(i)].output;
      if (o == none) continue;
      OutputNumbers& output = numbers_.outputs[o];
      ++output.lamp_count;
      const LampNumbers& lamp = numbers_.lamps[i];
      if (output.low_lamp == none || lamp.low_v < output.low_v) {
        output.low_v = lamp.low_v;
        output.low_lamp = i;
      }
      if (output.high_lamp == none || lamp.high_v > output.high_v) {
        output.high_v = lamp.high_v;
        output.high_lamp = i;
      }
    }
  }

  // At the output's own terminals a short is always the greatest: only places along the wires are looked at.
  void solve_shorts() {
    set_condition(condition_, built_.weakest);
    numbers_.shorts = electrical::short_circuit(*built_.prepared, condition_, workspace_);
    for (std::uint32_t node = built_.joint_base; node < network_.node_count; ++node) {
      const std::uint32_t o = numbers_.shorts.output[node];
      if (o == electrical::no_output) continue;
      OutputNumbers& output = numbers_.outputs[o];
      const double seen_a = numbers_.shorts.output_share_a[node];
      if (output.far_short_node != none && seen_a >= output.far_short_a) continue;
      output.far_short_a = seen_a;
      output.far_short_node = node;
    }
  }

  const Built& built_;
  electrical::Workspace& workspace_;
  const electrical::Network& network_;
  electrical::Condition condition_;
  Numbers numbers_;
};

}  // namespace

Numbers analyse(const Built& built, electrical::Workspace& workspace, const Scope& scope) {
  return Analysis(built, workspace).run(scope);
}

Numbers analyse(const Built& built, const Scope& scope) {
  const electrical::WorkspacePtr workspace = electrical::make_workspace(*built.prepared);
  return analyse(built, *workspace, scope);
}

}  // namespace duskwire::study
