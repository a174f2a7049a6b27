// SPDX-License-Identifier: Apache-2.0
// What can be wrong with a network as a problem.
#include <fmt/format.h>

#include "electrical/loads.hpp"
#include "electrical/partition.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical {
namespace {

// Bounds every input, so that no product of them overflows.
constexpr double largest = 1e9;

class Checker {
 public:
  explicit Checker(const Network& network) : network_(network) {}

  Problems run() {
    for (std::size_t i = 0; i < network_.segments.size(); ++i) check_segment(i);
    for (std::size_t i = 0; i < network_.loads.size(); ++i) check_load(i);
    for (std::size_t i = 0; i < network_.transformers.size(); ++i) check_transformer(i);
    for (std::size_t i = 0; i < network_.outputs.size(); ++i) check_output(i);
    for (std::size_t i = 0; i < network_.bridges.size(); ++i) check_bridge(i);
    return std::move(problems_);
  }

 private:
  void report(const char* list, std::size_t i, const char* field, double value, const char* expected, const char* why) {
    problems_.push_back({Severity::error, fmt::format("/{}/{}/{}", list, i, field), fmt::format("{}", value), expected,
                         fmt::format("{} of {}[{}] is {}: expected {}. {}", field, list, i, value, expected, why)});
  }
  void node(const char* list, std::size_t i, const char* field, std::uint32_t value) {
    if (value >= network_.node_count) {
      report(list, i, field, value, "a node below node_count", "Add the node or mend the reference.");
    }
  }
  void at_least_zero(const char* list, std::size_t i, const char* field, double value) {
    if (!(value >= 0 && value <= largest)) {
      report(list, i, field, value, "a number from 0 to 1e9", "No real part has less, or more.");
    }
  }
  void above_zero(const char* list, std::size_t i, const char* field, double value) {
    if (!(value > 0 && value <= largest)) {
      report(list, i, field, value, "a number above 0, to 1e9", "Take it from the item's label.");
    }
  }

  void check_segment(std::size_t i) {
    const Segment& segment = network_.segments[i];
    node("segments", i, "from", segment.from);
    node("segments", i, "to", segment.to);
    if (segment.from == segment.to) {
      report("segments", i, "to", segment.to, "another node than `from`",
             "A cable has two different ends; give a short as a bridge.");
    }
    at_least_zero("segments", i, "copper_a_ohm", segment.copper_a_ohm);
    at_least_zero("segments", i, "copper_b_ohm", segment.copper_b_ohm);
    at_least_zero("segments", i, "contact_a_ohm", segment.contact_a_ohm);
    at_least_zero("segments", i, "contact_b_ohm", segment.contact_b_ohm);
  }

  void check_load(std::size_t i) {
    const Load& load = network_.loads[i];
    node("loads", i, "plus", load.plus.node);
    node("loads", i, "minus", load.minus.node);
    at_least_zero("loads", i, "power_va", load.power_va);
    at_least_zero("loads", i, "v_cut_off", load.v_cut_off);
    at_least_zero("loads", i, "v_regulation_min", load.v_regulation_min);
    at_least_zero("loads", i, "v_max", load.v_max);
    if (load.kind != LoadKind::regulated_led) above_zero("loads", i, "rated_v", load.rated_v);
    if (is_led(load.kind)) {
      above_zero("loads", i, "v_regulation_min", load.v_regulation_min);
      if (load.v_cut_off > load.v_regulation_min) {
        report("loads", i, "v_cut_off", load.v_cut_off, "no more than v_regulation_min",
               "A driver cannot regulate below the volts at which it goes dark.");
      }
    }
  }

  void check_transformer(std::size_t i) {
    at_least_zero("transformers", i, "r_shared_ohm", network_.transformers[i].r_shared_ohm);
    at_least_zero("transformers", i, "rating_va", network_.transformers[i].rating_va);
    at_least_zero("transformers", i, "core_loss_w", network_.transformers[i].core_loss_w);
  }

  void check_output(std::size_t i) {
    const Output& output = network_.outputs[i];
    node("outputs", i, "node", output.node);
    if (output.transformer >= network_.transformers.size()) {
      report("outputs", i, "transformer", output.transformer, "the index of a transformer", "Add the transformer.");
    }
    at_least_zero("outputs", i, "emf_v", output.emf_v);
    at_least_zero("outputs", i, "r_own_ohm", output.r_own_ohm);
    at_least_zero("outputs", i, "limit_a", output.limit_a);
  }

  void check_bridge(std::size_t i) {
    node("bridges", i, "p", network_.bridges[i].p.node);
    node("bridges", i, "q", network_.bridges[i].q.node);
    at_least_zero("bridges", i, "r_ohm", network_.bridges[i].r_ohm);
  }

  const Network& network_;
  Problems problems_;
};

void warn_of_islands(const Network& network, Problems& problems) {
  const Partition parts = partition(network);
  for (std::size_t i = 0; i < network.loads.size(); ++i) {
    const Load& load = network.loads[i];
    if (parts.parts[parts.part_of_node[load.plus.node]].shape == PartShape::dead) {
      problems.push_back({Severity::warning, fmt::format("/loads/{}", i), "", "a path to an output",
                          fmt::format("Load {} hangs on an island that no output feeds.", i)});
    }
    if (load.plus.node != load.minus.node) {
      problems.push_back(
          {Severity::warning, fmt::format("/loads/{}", i), "", "both leads at one node",
           fmt::format("Load {} lies across two nodes ({} and {}).", i, load.plus.node, load.minus.node)});
    }
  }
}

}  // namespace

Problems validate(const Network& network) {
  Problems problems = Checker(network).run();
  if (!has_errors(problems)) warn_of_islands(network, problems);
  return problems;
}

Problems validate_errors(const Network& network) { return Checker(network).run(); }

}  // namespace duskwire::electrical
