// SPDX-License-Identifier: Apache-2.0
// What may be at fault, before any reading: kinds of fault with their chance, and how it spreads over the places.
// Internal to the room.
#pragma once

#include <vector>

#include "diagnosis/fault.hpp"

namespace duskwire::diagnosis {

// Faults that no reading tells apart but one that needs the cable's own ends: they share one computed state.
struct Group {
  FaultKind kind = FaultKind::sound;
  std::uint32_t element = none;
  std::vector<double> trials;  // values of the parameter to compute; one entry for a kind without
  struct At {
    std::uint32_t place = none;
    double chance = 0;  // prior, of the whole set 1
  };
  std::vector<At> places;  // never empty

  [[nodiscard]] double chance() const;
};

// The sound network first, then every single fault in a fixed order. `segment_a`: amperes of each segment when sound.
[[nodiscard]] std::vector<Group> single_faults(const FaultProblem& problem, const std::vector<double>& segment_a);

// Log density of a parameter before any reading, in its logarithm.
[[nodiscard]] double log_prior(FaultKind kind, double parameter);

// The span over which a parameter is fitted.
struct Range {
  double low = 0;
  double high = 0;
};
[[nodiscard]] Range parameter_range(FaultKind kind);

}  // namespace duskwire::diagnosis
