// SPDX-License-Identifier: Apache-2.0
// Opponents: other ways to find the same faults, with the same meter, and what each takes.
#pragma once

#include <cstdint>

#include "policies.hpp"

namespace duskwire::bench {

// Until the fault lies open: readings, openings in vain, minutes with the opening of the fault.
struct Effort {
  double readings = 0;
  double opened = 0;
  double minutes = 0;

  void add(double more_readings, double more_opened, double more_minutes);
  void add(const Effort& other) { add(other.readings, other.opened, other.minutes); }
  [[nodiscard]] double steps() const { return readings + opened; }
};

struct Opponents {
  int games = 0;
  double ours = 0;   // readings until a bracket is likelier than 90 %, as for the next two
  double ideal = 0;  // half-splitting that is never misled
  double fallback = 0;
  Effort ours_found;
  Effort fallback_found;
  Effort by_volts;  // half-splitting as practised
  Effort by_look;   // the same after one look at all lamps
  int misled_volts = 0;
  int misled_look = 0;
  double ours_unmisled = 0;  // steps of ours where practised half-splitting after a look was not misled
  double look_unmisled = 0;  // and its own
  double digging_min = 0;
  double random = 0;
  int random_games = 0;

  // Every fourth game by random choice too. `seed`: of dice of their own.
  void face(const diagnosis::FaultProblem& plan, const faulty::Truth& truth, const Played& played, std::size_t most,
            const faulty::Mischief& mischief, bool lamps_seen, std::uint64_t seed, bool with_random);
  void merge(const Opponents& other);
  void print() const;
};

}  // namespace duskwire::bench
