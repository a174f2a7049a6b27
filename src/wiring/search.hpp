// SPDX-License-Identifier: Apache-2.0
// One wiring under search: what it costs, lamps joined one after the other each where that costs least, some torn out
// and joined anew. Ruin and recreate after Schrimpf et al. (Record breaking optimization results using the ruin and
// recreate principle, Journal of Computational Physics 159, 2000; from memory).
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "wiring/copper.hpp"
#include "wiring/dice.hpp"
#include "wiring/joining.hpp"
#include "wiring/units.hpp"

namespace duskwire::wiring {

// A layout with what its outputs and transformers cost.
struct Wiring {
  explicit Wiring(const PlanProblem& problem) : layout(problem), units(problem.places.size()) {}

  Layout layout;
  std::vector<UnitChoice> units;  // by place
  std::vector<std::uint32_t> left_out;

  [[nodiscard]] double cost() const;
};

inline constexpr double left_out_cost = 1e9;  // more than any wiring

class Search {
 public:
  Search(const PlanProblem& problem, std::vector<bool> allowed_cables);

  [[nodiscard]] Wiring empty();
  // From now on only these places get new outputs, and of what is hung there so much counts as spent already: else no
  // second place would ever be begun for the first lamp near it.
  void open_places(std::vector<bool> open, std::vector<double> spent) {
    joinings_.open_places(std::move(open));
    spent_ = std::move(spent);
  }
  // Joins every lamp that is not placed, in this order; what finds no sound way is left out. `dice`: now and then the
  // best way is passed over.
  void join_all(Wiring& wiring, const std::vector<std::uint32_t>& lamps, Dice* dice);
  // After cables moved: sizes what has to be and chooses transformers anew. False where that breaks an output.
  bool settle(Wiring& wiring);
  // Lays some cables anew by the shortest way as trenches now are.
  void lay_anew(Wiring& wiring, Dice& dice, std::size_t count);
  // Taps as low as the copper allows.
  void lower_taps(Wiring& wiring);
  void mark_stale(std::uint32_t output);
  // A joint at `node`, fed from the place that is nearest on an output of its own; none where there is no way.
  std::uint32_t feed_joint(Wiring& wiring, std::uint32_t node);

  // Why the last lamp that was left out found no way, as far as one can be named, and by how many volts.
  struct Refusal {
    std::uint32_t lamp = none;
    Hindrance hindrance = Hindrance::nothing;
    bool reached = false;  // some output or cable can be reached at all
    double room_v = 0;     // of the attempt that came nearest, where volts were too low
  };
  [[nodiscard]] const std::vector<Refusal>& refusals() const { return refusals_; }

 private:
  struct Trial {
    double cost = 0;
    Hindrance hindrance = Hindrance::nothing;
    double room_v = 0;
  };
  [[nodiscard]] Feed feed_of(const Wiring& wiring, std::uint32_t output) const;
  // Everything that sizing writes, for when a join turns out not to hold.
  struct SizedState {
    std::vector<Sized> outputs;
    std::vector<std::uint32_t> types;  // by lay
    std::vector<UnitChoice> units;
  };
  static void save(const Wiring& wiring, SizedState& saved);
  static void restore(Wiring& wiring, const SizedState& saved);
  Trial attempt(Wiring& wiring, std::uint32_t lamp, const Joining& joining);
  std::uint32_t apply(Layout& layout, std::uint32_t lamp, const Joining& joining);
  bool join(Wiring& wiring, std::uint32_t lamp, Dice* dice);
  bool join_within(Wiring& wiring, std::uint32_t lamp, Dice* dice, std::size_t places);
  bool fail();  // forgets what is stale
  bool choose_units_at(Wiring& wiring, std::uint32_t place, double least_cost);

  const PlanProblem& problem_;
  Copper copper_;
  Joinings joinings_;
  WhoIsWhere where_;
  Ways relay_ways_;
  std::vector<Refusal> refusals_;
  Refusal refusal_;
  std::vector<bool> stale_;    // by output: has to be sized
  std::vector<double> spent_;  // by place
  std::vector<std::pair<std::uint32_t, std::uint32_t>> saved_types_;
  SizedState saved_;
};

}  // namespace duskwire::wiring
