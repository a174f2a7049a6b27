// SPDX-License-Identifier: Apache-2.0
#include "wiring/units.hpp"

#include <algorithm>

namespace duskwire::wiring {
namespace {

struct Demand {
  double va = 0;
  double most_a = 0;
  std::uint32_t outputs = 0;
};

Demand demand_of(const Layout& layout, const std::vector<std::uint32_t>& outputs, std::size_t first, std::size_t last) {
  Demand demand;
  for (std::size_t i = first; i < last; ++i) {
    const Output& output = layout.outputs[outputs[i]];
    demand.va += output.load_va;
    demand.most_a = std::max(demand.most_a, output.current_a);
    ++demand.outputs;
  }
  return demand;
}

bool carries(const PlanProblem& problem, const UnitType& unit, const Demand& demand) {
  return unit.outputs >= demand.outputs && unit.rating_va >= demand.va &&
         unit.limit_a * problem.output_share >= demand.most_a;
}

std::uint32_t cheapest(const PlanProblem& problem, const Place& place, const Demand& demand, double least_cost = 0) {
  for (const std::uint32_t type : place.types) {
    if (problem.units[type].cost + place.unit_cost >= least_cost && carries(problem, problem.units[type], demand))
      return type;
  }
  return none;
}

std::uint32_t largest(const PlanProblem& problem, const Place& place) {
  std::uint32_t found = none;
  for (const std::uint32_t type : place.types) {
    if (found == none || problem.units[type].rating_va > problem.units[found].rating_va) found = type;
  }
  return found;
}

void deal(Layout& layout, const std::vector<std::uint32_t>& outputs, std::size_t first, std::size_t last,
          std::uint32_t unit) {
  double sum_a = 0;
  for (std::size_t i = first; i < last; ++i) sum_a += layout.outputs[outputs[i]].current_a;
  for (std::size_t i = first; i < last; ++i) {
    Output& output = layout.outputs[outputs[i]];
    output.unit = unit;
    output.siblings_a = sum_a - output.current_a;
  }
}

}  // namespace

std::vector<std::uint32_t> outputs_at(const Layout& layout, std::uint32_t place) {
  std::vector<std::uint32_t> found;
  for (std::uint32_t o = 0; o < layout.outputs.size(); ++o) {
    if (layout.outputs[o].alive && layout.outputs[o].place == place) found.push_back(o);
  }
  return found;
}

UnitChoice choose_units(const PlanProblem& problem, const Place& place, Layout& layout,
                        const std::vector<std::uint32_t>& outputs, double least_cost) {
  UnitChoice choice;
  if (outputs.empty() && !place.kept) {
    choice.type = choice.last_type = place.types.empty() ? none : place.types.front();
    return choice;
  }
  const std::uint32_t one = cheapest(problem, place, demand_of(layout, outputs, 0, outputs.size()), least_cost);
  if (one != none) {
    deal(layout, outputs, 0, outputs.size(), 0);
    return {one, one, 1, problem.units[one].cost + place.unit_cost};
  }
  const std::uint32_t large = largest(problem, place);
  if (place.kept || large == none) return choice;
  std::size_t first = 0;
  while (first < outputs.size()) {
    const std::uint32_t rest = cheapest(problem, place, demand_of(layout, outputs, first, outputs.size()));
    if (rest != none) {
      deal(layout, outputs, first, outputs.size(), choice.count++);
      choice.type = choice.type == none ? rest : choice.type;
      choice.last_type = rest;
      choice.cost += problem.units[rest].cost + place.unit_cost;
      break;
    }
    std::size_t last = first;
    while (last < outputs.size() && carries(problem, problem.units[large], demand_of(layout, outputs, first, last + 1)))
      ++last;
    if (last == first) return {};
    deal(layout, outputs, first, last, choice.count++);
    choice.type = choice.last_type = large;
    choice.cost += problem.units[large].cost + place.unit_cost;
    first = last;
  }
  if (choice.count > most_units_at_place) return {};
  return choice;
}

}  // namespace duskwire::wiring
