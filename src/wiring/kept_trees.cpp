// SPDX-License-Identifier: Apache-2.0
#include "wiring/kept_trees.hpp"

namespace duskwire::wiring {
namespace {

// How many cables the trees before this one have.
std::uint32_t first_id(const PlanProblem& problem, const KeptTree& tree) {
  std::uint32_t count = 0;
  for (const KeptTree* before = problem.kept.data(); before != &tree; ++before) {
    count += static_cast<std::uint32_t>(before->cables.size());
  }
  return count;
}

void lay_tree(const PlanProblem& problem, const KeptTree& tree, std::uint32_t base, std::uint32_t output,
              Layout& layout) {
  std::uint32_t id = first_id(problem, tree);
  std::vector<std::uint32_t> ends;
  for (const KeptCable& cable : tree.cables) {
    const std::uint32_t from = cable.from == none ? base : ends[cable.from];
    const std::uint32_t start = from == none ? problem.places[tree.place].node : layout.spots[from].node;
    const std::uint32_t end = layout.lay(from, output, make_way(problem.ground, start, cable.edges));
    Lay& lay = layout.lays[layout.spots[end].in];
    lay.kept = true;
    lay.kept_id = id++;
    lay.kept_cut_m = cable.cut_m;
    lay.type = cable.type;
    layout.spots[end].joint = cable.lamp == none;
    layout.spots[end].closed = cable.lamp != none;
    if (cable.lamp != none) layout.put(cable.lamp, end);
    ends.push_back(end);
  }
}

}  // namespace

void lay_kept(const PlanProblem& problem, Layout& layout) {
  for (const KeptTree& tree : problem.kept) {
    if (tree.place == none) continue;
    const std::uint32_t output = layout.new_output(tree.place);
    layout.outputs[output].kept = true;
    lay_tree(problem, tree, none, output, layout);
  }
}

void feed_kept(const PlanProblem& problem, Search& search, Wiring& wiring) {
  for (const KeptTree& tree : problem.kept) {
    if (tree.place != none) continue;
    const std::uint32_t base = search.feed_joint(wiring, tree.node);
    if (base == none) continue;
    lay_tree(problem, tree, base, wiring.layout.output_of(base), wiring.layout);
    search.mark_stale(wiring.layout.output_of(base));
    search.settle(wiring);
  }
}

}  // namespace duskwire::wiring
