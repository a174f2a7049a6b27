// SPDX-License-Identifier: Apache-2.0
// How well a choice of places agrees with what was read: the weight of a run by the lamps that hang on it. The choices
// of different runs meet only in the lamps, so a run's weight is kept by its set of lamps. Not thread-safe (it
// remembers).
#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "diagnosis/trace.hpp"
#include "diagnosis/trace_ways.hpp"

namespace duskwire::diagnosis {

// One place where one lamp may hang.
struct TraceChoice {
  std::uint32_t lamp = 0;
  std::uint32_t run = 0;
  std::uint32_t of_run = 0;  // its number among those of the run
  WayPlace place;
  geometry::Point2 at;
  double lead_m = 0;
  double log_prior = 0;
};

// What of a run is not known beside its lamps: which cable it is, how much longer than walked, how far off its source.
struct RunWorld {
  std::uint32_t cable = 0;
  double source_v = 0;
  double longer = 1;
  double log_prior = 0;
};

struct RunState {
  std::vector<double> current_a;   // by member
  std::vector<double> at_lamp_v;   // by member
  std::vector<double> at_cable_v;  // by member
};

class TraceModel {
 public:
  explicit TraceModel(const TraceProblem& problem);

  [[nodiscard]] const TraceProblem& problem() const { return *problem_; }
  [[nodiscard]] const std::vector<TraceChoice>& choices() const { return choices_; }
  // Of one lamp: numbers of its choices.
  [[nodiscard]] const std::vector<std::uint32_t>& choices_of(std::uint32_t lamp) const { return of_lamp_[lamp]; }
  [[nodiscard]] double log_unwalked(std::uint32_t lamp) const { return log_unwalked_[lamp]; }
  [[nodiscard]] const WayTree& ways(std::uint32_t run) const { return ways_[run]; }
  [[nodiscard]] const std::vector<RunWorld>& worlds(std::uint32_t run) const { return worlds_[run]; }

  // `members`: numbers of choices, ascending.
  [[nodiscard]] double log_weight(std::uint32_t run, const std::vector<std::uint32_t>& members);
  // By the run's worlds, not normalised.
  [[nodiscard]] std::vector<double> world_weights(std::uint32_t run, const std::vector<std::uint32_t>& members) const;
  [[nodiscard]] RunState settle(std::uint32_t run, const RunWorld& world,
                                const std::vector<std::uint32_t>& members) const;
  // The total first where it was read, then the clamps.
  [[nodiscard]] std::vector<AmpsFit> amps(std::uint32_t run, const RunState& state,
                                          const std::vector<std::uint32_t>& members) const;
  [[nodiscard]] double volts_sigma(const RunWorld& world, double at_lamp_v) const;

 private:
  void choose_places();
  void set_worlds();
  [[nodiscard]] double log_amps(std::uint32_t run, const RunState& state,
                                const std::vector<std::uint32_t>& members) const;
  [[nodiscard]] double log_volts(const RunWorld& world, const RunState& state,
                                 const std::vector<std::uint32_t>& members) const;

  const TraceProblem* problem_;
  std::vector<WayTree> ways_;
  std::vector<TraceChoice> choices_;
  std::vector<std::vector<std::uint32_t>> of_lamp_;
  std::vector<double> log_unwalked_;
  std::vector<std::vector<double>> shared_m_;                 // by run: of two of its choices
  std::vector<std::uint32_t> count_;                          // choices by run
  std::vector<std::vector<std::vector<std::uint8_t>>> past_;  // by run and clamp: whether a choice lies beyond it
  std::vector<std::vector<RunWorld>> worlds_;
  std::vector<std::uint64_t> key_;  // by choice
  std::vector<std::unordered_map<std::uint64_t, double>> known_;
};

}  // namespace duskwire::diagnosis
