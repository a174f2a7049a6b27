// SPDX-License-Identifier: Apache-2.0
// The sweep: one linear solve of a tree is one pass from the leaves to the source and one back, without allocation.
#include "electrical/forest.hpp"

#include <algorithm>
#include <cstring>

namespace duskwire::electrical {

void resize(ForestState& state, const Forest& forest) {
  const std::size_t n = forest.parent.size();
  for (std::vector<double>* array : {&state.r_ohm, &state.emf_v, &state.s_va, &state.v, &state.slope_s, &state.offset_a,
                                     &state.y_s, &state.w_a, &state.inverse}) {
    array->assign(n, 0.0);
  }
  state.special_s_va.assign(forest.bank.special.size(), 0.0);
}

namespace {

void load_resistances(ForestState& state, const Forest& forest, double copper_factor) {
  for (std::size_t k = 0; k < state.r_ohm.size(); ++k) {
    state.r_ohm[k] = forest.copper_ohm[k] * copper_factor + forest.fixed_ohm[k];
  }
  state.loaded_copper_factor = copper_factor;
}

void load_powers(ForestState& state, const Forest& forest, double load_factor) {
  for (std::size_t k = 0; k < state.s_va.size(); ++k) state.s_va[k] = forest.bank.s_va[k] * load_factor;
  for (std::size_t j = 0; j < forest.bank.special.size(); ++j) {
    state.special_s_va[j] = forest.bank.special[j].load.power_va * load_factor;
  }
  state.loaded_load_factor = load_factor;
}

}  // namespace

void load_condition(ForestState& state, const Forest& forest, const Network& network, const Condition& condition) {
  for (const Forest::Head& head : forest.heads) {
    state.emf_v[head.slot] = network.outputs[head.output].emf_v * condition.mains_factor;
  }
  // Most solves differ from the last in one factor only: what is in force already stays.
  if (state.loaded_copper_factor != condition.copper_factor) load_resistances(state, forest, condition.copper_factor);
  if (state.loaded_load_factor != condition.load_factor) load_powers(state, forest, condition.load_factor);
  if (condition.load_level.empty()) return;
  load_powers(state, forest, condition.load_factor);
  for (std::size_t k = 0; k < state.s_va.size(); ++k) {
    if (forest.bank.load[k] != LoadBank::no_load) state.s_va[k] *= level_of(condition, forest.bank.load[k]);
  }
  for (std::size_t j = 0; j < forest.bank.special.size(); ++j) {
    const std::uint32_t index = forest.bank.special[j].index;
    if (index != LoadBank::no_load) state.special_s_va[j] *= level_of(condition, index);
  }
  state.loaded_load_factor = -1;
}

void ForestBlock::start_unloaded() {
  const std::uint32_t* parent = forest_.parent.data();
  double* v = state_.v.data();
  v[block_.first] = 0;
  for (std::size_t k = block_.first + 1; k < block_.head_end; ++k) v[k] = v[parent[k]] + state_.emf_v[k];
  for (std::size_t k = block_.head_end; k < block_.last; ++k) v[k] = v[parent[k]];
}

LinearisationCheck ForestBlock::linearise(Linearisation mode) {
  return duskwire::electrical::linearise(forest_.bank, state_.s_va.data(), state_.special_s_va.data(), state_.v.data(),
                                         block_.first, block_.last, block_.special_first, block_.special_last, mode,
                                         state_.slope_s.data(), state_.offset_a.data());
}

// Seen from its parent, a slot is the line I = Y V + W with Y = y / (1 + r y), W = (w + y e) / (1 + r y), where y and w
// sum its load line and those of its children. Leaves first, so that children are complete; then volts from the source
// down: V = (V_parent + e - r w) / (1 + r y).
bool ForestBlock::gather() {
  constexpr double least_denominator = 1e-9;  // at or below 0 the linear network is past its point of collapse
  const std::uint32_t* parent = forest_.parent.data();
  const double* r = state_.r_ohm.data();
  const double* emf = state_.emf_v.data();
  double* y = state_.y_s.data();
  double* w = state_.w_a.data();
  double* inverse = state_.inverse.data();
  const std::size_t first = block_.first;
  const std::size_t head_end = block_.head_end;
  const std::size_t last = block_.last;
  std::memcpy(y + first, state_.slope_s.data() + first, (last - first) * sizeof(double));
  std::memcpy(w + first, state_.offset_a.data() + first, (last - first) * sizeof(double));
  bool sound = true;
  for (std::size_t k = last; k-- > head_end;) {
    const double denominator = 1.0 + r[k] * y[k];
    sound = sound && denominator > least_denominator;
    const double inv = 1.0 / denominator;
    inverse[k] = inv;
    const std::uint32_t p = parent[k];
    y[p] += y[k] * inv;
    w[p] += w[k] * inv;
  }
  for (std::size_t k = head_end; k-- > first + 1;) {
    const double denominator = 1.0 + r[k] * y[k];
    sound = sound && denominator > least_denominator;
    const double inv = 1.0 / denominator;
    inverse[k] = inv;
    const std::uint32_t p = parent[k];
    y[p] += y[k] * inv;
    w[p] += (w[k] + y[k] * emf[k]) * inv;
  }
  return sound;
}

bool ForestBlock::step() {
  if (!gather()) return false;
  const std::uint32_t* parent = forest_.parent.data();
  const double* r = state_.r_ohm.data();
  const double* w = state_.w_a.data();
  const double* inverse = state_.inverse.data();
  double* v = state_.v.data();
  v[block_.first] = 0;
  for (std::size_t k = block_.first + 1; k < block_.head_end; ++k) {
    v[k] = (v[parent[k]] + state_.emf_v[k] - r[k] * w[k]) * inverse[k];
  }
  for (std::size_t k = block_.head_end; k < block_.last; ++k) v[k] = (v[parent[k]] - r[k] * w[k]) * inverse[k];
  return true;
}

LampRange ForestBlock::lamps() const {
  return {forest_.bank, state_.s_va.data(),   state_.special_s_va.data(), block_.first,
          block_.last,  block_.special_first, block_.special_last};
}

void ForestBlock::begin_careful() {
  at_v_ = state_.v;
  follow_laws(1);
}

double ForestBlock::follow_laws(double stride) {
  return duskwire::electrical::follow_laws(lamps(), state_.v.data(), stride, at_v_.data(), state_.slope_s.data(),
                                           state_.offset_a.data());
}

void ForestBlock::lay_flat() { flatten(lamps(), at_v_.data(), state_.slope_s.data(), state_.offset_a.data()); }

void ForestBlock::save() { saved_v_.assign(state_.v.begin() + block_.first, state_.v.begin() + block_.last); }

void ForestBlock::restore() { std::copy(saved_v_.begin(), saved_v_.end(), state_.v.begin() + block_.first); }

bool ForestBlock::is_highest() {
  at_v_ = state_.v;
  std::copy(saved_v_.begin(), saved_v_.end(), at_v_.begin() + block_.first);
  const bool proven = lay_chords(lamps(), state_.v.data(), at_v_.data(), state_.slope_s.data()) && gather();
  linearise(Linearisation::tangent);
  gather();  // currents are read from the lines of whole branches
  return proven;
}

bool ForestBlock::not_above_saved() const {
  constexpr double slack_v = 1e-6;
  for (std::size_t k = 0; k < saved_v_.size(); ++k) {
    if (state_.v[block_.first + k] > saved_v_[k] + slack_v) return false;
  }
  return true;
}

}  // namespace duskwire::electrical
