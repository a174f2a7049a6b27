// SPDX-License-Identifier: Apache-2.0
// Builds random networks tree by tree, then adds lamps, then faults.
#include "electrical/random_networks.hpp"

#include <array>
#include <cmath>
#include <numeric>
#include <utility>

namespace duskwire::electrical::testing {

std::uint64_t Dice::next() {
  state_ += 0x9e3779b97f4a7c15ull;
  std::uint64_t mixed = state_;
  mixed = (mixed ^ (mixed >> 30)) * 0xbf58476d1ce4e5b9ull;
  mixed = (mixed ^ (mixed >> 27)) * 0x94d049bb133111ebull;
  return mixed ^ (mixed >> 31);
}
double Dice::uniform(double low, double high) {
  return low + (high - low) * (static_cast<double>(next() >> 11) * 0x1.0p-53);
}
double Dice::log_uniform(double low, double high) { return std::exp(uniform(std::log(low), std::log(high))); }
std::uint32_t Dice::below(std::uint32_t count) { return static_cast<std::uint32_t>(next() % count); }
bool Dice::chance(double probability) { return uniform(0, 1) < probability; }

namespace {

enum class Shape : std::uint8_t { chain, tee, hub, mixed };

// Ohm per metre of one conductor, 18 to 8 AWG (58 MS/m copper; rounded, for realism only).
constexpr std::array<double, 6> ohm_per_m = {0.0209, 0.0132, 0.0083, 0.0052, 0.0033, 0.0021};

// The nodes of one output's tree: first ... first + count - 1, all cables of it tree_first ... tree_last - 1.
struct Tree {
  std::uint32_t first = 0;
  std::uint32_t count = 0;
  std::uint32_t segment_first = 0;
  std::uint32_t segment_last = 0;
  bool has_loop = false;
};

class Builder {
 public:
  Builder(std::uint64_t seed, const Mix& mix) : mix_(mix), dice_(seed) { made_.seed = seed; }

  RandomCase build() {
    power_scale_ = dice_.log_uniform(mix_.power_scale_low, mix_.power_scale_high);
    supplies();
    for (const Tree& tree : trees_) lamps(tree);
    if (mix_.loops) loops();
    if (mix_.ties && trees_.size() > 1 && dice_.chance(0.15)) tie();
    if (mix_.opens) opens();
    if (mix_.crossed && dice_.chance(0.12)) cross();
    if (mix_.bridges) bridges();
    if (mix_.islands && dice_.chance(0.1)) island();
    condition();
    return std::move(made_);
  }

 private:
  Network& network() { return made_.network; }

  void supplies() {
    const std::uint32_t transformer_count = 1 + dice_.below(mix_.transformers);
    made_.traits.several_transformers = transformer_count > 1;
    for (std::uint32_t transformer = 0; transformer < transformer_count; ++transformer) {
      const double shared_ohm = dice_.chance(0.7) ? dice_.uniform(0.001, 0.03) : 0.0;
      network().transformers.push_back({.r_shared_ohm = shared_ohm, .rating_va = 300, .core_loss_w = 8});
      const std::uint32_t output_count = 1 + dice_.below(3);
      if (output_count > 1 && shared_ohm > 0) made_.traits.shared_resistance = true;
      for (std::uint32_t output = 0; output < output_count; ++output) output_with_tree(transformer);
    }
  }

  void output_with_tree(std::uint32_t transformer) {
    constexpr std::array<double, 6> taps_v = {12, 13, 14, 15, 15, 22};
    Output output;
    output.node = network().node_count;
    output.transformer = transformer;
    output.emf_v = taps_v[dice_.below(taps_v.size())];
    output.r_own_ohm = dice_.uniform(0.005, 0.08);
    output.limit_a = 25;
    network().outputs.push_back(output);
    trees_.push_back(grow(static_cast<Shape>(dice_.below(4))));
  }

  Tree grow(Shape shape) {
    Tree tree;
    tree.first = network().node_count;
    tree.count = 2 + dice_.below(mix_.nodes_per_output);
    tree.segment_first = static_cast<std::uint32_t>(network().segments.size());
    network().node_count += tree.count;
    if (shape == Shape::hub) made_.traits.hub = true;
    for (std::uint32_t child = 1; child < tree.count; ++child)
      cable(tree.first + parent_of(child, shape), tree.first + child);
    tree.segment_last = static_cast<std::uint32_t>(network().segments.size());
    return tree;
  }

  std::uint32_t parent_of(std::uint32_t child, Shape shape) {
    if (shape == Shape::chain || child == 1) return child - 1;
    if (shape == Shape::hub) return 1;
    if (shape == Shape::tee) return dice_.chance(0.75) ? child - 1 : dice_.below(child);
    return dice_.below(child);
  }

  void cable(std::uint32_t from, std::uint32_t to) {
    if (dice_.chance(0.3)) std::swap(from, to);
    Segment segment;
    segment.from = from;
    segment.to = to;
    // One throw a statement, here and below: in which order two operands or arguments are evaluated is the compiler's.
    const double length_m = dice_.uniform(0.5, 10);
    segment.copper_a_ohm = maybe_zero(length_m * ohm_per_m[dice_.below(ohm_per_m.size())]);
    segment.copper_b_ohm = dice_.chance(0.8) ? segment.copper_a_ohm : segment.copper_a_ohm * dice_.uniform(0.4, 2.0);
    if (dice_.chance(0.5)) segment.contact_a_ohm = dice_.uniform(0.0002, 0.01);
    if (dice_.chance(0.5)) segment.contact_b_ohm = dice_.uniform(0.0002, 0.01);
    network().segments.push_back(segment);
  }

  double maybe_zero(double ohm) { return mix_.zero_ohm && dice_.chance(0.15) ? 0.0 : ohm; }

  void lamps(const Tree& tree) {
    for (std::uint32_t node = tree.first; node < tree.first + tree.count; ++node) {
      if (dice_.chance(node == tree.first ? 0.1 : 0.75)) lamp(node, node);
      if (dice_.chance(0.1)) lamp(node, node);
    }
    if (dice_.chance(0.1)) {
      const std::uint32_t minus_node = any_node(tree);
      lamp(any_node(tree), minus_node);
      made_.traits.lamp_across_nodes = true;
    }
  }

  void lamp(std::uint32_t plus_node, std::uint32_t minus_node) {
    Load load;
    load.plus = {plus_node, Conductor::a};
    load.minus = {minus_node, Conductor::b};
    if (dice_.chance(0.1)) {
      std::swap(load.plus, load.minus);
      made_.traits.reversed_lamp = true;
    }
    load.kind =
        mix_.only_regulated || dice_.chance(0.5) ? LoadKind::regulated_led : static_cast<LoadKind>(dice_.below(4));
    const bool led = load.kind == LoadKind::regulated_led || load.kind == LoadKind::constant_current_led;
    load.power_va = power_scale_ * (led ? dice_.uniform(1, 12) : dice_.uniform(5, 25));
    load.rated_v = dice_.chance(0.8) ? 12 : 24;
    if (led) regulation(load);
    network().loads.push_back(load);
  }

  // Windows of 6/9, 8/10, ... volts; some lamps without a cut-off and some whose regulation starts inside the fade-in.
  void regulation(Load& load) {
    load.v_cut_off = dice_.chance(0.15) ? 0.0 : dice_.uniform(4, 9);
    load.v_regulation_min = load.v_cut_off + (dice_.chance(0.1) ? 0.1 : dice_.uniform(0.5, 4));
    load.v_max = 15;
  }

  void loops() {
    for (Tree& tree : trees_) {
      if (tree.count < 3 || !dice_.chance(0.35)) continue;
      const std::uint32_t extra = 1 + dice_.below(2);
      for (std::uint32_t i = 0; i < extra; ++i) {
        const std::uint32_t from = dice_.below(tree.count);
        const std::uint32_t to = (from + 1 + dice_.below(tree.count - 1)) % tree.count;
        cable(tree.first + from, tree.first + to);
      }
      tree.has_loop = made_.traits.loop = true;
    }
  }

  void tie() {
    const std::uint32_t first = dice_.below(static_cast<std::uint32_t>(trees_.size()));
    const std::uint32_t second = (first + 1) % static_cast<std::uint32_t>(trees_.size());
    const std::uint32_t to = any_node(trees_[second]);
    cable(any_node(trees_[first]), to);
    made_.traits.tie = true;
  }

  std::uint32_t any_node(const Tree& tree) { return tree.first + dice_.below(tree.count); }

  void opens() {
    for (const Tree& tree : trees_) {
      if (tree.segment_first == tree.segment_last || !dice_.chance(0.25)) continue;
      Segment& segment = network().segments[tree.segment_first + dice_.below(tree.segment_last - tree.segment_first)];
      (dice_.chance(0.5) ? segment.open_a : segment.open_b) = true;
      if (dice_.chance(0.1)) segment.open_a = segment.open_b = true;
      (tree.has_loop ? made_.traits.open_in_loop : made_.traits.open_in_tree) = true;
    }
  }

  void cross() {
    network().segments[dice_.below(static_cast<std::uint32_t>(network().segments.size()))].crossed = true;
    made_.traits.crossed = true;
  }

  // Between the conductors of one node (a short), or of two nodes of one tree (a bridged tap, a half-made joint).
  void bridges() {
    for (const Tree& tree : trees_) {
      if (!dice_.chance(0.2)) continue;
      const std::uint32_t node = any_node(tree);
      Bridge bridge{{node, Conductor::a}, {node, Conductor::b}, dice_.log_uniform(0.01, 50)};
      if (dice_.chance(0.5)) bridge.q.node = any_node(tree);
      if (bridge.q.node != node && dice_.chance(0.5)) bridge.q.conductor = Conductor::a;
      bridge.r_ohm = maybe_zero(bridge.r_ohm);
      network().bridges.push_back(bridge);
      made_.traits.bridge = true;
    }
  }

  void island() {
    const std::uint32_t node = network().node_count;
    network().node_count += 2;
    cable(node, node + 1);
    lamp(node + 1, node + 1);
    made_.traits.island = true;
  }

  void condition() {
    Condition& condition = made_.condition;
    condition.mains_factor = dice_.chance(0.3) ? 1.0 : dice_.uniform(0.9, 1.1);
    condition.copper_factor = dice_.chance(0.3) ? 1.0 : dice_.uniform(0.9, 1.35);
    condition.load_factor = dice_.chance(0.5) ? 1.0 : dice_.uniform(0.3, 1.5);
    if (!dice_.chance(0.5)) return;
    made_.traits.dimmed = true;
    for (std::size_t load = 0; load < network().loads.size(); ++load) {
      const double level = dice_.chance(0.2) ? 0.0 : dice_.chance(0.3) ? 1.0 : dice_.uniform(0.05, 1);
      condition.load_level.push_back(static_cast<float>(level));
    }
  }

  Mix mix_;
  Dice dice_;
  RandomCase made_;
  std::vector<Tree> trees_;
  double power_scale_ = 1;
};

}  // namespace

RandomCase random_case(std::uint64_t seed, const Mix& mix) { return Builder(seed, mix).build(); }

RandomCase shuffled_loads(const RandomCase& original, std::vector<std::uint32_t>* order) {
  const std::size_t count = original.network.loads.size();
  order->resize(count);
  std::iota(order->begin(), order->end(), 0u);
  Dice dice(original.seed ^ 0x5bd1e995u);
  for (std::size_t i = count; i > 1; --i)
    std::swap((*order)[i - 1], (*order)[dice.below(static_cast<std::uint32_t>(i))]);
  RandomCase shuffled = original;
  for (std::size_t i = 0; i < count; ++i) {
    shuffled.network.loads[i] = original.network.loads[(*order)[i]];
    if (!original.condition.load_level.empty())
      shuffled.condition.load_level[i] = original.condition.load_level[(*order)[i]];
  }
  return shuffled;
}

}  // namespace duskwire::electrical::testing
