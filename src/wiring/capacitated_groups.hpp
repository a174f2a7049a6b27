// SPDX-License-Identifier: Apache-2.0
// An answer of capacitated_tree while it is searched for: which nodes share a branch. A branch costs the least spanning
// tree of its nodes and the root, so the groups alone say everything.
#pragma once

#include <cstdint>
#include <vector>

#include "wiring/capacitated_tree.hpp"

namespace duskwire::wiring {

using Group = std::vector<std::uint32_t>;

// Least spanning trees of small groups and the root (Prim), in memory that is kept from one to the next.
class GroupCost {
 public:
  explicit GroupCost(const CapacitatedProblem& problem) : problem_(problem) {}

  [[nodiscard]] double of(const Group& group);
  // The same tree as a parent for each node of the group.
  void write_parents(const Group& group, std::vector<std::uint32_t>& parent);

 private:
  template <class Visit>
  double grow(const Group& group, Visit visit);

  const CapacitatedProblem& problem_;
  std::vector<double> nearest_;
  std::vector<std::uint32_t> via_;
  Group left_;
};

struct Groups {
  std::vector<Group> groups;
  std::vector<double> costs;
  std::vector<double> demands;
  std::vector<std::uint32_t> group_of;  // by node

  [[nodiscard]] double cost() const;
};

// Savings after Esau and Williams (On teleprocessing system design, IBM Systems Journal 5, 1966; from memory): the join
// that spares most goes first, as long as the capacity holds.
[[nodiscard]] Groups joined_by_savings(const CapacitatedProblem& problem, GroupCost& cost);

}  // namespace duskwire::wiring
