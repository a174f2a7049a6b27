// SPDX-License-Identifier: Apache-2.0
// Writes a network and a condition as a circuit for ngspice. Every load is a behavioural source with its exact
// piecewise law, multiplied by the volts of a source `vlam`: a sweep of vlam up to 1 walks from the (nearly) unloaded
// network to the loaded one along the branch with the highest volts.
#pragma once

#include <string>

#include "electrical/network.hpp"
#include "electrical/solver.hpp"

namespace duskwire::electrical::testing {

// The vector v(a<node>) less v(b<node>) is the node's voltage.
// `start`: potentials that ngspice is to begin from (a nodeset: it holds them for its first iterations, then lets go).
[[nodiscard]] std::string ngspice_netlist(const Network& network, const Condition& condition,
                                          const Potentials* start = nullptr);

}  // namespace duskwire::electrical::testing
