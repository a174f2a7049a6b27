// SPDX-License-Identifier: Apache-2.0
#include "paper/wiring_tree.hpp"

#include <algorithm>
#include <string_view>
#include <unordered_map>

namespace duskwire::paper {
namespace {

using Indices = std::vector<std::uint32_t>;

// The steps of one run as a tree: where a loop closes is a leaf.
class RunTree {
 public:
  explicit RunTree(const study::CrewRun& run) : size_(run.steps.size(), 1), below_(run.steps.size()) {
    std::unordered_map<std::string_view, std::uint32_t> arrival;  // the step by which a place was reached
    for (std::uint32_t s = 0; s < run.steps.size(); ++s) {
      const study::CrewStep& step = run.steps[s];
      const auto parent = arrival.find(step.from);
      (parent == arrival.end() ? first_ : below_[parent->second]).push_back(s);
      if (!step.closes_loop) arrival.emplace(step.to, s);
    }
    // A step stands behind its parent: from the end each is whole when it is added.
    for (std::uint32_t s = static_cast<std::uint32_t>(run.steps.size()); s-- > 0;) {
      for (const std::uint32_t child : below_[s]) size_[s] += size_[child];
      sort(below_[s]);
    }
    sort(first_);
  }

  [[nodiscard]] const Indices& below(std::uint32_t step) const { return step == no_step ? first_ : below_[step]; }

 private:
  // The largest last: it goes straight on.
  void sort(Indices& steps) const {
    std::stable_sort(steps.begin(), steps.end(), [&](std::uint32_t p, std::uint32_t q) { return size_[p] < size_[q]; });
  }

  std::vector<std::uint32_t> size_;
  std::vector<Indices> below_;
  Indices first_;
};

void add_run(std::uint32_t index, const study::CrewRun& run, WiringTree& tree) {
  struct Open {
    std::uint32_t step;
    std::uint32_t lane;
    std::uint32_t parent_lane;
    std::uint32_t parent_row;
    bool is_last;
  };
  const RunTree steps(run);
  std::vector<Open> open = {{no_step, 0, 0, no_step, false}};
  while (!open.empty()) {
    const Open at = open.back();
    open.pop_back();
    const auto row = static_cast<std::uint32_t>(tree.rows.size());
    tree.rows.push_back({index, at.step, at.lane, at.parent_lane});
    tree.lanes = std::max(tree.lanes, at.lane + 1);
    if (at.is_last) tree.lines.push_back({at.parent_lane, at.parent_row, row});
    const Indices& below = steps.below(at.step);
    for (std::size_t i = below.size(); i-- > 0;) {
      const bool is_last = i + 1 == below.size();
      open.push_back({below[i], is_last ? at.lane : at.lane + 1, at.lane, row, is_last});
    }
  }
}

}  // namespace

WiringTree wiring_tree(const std::vector<study::CrewRun>& runs) {
  WiringTree tree;
  for (std::uint32_t r = 0; r < runs.size(); ++r) add_run(r, runs[r], tree);
  return tree;
}

}  // namespace duskwire::paper
