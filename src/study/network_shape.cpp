// SPDX-License-Identifier: Apache-2.0
#include "study/network_shape.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <queue>

namespace duskwire::study {
namespace {

Spot spot_of_wire(const Wire& wire) { return {wire.is_lead ? SpotKind::luminaire : SpotKind::cable, wire.index, 0}; }

// Sets of nodes joined by wires; each node knows whether its conductors are swapped against those of its set's head.
class Sets {
 public:
  explicit Sets(std::uint32_t count) : parent_(count), swapped_(count, false) {
    for (std::uint32_t i = 0; i < count; ++i) parent_[i] = i;
  }

  struct Head {
    std::uint32_t node = 0;
    bool swapped = false;
  };
  Head find(std::uint32_t node) {
    Head head{node, false};
    while (parent_[head.node] != head.node) {
      head.swapped = head.swapped != swapped_[head.node];
      head.node = parent_[head.node];
    }
    // The path is shortened for the next question.
    bool to_head = head.swapped;
    while (parent_[node] != node) {
      const std::uint32_t next = parent_[node];
      const bool own = swapped_[node];
      parent_[node] = head.node;
      swapped_[node] = to_head;
      to_head = to_head != own;
      node = next;
    }
    return head;
  }

  void join(const Head& kept, const Head& other, bool swapped) {
    parent_[other.node] = kept.node;
    swapped_[other.node] = (kept.swapped != other.swapped) != swapped;
  }

 private:
  std::vector<std::uint32_t> parent_;
  std::vector<bool> swapped_;
};

class Shape {
 public:
  Shape(Built& built, const electrical::Network& network)
      : built_(built), network_(network), sets_(network.node_count), output_of_head_(network.node_count, none) {
    at_node_.resize(network.node_count);
    for (std::uint32_t s = 0; s < network.segments.size(); ++s) {
      at_node_[network.segments[s].from].push_back(s);
      at_node_[network.segments[s].to].push_back(s);
    }
  }

  void run() {
    join_wires();
    find_supply();
    mark_shorted();
    report_islands();
    report_lamps();
    report_unused_outputs();
  }

 private:
  void add(TroubleKind kind, Spot spot, std::string detail = {}) {
    Trouble trouble;
    trouble.kind = kind;
    trouble.spot = spot;
    trouble.detail = std::move(detail);
    built_.troubles.push_back(std::move(trouble));
  }

  void join_wires() {
    for (std::uint32_t o = 0; o < built_.outputs.size(); ++o) output_of_head_[o] = o;
    for (std::uint32_t s = 0; s < network_.segments.size(); ++s) {
      const electrical::Segment& wire = network_.segments[s];
      const Sets::Head from = sets_.find(wire.from);
      const Sets::Head to = sets_.find(wire.to);
      if (from.node == to.node) {
        const bool swapped = (from.swapped != to.swapped) != wire.crossed;
        if (swapped) report_crossed_loop(s);
        continue;
      }
      join_two(s, from, to, wire.crossed);
    }
  }

  void join_two(std::uint32_t s, const Sets::Head& from, const Sets::Head& to, bool crossed) {
    const std::uint32_t p = output_of_head_[from.node];
    const std::uint32_t q = output_of_head_[to.node];
    if (p != none && q != none) {
      add(TroubleKind::outputs_joined, spot_of_wire(built_.wires[s]),
          fmt::format("{} and {}", id_of(*built_.job, built_.spot_of_output(p)),
                      id_of(*built_.job, built_.spot_of_output(q))));
    }
    sets_.join(from, to, crossed);
    output_of_head_[from.node] = p != none ? p : q;
    tree_.push_back(s);
  }

  // The cable to put right is the one that is drawn crossed, where only one of the loop is; else the one that closes
  // it.
  void report_crossed_loop(std::uint32_t closing) {
    std::uint32_t culprit = closing;
    std::uint32_t crossed_count = 0;
    for (const std::uint32_t s : loop_of(closing)) {
      if (!network_.segments[s].crossed) continue;
      ++crossed_count;
      culprit = s;
    }
    if (crossed_count != 1) culprit = closing;
    add(TroubleKind::crossed_loop, spot_of_wire(built_.wires[culprit]));
    shorted_nodes_.push_back(network_.segments[closing].from);
  }

  // The closing segment and the way between its ends over the tree of those joined before.
  std::vector<std::uint32_t> loop_of(std::uint32_t closing) {
    std::vector<bool> in_tree(network_.segments.size(), false);
    for (const std::uint32_t s : tree_) in_tree[s] = true;
    std::vector<std::uint32_t> came_by(network_.node_count, none);
    const std::uint32_t start = network_.segments[closing].from;
    const std::uint32_t goal = network_.segments[closing].to;
    std::vector<std::uint32_t> queue{start};
    for (std::size_t at = 0; at < queue.size() && came_by[goal] == none; ++at) {
      for (const std::uint32_t s : at_node_[queue[at]]) {
        const std::uint32_t next = other_end(s, queue[at]);
        if (!in_tree[s] || next == start || came_by[next] != none) continue;
        came_by[next] = s;
        queue.push_back(next);
      }
    }
    std::vector<std::uint32_t> loop{closing};
    for (std::uint32_t node = goal; node != start && came_by[node] != none; node = other_end(came_by[node], node)) {
      loop.push_back(came_by[node]);
    }
    return loop;
  }

  [[nodiscard]] std::uint32_t other_end(std::uint32_t segment, std::uint32_t node) const {
    const electrical::Segment& wire = network_.segments[segment];
    return wire.from == node ? wire.to : wire.from;
  }

  // Shortest ways along the wires from every output at once.
  void find_supply() {
    built_.supply.assign(network_.node_count, {});
    using Reach = std::pair<double, std::uint32_t>;
    std::priority_queue<Reach, std::vector<Reach>, std::greater<>> queue;
    for (std::uint32_t o = 0; o < built_.outputs.size(); ++o) {
      built_.supply[o].output = o;
      queue.emplace(0.0, o);
    }
    std::vector<bool> settled(network_.node_count, false);
    while (!queue.empty()) {
      const std::uint32_t node = queue.top().second;
      queue.pop();
      if (settled[node]) continue;
      settled[node] = true;
      for (const std::uint32_t s : at_node_[node]) {
        const std::uint32_t next = other_end(s, node);
        const double distance_m = built_.supply[node].distance_m + built_.wires[s].length_m;
        Supply& reached = built_.supply[next];
        if (settled[next] || (reached.output != none && reached.distance_m <= distance_m)) continue;
        reached = {built_.supply[node].output, s, distance_m};
        queue.emplace(distance_m, next);
      }
    }
  }

  void mark_shorted() {
    built_.dead_short.assign(network_.node_count, false);
    if (shorted_nodes_.empty()) return;
    std::vector<bool> head_shorted(network_.node_count, false);
    for (const std::uint32_t node : shorted_nodes_) head_shorted[sets_.find(node).node] = true;
    for (std::uint32_t node = 0; node < network_.node_count; ++node) {
      built_.dead_short[node] = head_shorted[sets_.find(node).node];
    }
  }

  // One finding for each group of wires that no output feeds, at its first cable, with its lamps.
  void report_islands() {
    std::vector<std::uint32_t> first_wire(network_.node_count, none);
    for (std::uint32_t s = 0; s < network_.segments.size(); ++s) {
      const std::uint32_t head = sets_.find(network_.segments[s].from).node;
      if (output_of_head_[head] != none) continue;
      std::uint32_t& first = first_wire[head];
      // Leads are numbered before cables; the island is named after a cable where it has one.
      if (first == none || (built_.wires[first].is_lead && !built_.wires[s].is_lead)) first = s;
    }
    for (std::uint32_t head = 0; head < network_.node_count; ++head) {
      if (first_wire[head] == none) continue;
      add(TroubleKind::island, spot_of_wire(built_.wires[first_wire[head]]));
      Trouble& trouble = built_.troubles.back();
      for (std::uint32_t i = 0; i < built_.lamps.size(); ++i) {
        if (sets_.find(built_.node_of_luminaire(i)).node != head) continue;
        if (!trouble.detail.empty()) trouble.detail += ", ";
        trouble.detail += built_.job->luminaires[i].id;
        trouble.measured += 1;
      }
    }
  }

  void report_lamps() {
    std::string chained;
    std::uint32_t first_chained = none;
    for (std::uint32_t i = 0; i < built_.lamps.size(); ++i) {
      const std::vector<std::uint32_t>& wires = at_node_[built_.node_of_luminaire(i)];
      const Spot spot{SpotKind::luminaire, i, 0};
      if (wires.empty()) {
        add(TroubleKind::lamp_no_supply, spot);
        continue;
      }
      if (wires.size() < 2) continue;
      if (built_.segment_of_lead[i] != none) add(TroubleKind::lamp_fed_twice, spot);
      if (built_.segment_of_lead[i] != none || !wants_joint(i)) continue;
      if (first_chained == none) first_chained = i;
      if (!chained.empty()) chained += ", ";
      chained += built_.job->luminaires[i].id;
    }
    if (first_chained != none) add(TroubleKind::cables_at_lamp, {SpotKind::luminaire, first_chained, 0}, chained);
  }

  // A bollard has room and terminals for two cables in its foot; a fixture with a lead of its own has not.
  [[nodiscard]] bool wants_joint(std::uint32_t luminaire) const {
    const job::LuminaireItem* item = job::find_luminaire(built_.job->catalogue, built_.job->luminaires[luminaire].item);
    return item && item->lead_length_m > 0 && item->kind != job::LuminaireKind::bollard;
  }

  void report_unused_outputs() {
    for (std::uint32_t o = 0; o < built_.outputs.size(); ++o) {
      if (at_node_[o].empty()) add(TroubleKind::output_unused, built_.spot_of_output(o));
    }
  }

  Built& built_;
  const electrical::Network& network_;
  Sets sets_;
  std::vector<std::uint32_t> output_of_head_;
  std::vector<std::vector<std::uint32_t>> at_node_;
  std::vector<std::uint32_t> tree_;
  std::vector<std::uint32_t> shorted_nodes_;
};

}  // namespace

void examine_shape(Built& built, const electrical::Network& network) { Shape(built, network).run(); }

}  // namespace duskwire::study
