// SPDX-License-Identifier: Apache-2.0
#include "electrical/careful.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace duskwire::electrical {
namespace {

// On the way from `from_v` to `to_v`, at most just beyond the next bend.
double over_one_bend(const Load& load, double from_v, double to_v) {
  constexpr double beyond = 1e-9;
  const double faded_in_v = load.v_cut_off + cut_off_band_v;
  std::array<double, 3> bends_v = {load.v_cut_off, faded_in_v, faded_in_v};
  if (load.kind == LoadKind::regulated_led) bends_v[2] = load.v_regulation_min;
  std::sort(bends_v.begin(), bends_v.end());
  const double from = std::abs(from_v);
  const bool turns = (from_v < 0) != (to_v < 0);
  // Through zero only out of the dark range.
  constexpr double dark_v = 1e-3;
  if (turns && from <= std::max(load.v_cut_off, dark_v)) {
    return std::copysign(std::min(std::abs(to_v), load.v_cut_off > 0 ? load.v_cut_off : cut_off_band_v), to_v);
  }
  const double to = turns ? 0.0 : std::abs(to_v);
  if (to >= from) {
    for (const double bend_v : bends_v) {
      if (from < bend_v && to > bend_v) return std::copysign(bend_v * (1 + beyond), from_v);
    }
  } else {
    for (std::size_t i = bends_v.size(); i-- > 0;) {
      if (from > bends_v[i] && to < bends_v[i]) return std::copysign(bends_v[i] * (1 - beyond), from_v);
    }
  }
  return std::copysign(to, from_v);
}

// Calls `visit(slot, load, va)` for each slot that holds a lamp.
template <class Visit>
void for_each_lamp(const LampRange& lamps, const Visit& visit) {
  const LoadBank& bank = lamps.bank;
  std::size_t special = lamps.special_first;
  Load regulated;
  regulated.kind = LoadKind::regulated_led;
  for (std::size_t k = lamps.first; k < lamps.last; ++k) {
    if (bank.load[k] == LoadBank::no_load) continue;
    if (special < lamps.special_last && bank.special[special].slot == k) {
      visit(k, bank.special[special].load, lamps.special_s_va[special]);
      ++special;
      continue;
    }
    regulated.v_cut_off = bank.v_cut[k];
    regulated.v_regulation_min = bank.v_reg[k];
    visit(k, regulated, lamps.s_va[k]);
  }
}

}  // namespace

double follow_laws(const LampRange& lamps, const double* v, double stride, double* at_v, double* slope_s,
                   double* offset_a) {
  double worst_a = 0;
  for_each_lamp(lamps, [&](std::size_t k, const Load& load, double va) {
    const double drawn_a = load_point(load, va, v[k]).current_a;
    worst_a = std::max(worst_a, std::abs(drawn_a - (slope_s[k] * v[k] + offset_a[k])));
    const double to_v = at_v[k] + stride * (v[k] - at_v[k]);
    at_v[k] = is_led(load.kind) ? over_one_bend(load, at_v[k], to_v) : v[k];
    const LoadPoint point = load_point(load, va, at_v[k]);
    slope_s[k] = point.slope_s;
    offset_a[k] = point.current_a - point.slope_s * at_v[k];
  });
  return worst_a;
}

std::uint32_t count_dark(const LampRange& lamps, const double* v) {
  std::uint32_t dark = 0;
  bool between = false;
  for_each_lamp(lamps, [&](std::size_t k, const Load& load, double va) {
    if (va <= 0 || !is_led(load.kind)) return;
    const double size_v = std::abs(v[k]);
    if (size_v <= load.v_cut_off) {
      ++dark;
    } else {
      between = between || size_v < holding_v(load);
    }
  });
  return between ? 0 : dark;
}

bool lay_chords(const LampRange& lamps, const double* v, const double* top_v, double* slope_s) {
  bool same_sense = true;
  for_each_lamp(lamps, [&](std::size_t k, const Load& load, double va) {
    same_sense = same_sense && v[k] * top_v[k] >= 0;
    slope_s[k] = least_chord_s(load, va, v[k], top_v[k]);
  });
  return same_sense;
}

void flatten(const LampRange& lamps, const double* at_v, double* slope_s, double* offset_a) {
  for (std::size_t k = lamps.first; k < lamps.last; ++k) {
    if (slope_s[k] >= 0) continue;
    offset_a[k] += slope_s[k] * at_v[k];
    slope_s[k] = 0;
  }
}

}  // namespace duskwire::electrical
