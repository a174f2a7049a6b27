// SPDX-License-Identifier: Apache-2.0
#include "electrical/audit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <vector>

#include "electrical/load_model.hpp"

namespace duskwire::electrical::testing {
namespace {

void raise(double& worst, double violation) { worst = std::max(worst, std::abs(violation)); }

class Auditor {
 public:
  Auditor(const Network& network, const Condition& condition, const Solution& solution, const Potentials& potentials)
      : network_(network), condition_(condition), solution_(solution), potentials_(potentials) {
    imbalance_a_.assign(2 * std::size_t{network.node_count}, 0.0);
  }

  Audit run() {
    check_finite();
    for (std::size_t i = 0; i < network_.segments.size(); ++i) segment(i);
    for (std::size_t i = 0; i < network_.bridges.size(); ++i) {
      const Bridge& bridge = network_.bridges[i];
      resistance(bridge.p, bridge.q, std::max(bridge.r_ohm, least_bridge_ohm), solution_.bridge_a[i]);
    }
    for (std::size_t i = 0; i < network_.loads.size(); ++i) load(i);
    outputs();
    for (std::uint32_t node = 0; node < network_.node_count; ++node) {
      raise(audit_.node_v, solution_.node_v[node] - across({node, Conductor::a}, {node, Conductor::b}));
    }
    for (const double a : imbalance_a_) raise(audit_.kirchhoff_a, a);
    return audit_;
  }

 private:
  [[nodiscard]] double at(const Terminal& terminal) const {
    return (terminal.conductor == Conductor::a ? potentials_.a_v : potentials_.b_v)[terminal.node];
  }
  [[nodiscard]] double across(const Terminal& p, const Terminal& q) const { return at(p) - at(q); }

  void flow(const Terminal& from, const Terminal& to, double a) {
    imbalance_a_[2 * from.node + static_cast<std::size_t>(from.conductor)] -= a;
    imbalance_a_[2 * to.node + static_cast<std::size_t>(to.conductor)] += a;
  }

  void resistance(const Terminal& from, const Terminal& to, double ohm, double a) {
    flow(from, to, a);
    raise(audit_.ohm_v, across(from, to) - ohm * a);
    audit_.sink_w += ohm * a * a;
  }

  void segment(std::size_t i) {
    const Segment& segment = network_.segments[i];
    const double a_ohm = segment.copper_a_ohm * condition_.copper_factor + segment.contact_a_ohm;
    const double b_ohm = segment.copper_b_ohm * condition_.copper_factor + segment.contact_b_ohm;
    const Terminal far_of_a{segment.to, segment.crossed ? Conductor::b : Conductor::a};
    const Terminal far_of_b{segment.to, segment.crossed ? Conductor::a : Conductor::b};
    if (segment.open_a) {
      raise(audit_.kirchhoff_a, solution_.segment_a_a[i]);
    } else {
      resistance({segment.from, Conductor::a}, far_of_a, a_ohm, solution_.segment_a_a[i]);
    }
    if (segment.open_b) {
      raise(audit_.kirchhoff_a, solution_.segment_b_a[i]);
    } else {
      resistance({segment.from, Conductor::b}, far_of_b, b_ohm, solution_.segment_b_a[i]);
    }
  }

  void load(std::size_t i) {
    const Load& load = network_.loads[i];
    const double v = solution_.load_v[i];
    const double a = solution_.load_a[i];
    flow(load.plus, load.minus, a);
    raise(audit_.node_v, v - across(load.plus, load.minus));
    raise(audit_.load_law_a, a - expected_current_a(load, load_va(network_, condition_, i), v));
    audit_.sink_w += v * a;
    state(i);
  }

  // Filaments have no regulation range: of them only off and over are fixed by the volts.
  void state(std::size_t i) {
    const Load& load = network_.loads[i];
    const double size_v = std::abs(solution_.load_v[i]);
    const LampState state = solution_.load_state[i];
    LampState expected = LampState::regulated;
    const bool led = is_led_kind(load.kind);
    if (load_va(network_, condition_, i) <= 0 || (led && size_v <= load.v_cut_off)) {
      expected = LampState::off;
    } else if (load.v_max > 0 && size_v > load.v_max) {
      expected = LampState::over;
    } else if (led && size_v < holding_volts(load)) {
      expected = LampState::dim;
    }
    const bool free = !led && expected == LampState::regulated;
    const bool light_wrong = solution_.load_light[i] < 0 || (led && solution_.load_light[i] > 1 + 1e-12);
    if ((!free && state != expected) || light_wrong) {
      if (audit_.wrong_state.empty()) {
        audit_.wrong_state = fmt::format("lamp {} at {} V: state {}, light {}", i, size_v, static_cast<int>(state),
                                         solution_.load_light[i]);
      }
    }
  }

  void outputs() {
    std::vector<double> transformer_a(network_.transformers.size(), 0.0);
    for (std::size_t i = 0; i < network_.outputs.size(); ++i) {
      transformer_a[network_.outputs[i].transformer] += solution_.output_a[i];
    }
    for (std::size_t i = 0; i < network_.outputs.size(); ++i) {
      const Output& output = network_.outputs[i];
      const double a = solution_.output_a[i];
      const double emf_v = output.emf_v * condition_.mains_factor;
      const double shared_v =
          network_.transformers[output.transformer].r_shared_ohm * transformer_a[output.transformer];
      flow({output.node, Conductor::b}, {output.node, Conductor::a}, a);
      raise(audit_.node_v, solution_.output_v[i] - solution_.node_v[output.node]);
      raise(audit_.ohm_v, solution_.output_v[i] - (emf_v - output.r_own_ohm * a - shared_v));
      audit_.source_w += emf_v * a;
      audit_.sink_w += output.r_own_ohm * a * a + shared_v * a;
    }
  }

  void check_finite() {
    for (const std::vector<double>* numbers :
         {&solution_.node_v, &solution_.segment_a_a, &solution_.segment_b_a, &solution_.load_v, &solution_.load_a,
          &solution_.load_light, &solution_.output_a, &solution_.output_v, &solution_.bridge_a, &potentials_.a_v,
          &potentials_.b_v}) {
      for (const double number : *numbers) audit_.finite = audit_.finite && std::isfinite(number);
    }
    audit_.finite = audit_.finite && std::isfinite(solution_.worst_residual_a);
  }

  const Network& network_;
  const Condition& condition_;
  const Solution& solution_;
  const Potentials& potentials_;
  std::vector<double> imbalance_a_;
  Audit audit_;
};

}  // namespace

Audit audit(const Network& network, const Condition& condition, const Solution& solution,
            const Potentials& potentials) {
  return Auditor(network, condition, solution, potentials).run();
}

}  // namespace duskwire::electrical::testing
