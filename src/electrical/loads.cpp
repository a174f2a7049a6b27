// SPDX-License-Identifier: Apache-2.0
#include "electrical/loads.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::electrical {
namespace {

constexpr double band_inv = 1.0 / cut_off_band_v;
// An empty slot: its fade-in is complete at any voltage and its power is 0.
constexpr double empty_v_cut = -1.0;
constexpr double least_regulation_v = 1e-3;

struct Fade {
  double share = 0;
  double slope_per_v = 0;
};

Fade fade_in(double size_v, double v_cut) {
  const double t = (size_v - v_cut) * band_inv;
  if (t <= 0) return {0, 0};
  if (t >= 1) return {1, 0};
  return {t, band_inv};
}

LoadPoint led_point(double body_a, double body_slope_s, const Fade& fade, double size_v) {
  const double leak_a = off_leak_s * size_v;
  return {fade.share * body_a + (1 - fade.share) * leak_a,
          fade.share * body_slope_s + (1 - fade.share) * off_leak_s + fade.slope_per_v * (body_a - leak_a)};
}

LoadPoint regulated_point(double s_va, double v_reg, double v_cut, double size_v) {
  const double inverse = 1.0 / std::max(size_v, v_reg);
  const double body_a = s_va * inverse;
  return led_point(body_a, size_v > v_reg ? -body_a * inverse : 0.0, fade_in(size_v, v_cut), size_v);
}

LoadPoint filament_point(double s_va, double rated_v, double size_v) {
  const double rated_a = s_va / rated_v;
  const double share = size_v / rated_v;
  if (share < filament_linear_below) {
    const double slope = rated_a * std::pow(filament_linear_below, 0.6) / (filament_linear_below * rated_v);
    return {slope * size_v, slope};
  }
  const double current_a = rated_a * std::pow(share, 0.6);
  return {current_a, 0.6 * current_a / size_v};
}

double regulation_floor(double v_regulation_min) { return std::max(v_regulation_min, least_regulation_v); }

// The rise of a line from the present point of an LED, where its driver would draw `body_a`, to where it goes dark; in
// the fading band and below, its steepest rise. Nowhere further down is the load below such a line.
double descent_s(double body_a, double v_cut, double size_v) {
  return body_a / std::max(size_v - v_cut, cut_off_band_v) + off_leak_s;
}

double slow_slope_s(Linearisation mode, double body_a, double v_cut, double size_v, bool below) {
  if (mode == Linearisation::chord) return size_v <= v_cut ? off_leak_s : descent_s(body_a, v_cut, size_v);
  return below ? descent_s(body_a, v_cut, size_v) : 0.0;
}

}  // namespace

LoadPoint load_point(const Load& load, double s_va, double v) {
  const double size_v = std::abs(v);
  LoadPoint point;
  if (s_va <= 0) return point;
  switch (load.kind) {
    case LoadKind::regulated_led:
      point = regulated_point(s_va, regulation_floor(load.v_regulation_min), load.v_cut_off, size_v);
      break;
    case LoadKind::constant_current_led:
      point = led_point(s_va / load.rated_v, 0, fade_in(size_v, load.v_cut_off), size_v);
      break;
    case LoadKind::filament:
      point = filament_point(s_va, load.rated_v, size_v);
      break;
    case LoadKind::resistive:
      point.slope_s = s_va / (load.rated_v * load.rated_v);
      point.current_a = point.slope_s * size_v;
      break;
  }
  point.current_a = std::copysign(point.current_a, v);
  return point;
}

double least_chord_s(const Load& load, double s_va, double v, double top_v) {
  if (s_va <= 0 || load.kind == LoadKind::filament) return 0;  // a filament's current rises all the way
  if (load.kind == LoadKind::resistive) return load_point(load, s_va, v).slope_s;
  const double x_v = std::abs(v);
  const double top = std::max(x_v, std::abs(top_v));
  const double here_a = std::abs(load_point(load, s_va, v).current_a);
  const double there_a = std::abs(load_point(load, s_va, top).current_a);
  if (there_a >= here_a) return 0;  // rises, stays and falls again, in this order: nothing between is less
  const double holds_v = holding_v(load);
  if (load.kind != LoadKind::regulated_led || x_v >= holds_v) return load_point(load, s_va, v).slope_s;
  if (x_v < load.v_cut_off + cut_off_band_v) return (there_a - here_a) / std::max(holds_v - x_v, least_regulation_v);
  // From the flat part the steepest chord touches the hyperbola, or ends before.
  const double touch_v = std::min(top, holds_v + std::sqrt(holds_v * (holds_v - x_v)));
  return (s_va / touch_v - here_a) / (touch_v - x_v);
}

double load_light(const Load& load, double level, double v) {
  const double size_v = std::abs(v);
  switch (load.kind) {
    case LoadKind::regulated_led:
    case LoadKind::constant_current_led: {
      // Under regulation an LED cannot give more light than the power it takes: share of power, an estimate.
      const double share = std::min(1.0, size_v / regulation_floor(load.v_regulation_min));
      return level * share * fade_in(size_v, load.v_cut_off).share;
    }
    case LoadKind::filament:
      return level * std::pow(size_v / load.rated_v, 3.4);
    case LoadKind::resistive:
      return level * (size_v / load.rated_v) * (size_v / load.rated_v);
  }
  return 0;
}

LampState load_state(const Load& load, double s_va, double v) {
  const double size_v = std::abs(v);
  const double dark_v = is_led(load.kind) ? load.v_cut_off : filament_linear_below * load.rated_v;
  if (s_va <= 0 || size_v <= dark_v) return LampState::off;
  if (load.v_max > 0 && size_v > load.v_max) return LampState::over;
  return size_v < holding_v(load) ? LampState::dim : LampState::regulated;
}

void LoadBank::add_empty() {
  s_va.push_back(0);
  v_reg.push_back(least_regulation_v);
  v_cut.push_back(empty_v_cut);
  load.push_back(no_load);
}

void LoadBank::add(const Load& new_load, std::uint32_t index) {
  if (new_load.kind != LoadKind::regulated_led) {
    special.push_back({static_cast<std::uint32_t>(size()), new_load, index});
    add_empty();
    load.back() = index;
    return;
  }
  s_va.push_back(new_load.power_va);
  v_reg.push_back(regulation_floor(new_load.v_regulation_min));
  v_cut.push_back(new_load.v_cut_off);
  load.push_back(index);
}

namespace {

// The hot loop: written without branches so that it runs at the speed of its division.
LinearisationCheck linearise_regulated(const LoadBank& bank, const double* s_va, const double* v, std::size_t first,
                                       std::size_t last, double* slope_s, double* offset_a) {
  const double* v_reg = bank.v_reg.data();
  const double* v_cut = bank.v_cut.data();
  double worst = 0;
  double lowest_room = 0;
  for (std::size_t k = first; k < last; ++k) {
    const double size_v = std::abs(v[k]);
    const double room_v = size_v - v_reg[k];
    const double inverse = 1.0 / (room_v > 0 ? size_v : v_reg[k]);
    const double body_a = s_va[k] * inverse;
    const double body_slope = room_v > 0 ? -body_a * inverse : 0.0;
    const double raw = (size_v - v_cut[k]) * band_inv;
    const double capped = raw < 1 ? raw : 1.0;
    const double t = capped > 0 ? capped : 0.0;
    const double t_slope = raw == t ? band_inv : 0.0;
    const double leak_s = s_va[k] > 0 ? off_leak_s : 0.0;
    const double leak_a = leak_s * size_v;
    const double current = std::copysign(t * body_a + (1 - t) * leak_a, v[k]);
    const double slope = t * body_slope + (1 - t) * leak_s + t_slope * (body_a - leak_a);
    const double miss = std::abs(current - (slope_s[k] * v[k] + offset_a[k]));
    worst = miss > worst ? miss : worst;
    // Below regulation is also what has not faded in fully. An empty slot (s = 0) counts 0.
    const double least_room = room_v < raw - 1 ? room_v : raw - 1;
    const double counted = s_va[k] > 0 ? least_room : 0.0;
    lowest_room = counted < lowest_room ? counted : lowest_room;
    slope_s[k] = slope;
    offset_a[k] = current - slope * v[k];
  }
  return {worst, lowest_room < 0};
}

LinearisationCheck linearise_slowly(const LoadBank& bank, const double* s_va, const double* v, std::size_t first,
                                    std::size_t last, Linearisation mode, double* slope_s, double* offset_a) {
  LinearisationCheck check;
  for (std::size_t k = first; k < last; ++k) {
    if (s_va[k] <= 0) {
      check.residual_a = std::max(check.residual_a, std::abs(slope_s[k] * v[k] + offset_a[k]));
      slope_s[k] = offset_a[k] = 0;
      continue;
    }
    const double size_v = std::abs(v[k]);
    const double current =
        std::copysign(regulated_point(s_va[k], bank.v_reg[k], bank.v_cut[k], size_v).current_a, v[k]);
    check.residual_a = std::max(check.residual_a, std::abs(current - (slope_s[k] * v[k] + offset_a[k])));
    const bool below = size_v < std::max(bank.v_reg[k], bank.v_cut[k] + cut_off_band_v);
    check.below_regulation = check.below_regulation || below;
    slope_s[k] = slow_slope_s(mode, s_va[k] / std::max(size_v, bank.v_reg[k]), bank.v_cut[k], size_v, below);
    offset_a[k] = current - slope_s[k] * v[k];
  }
  return check;
}

// The same of one that is no regulated LED; a filament's current bends so that its chord to zero lies below it.
double slow_slope_s(const Load& load, double s_va, double size_v, const LoadPoint& point, Linearisation mode) {
  const bool led = load.kind == LoadKind::constant_current_led && s_va > 0;
  if (led) return slow_slope_s(mode, s_va / load.rated_v, load.v_cut_off, size_v, size_v < holding_v(load));
  const bool bent = mode == Linearisation::chord && load.kind == LoadKind::filament && size_v > 0;
  return bent ? std::abs(point.current_a) / size_v : point.slope_s;
}

}  // namespace

LinearisationCheck linearise(const LoadBank& bank, const double* s_va, const double* special_s_va, const double* v,
                             std::size_t first, std::size_t last, std::size_t special_first, std::size_t special_last,
                             Linearisation mode, double* slope_s, double* offset_a) {
  // Special slots are empty in the bank: their old lines are set aside before the hot loop overwrites them.
  struct Line {
    double slope_s, offset_a;
  };
  thread_local std::vector<Line> old_lines;
  old_lines.clear();
  for (std::size_t j = special_first; j < special_last; ++j) {
    const std::uint32_t slot = bank.special[j].slot;
    old_lines.push_back({slope_s[slot], offset_a[slot]});
    slope_s[slot] = offset_a[slot] = 0;
  }
  LinearisationCheck check = mode == Linearisation::tangent
                                 ? linearise_regulated(bank, s_va, v, first, last, slope_s, offset_a)
                                 : linearise_slowly(bank, s_va, v, first, last, mode, slope_s, offset_a);
  for (std::size_t j = special_first; j < special_last; ++j) {
    const LoadBank::Special& special = bank.special[j];
    const std::uint32_t slot = special.slot;
    LoadPoint point = load_point(special.load, special_s_va[j], v[slot]);
    const bool led = special.load.kind == LoadKind::constant_current_led && special_s_va[j] > 0;
    const bool below = led && std::abs(v[slot]) < holding_v(special.load);
    check.below_regulation = check.below_regulation || below;
    if (mode != Linearisation::tangent) {
      point.slope_s = slow_slope_s(special.load, special_s_va[j], std::abs(v[slot]), point, mode);
    }
    const Line& old = old_lines[j - special_first];
    check.residual_a = std::max(check.residual_a, std::abs(point.current_a - (old.slope_s * v[slot] + old.offset_a)));
    slope_s[slot] = point.slope_s;
    offset_a[slot] = point.current_a - point.slope_s * v[slot];
  }
  return check;
}

}  // namespace duskwire::electrical
