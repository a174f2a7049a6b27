// SPDX-License-Identifier: Apache-2.0
#include "faulty/garden.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/units.hpp"
#include "electrical/conductor.hpp"
#include "electrical/solver.hpp"

namespace duskwire::faulty {
namespace {

using electrical::Conductor;

constexpr double good_splice_ohm = 0.004;  // both conductors, both ends

class Gardener {
 public:
  Gardener(Shape shape, wiring::Dice& dice) : shape_(shape), dice_(dice) {}

  Garden run(std::uint32_t lamps) {
    constexpr std::uint32_t usual_run = 10;
    const std::uint32_t runs = std::max(1U, (lamps + usual_run - 1) / usual_run);
    for (std::uint32_t r = 0; r < runs; ++r) {
      const std::uint32_t count = lamps / runs + (r < lamps % runs ? 1 : 0);
      add_output(r);
      add_run(count);
    }
    choose_taps();
    return std::move(garden_);
  }

 private:
  double between(double low, double high) { return low + (high - low) * dice_.unit(); }

  std::uint32_t new_node() { return garden_.network.node_count++; }

  std::uint32_t lay(std::uint32_t from, double length_m, double gauge_awg, bool lead = false) {
    const std::uint32_t to = new_node();
    tie(from, to, length_m, gauge_awg, lead);
    return to;
  }

  void tie(std::uint32_t from, std::uint32_t to, double length_m, double gauge_awg, bool lead) {
    electrical::Segment segment;
    segment.from = from;
    segment.to = to;
    const double area_mm2 = units::area_mm2_from_awg(gauge_awg);
    segment.copper_a_ohm = segment.copper_b_ohm = length_m * electrical::copper_ohm_per_m_20c(area_mm2);
    segment.contact_a_ohm = segment.contact_b_ohm = good_splice_ohm / 2;
    garden_.network.segments.push_back(segment);
    garden_.leads.push_back(lead);
  }

  void lamp(std::uint32_t node) {
    static constexpr double sizes_va[] = {2.5, 4, 4, 6};
    electrical::Load load;
    load.plus = {node, Conductor::a};
    load.minus = {node, Conductor::b};
    load.power_va = sizes_va[dice_.below(4)];
    load.v_cut_off = 6;
    load.v_regulation_min = 9.5;
    load.v_max = 15;
    garden_.network.loads.push_back(load);
  }

  void add_output(std::uint32_t run) {
    electrical::Network& network = garden_.network;
    constexpr std::uint32_t outputs_each = 4;
    if (run % outputs_each == 0) {
      electrical::Transformer transformer;
      transformer.r_shared_ohm = 0.01;
      transformer.core_loss_w = 15;
      network.transformers.push_back(transformer);
    }
    const auto t = static_cast<std::uint32_t>(network.transformers.size() - 1);
    network.outputs.push_back({new_node(), t, 15, 0.02, 15});
    start_ = network.outputs.back().node;
  }

  void add_run(std::uint32_t count) {
    const double home_m = between(8, 25);
    if (shape_ == Shape::chain) chain(home_m, count);
    if (shape_ == Shape::tee) tee(home_m, count);
    if (shape_ == Shape::hub) hubs(home_m, count);
    if (shape_ == Shape::loop) loop(home_m, count);
  }

  void chain(double home_m, std::uint32_t count) {
    std::uint32_t at = lay(start_, home_m, 12);
    lamp(at);
    for (std::uint32_t k = 1; k < count; ++k) lamp(at = lay(at, between(2.5, 6), 12));
  }

  // A trunk with a joint at every second lamp, from which one lamp hangs on its lead and a branch leads on.
  void tee(double home_m, std::uint32_t count) {
    std::uint32_t trunk = lay(start_, home_m, 12);
    for (std::uint32_t k = 0; k < count;) {
      lamp(lay(trunk, between(1, 3), 16, true));
      if (++k < count && dice_.unit() < 0.6) {
        const std::uint32_t branch = lay(trunk, between(2, 7), 14);
        lamp(lay(branch, between(1, 3), 16, true));
        ++k;
      }
      if (k < count) trunk = lay(trunk, between(3, 7), 12);
    }
  }

  void hubs(double home_m, std::uint32_t count) {
    std::uint32_t hub = lay(start_, home_m, 12);
    for (std::uint32_t k = 0; k < count;) {
      const auto here = static_cast<std::uint32_t>(3 + dice_.below(3));
      for (std::uint32_t n = 0; n < here && k < count; ++n, ++k) lamp(lay(hub, between(3, 10), 14, true));
      if (k < count) hub = lay(hub, between(6, 15), 12);
    }
  }

  void loop(double home_m, std::uint32_t count) {
    std::uint32_t at = lay(start_, home_m, 12);
    lamp(at);
    for (std::uint32_t k = 1; k < count; ++k) lamp(at = lay(at, between(2.5, 6), 12));
    tie(at, start_, home_m * between(0.8, 1.2), 12, false);
  }

  // The lowest tap that keeps every lamp above 10.8 V, run by run.
  void choose_taps() {
    for (const double tap_v : {12.0, 13.0, 14.0, 15.0}) {
      for (electrical::Output& output : garden_.network.outputs) output.emf_v = tap_v;
      const electrical::Solution solution = electrical::solve(garden_.network).value();
      if (*std::min_element(solution.load_v.begin(), solution.load_v.end()) > 10.8) return;
    }
  }

  Shape shape_;
  wiring::Dice& dice_;
  Garden garden_;
  std::uint32_t start_ = 0;
};

}  // namespace

Garden make_garden(Shape shape, std::uint32_t lamps, wiring::Dice& dice) { return Gardener(shape, dice).run(lamps); }

double normal(wiring::Dice& dice) {
  const double radius = std::sqrt(-2 * std::log(1 - dice.unit()));
  return radius * std::cos(2 * std::numbers::pi * dice.unit());
}

}  // namespace duskwire::faulty
