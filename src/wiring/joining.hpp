// SPDX-License-Identifier: Apache-2.0
// Every way in which one lamp can join a wiring that stands: at a joint or a lamp that is there, in the middle of a
// cable, on a cable that makes a detour past it, on a cable of its own from an output. Cheapest first, by what can be
// told without volts.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "wiring/ways.hpp"

namespace duskwire::wiring {

enum class JoinKind : std::uint8_t { spot = 0, split = 1, output = 2, new_output = 3, detour = 4 };

struct Joining {
  JoinKind kind = JoinKind::spot;
  std::uint32_t target = 0;  // spot, cable, output or place
  std::size_t at = 0;        // of a split cable: index of the node in its way
  WayPtr way;                // from there to the lamp; of a detour: the whole new way of the cable
  std::uint32_t node = 0;    // where that way begins
  double estimate = 0;
};

// Which spots and cables are at a node: made anew for a layout, and added to as it grows.
class WhoIsWhere {
 public:
  explicit WhoIsWhere(std::size_t nodes) : spots_(nodes, none), cables_(nodes, none) {}

  void rebuild(const Layout& layout);
  void add_spot(const Layout& layout, std::uint32_t spot);
  void add_cable(const Layout& layout, std::uint32_t cable);

  template <class Visit>
  void spots_at(const Layout& layout, std::uint32_t node, Visit visit) const {
    for (std::uint32_t i = spots_[node]; i != none; i = entries_[i].next) {
      const std::uint32_t spot = entries_[i].what;
      if (layout.spots[spot].alive && layout.spots[spot].node == node) visit(spot);
    }
  }
  // Cables that pass through it, and where in their way.
  template <class Visit>
  void cables_at(const Layout& layout, std::uint32_t node, Visit visit) const {
    for (std::uint32_t i = cables_[node]; i != none; i = entries_[i].next) {
      const Lay& lay = layout.lays[entries_[i].what];
      const std::size_t at = entries_[i].at;
      if (lay.alive && !lay.kept && at + 1 < lay.way->nodes.size() && at > 0 && lay.way->nodes[at] == node) {
        visit(entries_[i].what, at);
      }
    }
  }

 private:
  struct Entry {
    std::uint32_t what = 0;
    std::uint32_t at = 0;
    std::uint32_t next = none;
  };
  std::vector<std::uint32_t> spots_, cables_;  // heads by node
  std::vector<Entry> entries_;
};

class Joinings {
 public:
  Joinings(const PlanProblem& problem, double typical_per_m);

  // Only these places get new outputs.
  void open_places(std::vector<bool> open) { open_places_ = std::move(open); }

  // The most promising ways for a thing at `node`, sorted by estimate. `own`: only on an output of its own. Looks on
  // until so many transformer places were met, as far as there are so many.
  const std::vector<Joining>& find(std::uint32_t node, bool own, std::size_t places, const Layout& layout,
                                   const WhoIsWhere& where);

 private:
  void offer(Joining joining);
  void offer_spot(const Layout& layout, std::uint32_t spot, std::uint32_t node, double cost);
  void offer_place(const Layout& layout, std::uint32_t place, std::uint32_t node, double cost, bool own);
  void add_detours(std::uint32_t node, const Layout& layout);
  [[nodiscard]] double joint_cost(std::uint32_t wires) const;

  const PlanProblem& problem_;
  double per_m_;
  Ways ways_;
  std::vector<std::vector<std::uint32_t>> places_at_;  // by node; most are empty
  std::vector<bool> open_places_;
  std::vector<Joining> found_;
  std::vector<std::uint32_t> near_cables_;
};

}  // namespace duskwire::wiring
