// SPDX-License-Identifier: Apache-2.0
// What might cure a trouble, by kind of trouble: lists of changes worth trying, with the words for what they do.
// Nothing is solved here. Internal to the room.
#pragma once

#include <string>
#include <vector>

#include "job/change.hpp"
#include "study/cure_trial.hpp"
#include "study/network_builder.hpp"
#include "study/numbers.hpp"

namespace duskwire::study {

struct Candidate {
  std::string action;  // "Tap 14 on T1-A"
  std::vector<job::Change> changes;
};
using Candidates = std::vector<Candidate>;

class CureCandidates {
 public:
  explicit CureCandidates(const Trials& trials);

  // Taps of an output above (or below) its own, nearest first.
  [[nodiscard]] Candidates other_taps(std::uint32_t output, bool higher) const;
  // Cables between a node and its output, the one with the most to win first.
  [[nodiscard]] std::vector<std::uint32_t> path_cables(std::uint32_t node) const;
  // The cables as they are now, each `steps` sizes thicker; no changes where no thicker one is to be had.
  [[nodiscard]] Candidate thicker(const std::vector<std::uint32_t>& cables, int steps) const;
  // A cable on the way to the node that begins at a joint or lamp begins at an output instead, with a cable of its own
  // along the old route.
  [[nodiscard]] Candidates home_runs(std::uint32_t node) const;
  // A whole run of an output is landed on a sibling output.
  [[nodiscard]] Candidates other_outputs(std::uint32_t output) const;
  // The lamp is hung on another joint within reach of its lead, nearer to a source.
  [[nodiscard]] Candidates other_joints(std::uint32_t luminaire) const;
  // Units of the stock with more VA or outputs, cheapest first.
  [[nodiscard]] Candidates larger_transformers(std::uint32_t transformer, double needed_va) const;
  // A larger unit (or the same, where it has outputs left) and one run moved to the output that this adds.
  [[nodiscard]] Candidates added_outputs(std::uint32_t output) const;
  // Protective devices below the present one that still carry the load and that the far short exceeds.
  [[nodiscard]] Candidates smaller_breakers(std::uint32_t output) const;
  // A cable from the nearest place with supply to the group of wires that the node belongs to, by the plan.
  [[nodiscard]] Candidates links(std::uint32_t node) const;

 private:
  [[nodiscard]] const job::CableItem* thicker_item(const job::CableItem& item, int steps) const;
  [[nodiscard]] std::vector<std::uint32_t> first_cables(std::uint32_t output) const;
  [[nodiscard]] std::string length_words(double length_m) const;
  [[nodiscard]] std::string free_cable_id(const std::string& wish) const;

  const Trials& trials_;
  const Built& built_;
  const job::Job& job_;
  const Numbers& numbers_;
  std::vector<const job::CableItem*> ladder_;  // every cable item known, thin to thick
};

// Sizes that protective devices for garden outputs are commonly sold in, amperes (common practice, no source).
inline constexpr double breaker_sizes_a[] = {1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25};
// It carries the worst load on the share of its size that is to be used, and a short exceeds it.
[[nodiscard]] inline bool breaker_fits(double size_a, double worst_a, double allowed_share, double short_a) {
  return worst_a <= size_a * allowed_share && size_a < short_a;
}

}  // namespace duskwire::study
