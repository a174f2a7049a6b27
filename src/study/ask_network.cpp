// SPDX-License-Identifier: Apache-2.0
#include "study/ask_network.hpp"

#include <algorithm>
#include <cmath>

#include "electrical/conductor.hpp"
#include "electrical/solver.hpp"

namespace duskwire::study {
namespace {

using electrical::Network;

class Layout {
 public:
  explicit Layout(const FullQuestion& full) : full_(full), question_(*full.question) {
    network_.transformers.push_back({});
    electrical::Output output;
    output.node = add_node();
    output.emf_v = full.tap_v;
    output.r_own_ohm = question_.source_ohm;
    network_.outputs.push_back(output);
  }

  // The last load is that of a farthest lamp, the first that of a nearest.
  Network run() {
    switch (question_.spread) {
      case Spread::chain:
        add_chain(0, full_.lamps, full_.length_m);
        break;
      case Spread::end: {
        const std::uint32_t end = add_cable(0, full_.length_m);
        for (std::uint32_t i = 0; i < full_.lamps; ++i) add_lamp(end);
        break;
      }
      case Spread::hub: {
        const std::uint32_t hub = add_cable(0, full_.length_m);
        const double lead_ohm = question_.lead_ohm_per_m_20c * question_.lead_length_m;
        for (std::uint32_t i = 0; i < full_.lamps; ++i) add_lamp(add_segment(hub, lead_ohm));
        break;
      }
      case Spread::tee: {
        // The longer arm last, so that the last lamp is a farthest one.
        const std::uint32_t tee = add_cable(0, full_.length_m / 2);
        add_chain(tee, full_.lamps / 2, full_.length_m / 2);
        add_chain(tee, full_.lamps - full_.lamps / 2, full_.length_m / 2);
        break;
      }
    }
    return std::move(network_);
  }

 private:
  std::uint32_t add_node() { return network_.node_count++; }

  std::uint32_t add_segment(std::uint32_t from, double ohm) {
    electrical::Segment segment;
    segment.from = from;
    segment.to = add_node();
    segment.copper_a_ohm = segment.copper_b_ohm = ohm;
    network_.segments.push_back(segment);
    return segment.to;
  }

  std::uint32_t add_cable(std::uint32_t from, double length_m) {
    return add_segment(from, full_.cable->ohm_per_m_20c * length_m);
  }

  void add_chain(std::uint32_t from, std::uint32_t lamps, double length_m) {
    for (std::uint32_t i = 0; i < lamps; ++i) {
      from = add_cable(from, length_m / lamps);
      add_lamp(from);
    }
  }

  void add_lamp(std::uint32_t node) {
    electrical::Load load;
    load.plus = {node, electrical::Conductor::a};
    load.minus = {node, electrical::Conductor::b};
    load.power_va = question_.lamp_w / question_.power_factor;
    load.v_regulation_min = question_.window_min_v;
    load.v_cut_off = std::min(question_.cut_off_v, question_.window_min_v);
    load.v_max = question_.window_max_v;
    network_.loads.push_back(load);
  }

  const FullQuestion& full_;
  const Question& question_;
  Network network_;
};

class Solver {
 public:
  explicit Solver(const FullQuestion& full)
      : full_(full),
        prepared_(electrical::prepare(Layout(full).run()).value()),
        workspace_(electrical::make_workspace(*prepared_)) {
    nominal_.copper_factor = electrical::copper_temperature_factor(full.question->cable_c);
  }

  Tried try_all() {
    Tried tried;
    const double tolerance = full_.question->mains_tolerance_pct / 100;
    bool regulated = true;
    const auto look = [&](double mains_factor) {
      electrical::Condition condition = nominal_;
      condition.mains_factor = mains_factor;
      const electrical::Solution& solution = electrical::solve(*prepared_, condition, *workspace_);
      const auto [low, high] = std::minmax_element(solution.load_v.begin(), solution.load_v.end());
      const bool first = tried.worst_high_v == 0 && tried.worst_low_v == 0;
      tried.worst_low_v = first ? *low : std::min(tried.worst_low_v, *low);
      tried.worst_high_v = first ? *high : std::max(tried.worst_high_v, *high);
      regulated = regulated && solution.converged &&
                  std::all_of(solution.load_state.begin(), solution.load_state.end(),
                              [](electrical::LampState state) { return state == electrical::LampState::regulated; });
      return solution.load_v.back();
    };
    tried.last_v = look(1);
    if (tolerance > 0) {
      look(1 - tolerance);
      look(1 + tolerance);
    }
    tried.holds = regulated;
    return tried;
  }

  Answer answer() {
    Answer answer;
    const Tried tried = try_all();
    answer.holds = tried.holds;
    answer.worst_low_v = tried.worst_low_v;
    answer.worst_high_v = tried.worst_high_v;
    const electrical::Solution& solution = electrical::solve(*prepared_, nominal_, *workspace_);
    answer.last_v = solution.load_v.back();
    answer.first_v = solution.load_v.front();
    answer.last_state = solution.load_state.back();
    answer.last_light = solution.load_light.back();
    answer.current_a = solution.output_a[0];
    answer.load_va = solution.output_a[0] * solution.output_v[0];
    answer.lamps = full_.lamps;
    answer.length_m = full_.length_m;
    answer.tap_v = full_.tap_v;
    answer.cable = *full_.cable;
    answer.lamp_va = full_.lamps * full_.question->lamp_w / full_.question->power_factor;
    take_margins(answer);
    const electrical::ShortCircuit shorts = electrical::short_circuit(*prepared_, nominal_, *workspace_);
    answer.short_a = *std::min_element(shorts.node_a.begin(), shorts.node_a.end());
    return answer;
  }

 private:
  void take_margins(Answer& answer) {
    const electrical::Margin load = electrical::load_margin(*prepared_, nominal_, *workspace_);
    answer.load_margin = load.factor;
    answer.load_beyond_cap = load.beyond_cap;
    const electrical::Margin length = electrical::length_margin(*prepared_, nominal_, *workspace_);
    answer.length_margin = length.factor;
    answer.length_beyond_cap = length.beyond_cap;
  }

  const FullQuestion& full_;
  std::shared_ptr<const electrical::Prepared> prepared_;
  electrical::WorkspacePtr workspace_;
  electrical::Condition nominal_;
};

}  // namespace

Tried try_question(const FullQuestion& full) { return Solver(full).try_all(); }

Answer solve_question(const FullQuestion& full) { return Solver(full).answer(); }

}  // namespace duskwire::study
