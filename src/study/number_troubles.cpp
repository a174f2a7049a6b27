// SPDX-License-Identifier: Apache-2.0
#include "study/number_troubles.hpp"

#include <algorithm>
#include <cmath>

#include "electrical/loads.hpp"

namespace duskwire::study {
namespace {

// Rounding of the last bits is no breach.
constexpr double negligible = 1e-6;

bool exceeds_by_more_than_rounding(double measured, double limit) {
  return measured > limit + negligible * std::max(1.0, limit);
}

double share(double pct, double otherwise) { return pct > 0 && pct <= 100 ? pct / 100 : otherwise; }

class Judge {
 public:
  Judge(const Built& built, const Numbers& numbers)
      : built_(built), numbers_(numbers), network_(electrical::network_of(*built.prepared)) {}

  Troubles run(const Scope& scope) {
    const bool solved = std::all_of(numbers_.corners.begin(), numbers_.corners.end(),
                                    [](const CornerNumbers& corner) { return corner.converged; });
    if (!solved) add(TroubleKind::unsolved, {}, 0, 0);
    for (std::uint32_t i = 0; i < built_.lamps.size(); ++i) judge_lamp(i);
    const LoadShares shares = load_shares(built_.job->practice);
    for (std::uint32_t o = 0; o < built_.outputs.size(); ++o) judge_output(o, shares.output, scope.shorts);
    for (std::uint32_t t = 0; t < numbers_.transformers.size(); ++t) judge_transformer(t, shares.transformer);
    if (scope.margins) {
      judge_margin(TroubleKind::load_margin, numbers_.load_margin);
      judge_margin(TroubleKind::length_margin, numbers_.length_margin);
    }
    return std::move(troubles_);
  }

 private:
  void add(TroubleKind kind, Spot spot, double measured, double limit, std::uint32_t other = none) {
    troubles_.push_back({kind, spot, measured, limit, "", other});
  }

  // A lamp in the dark for want of supply, or because of a dead short, is told by the cause.
  void judge_lamp(std::uint32_t i) {
    const Lamp& lamp = built_.lamps[i];
    const std::uint32_t node = built_.node_of_luminaire(i);
    if (!lamp.counts || built_.supply[node].output == none || built_.dead_short[node]) return;
    const LampNumbers& numbers = numbers_.lamps[i];
    const Spot spot{SpotKind::luminaire, i, 0};
    judge_low(spot, lamp, numbers, electrical::is_led(network_.loads[i].kind));
    if (numbers.state == electrical::LampState::over) {
      add(TroubleKind::lamp_over, spot, numbers.high_v, lamp.window_max_v, numbers.high_corner);
    } else if (lamp.window_max_v > 0 && exceeds_by_more_than_rounding(numbers.high_v, lamp.window_max_v)) {
      add(TroubleKind::lamp_high, spot, numbers.high_v, lamp.window_max_v, numbers.high_corner);
    }
  }

  void judge_low(Spot spot, const Lamp& lamp, const LampNumbers& numbers, bool is_led) {
    if (numbers.state == electrical::LampState::off) {
      add(TroubleKind::lamp_off, spot, numbers.nominal_v, lamp.floor_v);
    } else if (is_led && numbers.state == electrical::LampState::dim) {
      add(TroubleKind::lamp_not_regulated, spot, numbers.nominal_v, lamp.floor_v);
    } else if (exceeds_by_more_than_rounding(lamp.floor_v, numbers.low_v)) {
      add(TroubleKind::lamp_low, spot, numbers.low_v, lamp.floor_v, numbers.low_corner);
    }
  }

  void judge_output(std::uint32_t o, double allowed, bool judge_short) {
    const OutputNumbers& output = numbers_.outputs[o];
    const double limit_a = network_.outputs[o].limit_a;
    if (limit_a <= 0) return;
    const Spot spot = built_.spot_of_output(o);
    if (exceeds_by_more_than_rounding(output.worst_current_a, limit_a)) {
      add(TroubleKind::output_overload, spot, output.worst_current_a, limit_a);
    } else if (exceeds_by_more_than_rounding(output.worst_current_a, limit_a * allowed)) {
      add(TroubleKind::output_headroom, spot, output.worst_current_a, limit_a * allowed);
    }
    if (judge_short && output.far_short_node != none && output.far_short_a < limit_a) {
      add(TroubleKind::far_short, spot, output.far_short_a, limit_a, output.far_short_node);
    }
  }

  // Starved lamps draw less than they would: their rated VA count as well.
  void judge_transformer(std::uint32_t t, double allowed) {
    const double rating_va = network_.transformers[t].rating_va;
    if (rating_va <= 0) return;
    const double load_va = std::max(numbers_.transformers[t].worst_load_va, numbers_.transformers[t].lamp_va);
    const Spot spot{SpotKind::transformer, t, 0};
    if (exceeds_by_more_than_rounding(load_va, rating_va)) {
      add(TroubleKind::transformer_overload, spot, load_va, rating_va);
    } else if (exceeds_by_more_than_rounding(load_va, rating_va * allowed)) {
      add(TroubleKind::transformer_headroom, spot, load_va, rating_va * allowed);
    }
  }

  // A factor of 0 means that a lamp is out of regulation already, which is told at that lamp.
  void judge_margin(TroubleKind kind, const electrical::Margin& margin) {
    if (margin.beyond_cap || margin.factor <= 0 || margin.factor >= least_margin) return;
    add(kind, {SpotKind::luminaire, margin.first_load, 0}, margin.factor, least_margin);
  }

  const Built& built_;
  const Numbers& numbers_;
  const electrical::Network& network_;
  Troubles troubles_;
};

}  // namespace

LoadShares load_shares(const job::Practice& practice) {
  const LoadShares usual;
  return {share(practice.transformer_load_pct, usual.transformer), share(practice.output_load_pct, usual.output)};
}

Troubles number_troubles(const Built& built, const Numbers& numbers, const Scope& scope) {
  return Judge(built, numbers).run(scope);
}

}  // namespace duskwire::study
