// SPDX-License-Identifier: Apache-2.0
// Element by element: cables and bridges as resistors (a resistance of zero as a source of no volts), outputs as a
// source with one current-controlled source per sibling for the shared resistance, loads as behavioural sources.
#include "electrical/ngspice_netlist.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <numeric>
#include <utility>
#include <vector>

#include "electrical/load_model.hpp"

namespace duskwire::electrical::testing {
namespace {

std::string point(const Terminal& terminal) {
  return fmt::format("{}{}", terminal.conductor == Conductor::a ? 'a' : 'b', terminal.node);
}

class Writer {
 public:
  Writer(const Network& network, const Condition& condition) : network_(network), condition_(condition) {}

  std::string write(const Potentials* start) {
    text_ = "a random network\nvlam lam 0 dc 1\n";
    outputs();
    for (std::size_t i = 0; i < network_.segments.size(); ++i) segment(i);
    for (std::size_t i = 0; i < network_.bridges.size(); ++i) {
      const Bridge& bridge = network_.bridges[i];
      resistor(fmt::format("br{}", i), point(bridge.p), point(bridge.q), std::max(bridge.r_ohm, least_bridge_ohm));
    }
    for (std::size_t i = 0; i < network_.loads.size(); ++i) load(i);
    references();
    if (start != nullptr) nodeset(*start);
    text_ += ".options reltol=1e-9 abstol=1e-10 vntol=1e-9 gmin=1e-18 itl1=100 itl2=100\n.end\n";
    return std::move(text_);
  }

 private:
  template <class... Values>
  void line(fmt::format_string<Values...> format, Values&&... values) {
    fmt::format_to(std::back_inserter(text_), format, std::forward<Values>(values)...);
    text_ += '\n';
  }

  void resistor(const std::string& name, const std::string& from, const std::string& to, double ohm) {
    if (ohm > 0) {
      line("r{} {} {} {:.17g}", name, from, to, ohm);
    } else {
      line("v{} {} {} dc 0", name, from, to);
    }
  }

  // Terminal volts = emf - r_own I - r_shared (sum of the siblings' currents). The current that an output delivers is
  // the current through its source, negative by the convention of SPICE, hence the minus sign of the transresistance.
  void outputs() {
    for (std::size_t i = 0; i < network_.outputs.size(); ++i) {
      const Output& output = network_.outputs[i];
      line("vo{} x{}_0 b{} dc {:.17g}", i, i, output.node, output.emf_v * condition_.mains_factor);
      int stage = 0;
      const double shared_ohm = network_.transformers[output.transformer].r_shared_ohm;
      for (std::size_t sibling = 0; sibling < network_.outputs.size() && shared_ohm > 0; ++sibling) {
        if (network_.outputs[sibling].transformer != output.transformer) continue;
        line("h{}_{} x{}_{} x{}_{} vo{} {:.17g}", i, sibling, i, stage, i, stage + 1, sibling, -shared_ohm);
        ++stage;
      }
      resistor(fmt::format("o{}", i), fmt::format("x{}_{}", i, stage), fmt::format("a{}", output.node),
               output.r_own_ohm);
    }
  }

  void nodeset(const Potentials& start) {
    for (std::uint32_t node = 0; node < network_.node_count; ++node) {
      line(".nodeset v(a{})={:.17g} v(b{})={:.17g}", node, start.a_v[node], node, start.b_v[node]);
    }
  }

  void segment(std::size_t i) {
    const Segment& segment = network_.segments[i];
    const double a_ohm = segment.copper_a_ohm * condition_.copper_factor + segment.contact_a_ohm;
    const double b_ohm = segment.copper_b_ohm * condition_.copper_factor + segment.contact_b_ohm;
    const char far_of_a = segment.crossed ? 'b' : 'a';
    const char far_of_b = segment.crossed ? 'a' : 'b';
    if (!segment.open_a) {
      resistor(fmt::format("sa{}", i), fmt::format("a{}", segment.from), fmt::format("{}{}", far_of_a, segment.to),
               a_ohm);
    }
    if (!segment.open_b) {
      resistor(fmt::format("sb{}", i), fmt::format("b{}", segment.from), fmt::format("{}{}", far_of_b, segment.to),
               b_ohm);
    }
  }

  void load(std::size_t i) {
    const Load& load = network_.loads[i];
    const double va = load_va(network_, condition_, i);
    if (va <= 0) return;
    const std::string plus = point(load.plus);
    const std::string minus = point(load.minus);
    line("b{} {} {} i={}", i, plus, minus, law(load, va, fmt::format("v({},{})", plus, minus)));
  }

  // The law of load_model.hpp as an expression, odd in the volts; v(lam) scales the power, not the leak.
  static std::string law(const Load& load, double va, const std::string& volts) {
    const std::string size = fmt::format("abs({})", volts);
    if (load.kind == LoadKind::resistive) {
      return fmt::format("v(lam)*{}*{:.17g}", volts, va / (load.rated_v * load.rated_v));
    }
    if (load.kind == LoadKind::filament) {
      return fmt::format("v(lam)*{}*{:.17g}*pow(max({}/{:.17g},{:.17g}),-0.4)", volts,
                         va / (load.rated_v * load.rated_v), size, load.rated_v, filament_linear);
    }
    const std::string fade = fmt::format("min(1,max(0,({}-{:.17g})/{:.17g}))", size, load.v_cut_off, fade_in_v);
    const std::string divisor = load.kind == LoadKind::constant_current_led
                                    ? fmt::format("{:.17g}", load.rated_v)
                                    : fmt::format("max({},{:.17g})", size, load.v_regulation_min);
    return fmt::format("v(lam)*sgn({})*{}*{:.17g}/{}+(1-{})*{:.17g}*{}", volts, fade, va, divisor, fade, leak_s, volts);
  }

  // A conductor that floats gets a potential without any current: where nothing else ties A and B of a node together, a
  // resistor does, and each part that then remains is grounded at one point. Neither can carry current, being the only
  // way in.
  void references() {
    tied_.resize(2 * std::size_t{network_.node_count});
    std::iota(tied_.begin(), tied_.end(), 0u);
    tie_elements();
    for (std::uint32_t node = 0; node < network_.node_count; ++node) {
      if (tie({node, Conductor::a}, {node, Conductor::b})) line("rf{} a{} b{} 1", node, node, node);
    }
    for (const Output& output : network_.outputs) ground(output.node);
    for (std::uint32_t node = 0; node < network_.node_count; ++node) ground(node);
  }

  // At a winding where there is one: grounded at a conductor that floats on a lamp's leak, the whole part would hang
  // from that leak, and the rounding of its currents (1e-12 A) is a microvolt across a microsiemens.
  void ground(std::uint32_t node) {
    grounded_.resize(tied_.size(), false);
    const std::uint32_t part = root(2 * node + 1);
    if (grounded_[part]) return;
    grounded_[part] = true;
    line("vg{} b{} 0 dc 0", node, node);
  }

  void tie_elements() {
    for (const Output& output : network_.outputs) tie({output.node, Conductor::a}, {output.node, Conductor::b});
    for (const Segment& segment : network_.segments) {
      const Conductor far_of_a = segment.crossed ? Conductor::b : Conductor::a;
      const Conductor far_of_b = segment.crossed ? Conductor::a : Conductor::b;
      if (!segment.open_a) tie({segment.from, Conductor::a}, {segment.to, far_of_a});
      if (!segment.open_b) tie({segment.from, Conductor::b}, {segment.to, far_of_b});
    }
    for (const Bridge& bridge : network_.bridges) tie(bridge.p, bridge.q);
    for (std::size_t i = 0; i < network_.loads.size(); ++i) {
      const Load& load = network_.loads[i];
      if (load_va(network_, condition_, i) > 0) tie(load.plus, load.minus);
    }
  }

  std::uint32_t root(std::uint32_t index) {
    while (tied_[index] != index) index = tied_[index] = tied_[tied_[index]];
    return index;
  }

  // True if the two were not tied before.
  bool tie(const Terminal& p, const Terminal& q) {
    const std::uint32_t from = root(2 * p.node + (p.conductor == Conductor::b ? 1 : 0));
    const std::uint32_t to = root(2 * q.node + (q.conductor == Conductor::b ? 1 : 0));
    if (from == to) return false;
    tied_[from] = to;
    return true;
  }

  const Network& network_;
  const Condition& condition_;
  std::vector<bool> grounded_;       // by root in `tied_`
  std::vector<std::uint32_t> tied_;  // union-find over terminals: 2 node for A, 2 node + 1 for B
  std::string text_;
};

}  // namespace

std::string ngspice_netlist(const Network& network, const Condition& condition, const Potentials* start) {
  return Writer(network, condition).write(start);
}

}  // namespace duskwire::electrical::testing
