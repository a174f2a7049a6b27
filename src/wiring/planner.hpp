// SPDX-License-Identifier: Apache-2.0
// The planner: from lamps, places and ground to the cheapest sound wiring that is found. Anytime and deterministic: the
// same problem, seed and number of steps give the same answer, on every platform up to the rounding of its arithmetic.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <vector>

#include "wiring/plan_problem.hpp"

namespace duskwire::wiring {

// Why a lamp could not be wired, and how near it came.
enum class Refused : std::uint8_t {
  no_place = 0,     // nowhere for a transformer
  no_way = 1,       // no way over this ground from any place
  tap = 2,          // too many volts even on the lowest tap
  current = 3,      // more than any transformer or cable carries
  low_volts = 4,    // too few volts even with the thickest cable
  far_short = 5,    // no device would see a short
  joint_place = 6,  // a joint would lie where none may
  joint_wires = 7,  // no connector takes the wires that would meet
};

struct Refusal {
  std::uint32_t lamp = none;
  Refused why = Refused::no_way;
  double room_v = 0;  // low_volts: of the attempt that came nearest; negative
};

struct PlanProgress {
  std::uint64_t steps = 0;
  double cost = 0;  // best so far with every lamp placed; 0: none yet
  double first_cost = 0;
  double trench_m = 0;
  double cable_m = 0;
  std::uint32_t joints = 0;
  std::uint32_t placed = 0;
};

class Planner {
 public:
  Planner(PlanProblem problem, std::uint64_t seed);
  ~Planner();
  Planner(Planner&&) noexcept;
  Planner& operator=(Planner&&) noexcept;

  // Searches until `go_on` says no or that many steps are done in all. The first call makes a first wiring whatever
  // `go_on` says.
  void improve(const std::function<bool()>& go_on, std::uint64_t most_steps);
  [[nodiscard]] PlanProgress progress() const;
  // The best so far, with more volts held back where `more_safety_v` asks for it (sized anew, not searched anew).
  [[nodiscard]] PlanAnswer answer(double more_safety_v = 0) const;
  // Of the lamps that the best so far leaves out.
  [[nodiscard]] std::vector<Refusal> refusals() const;
  [[nodiscard]] const PlanProblem& problem() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace duskwire::wiring
