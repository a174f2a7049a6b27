// SPDX-License-Identifier: Apache-2.0
// The verb `route`: from lamps on a plan to the cheapest sound wiring that is found. A job in, an ordinary job out,
// with figures beside today's, one sentence a run, and, where no sound wiring exists, what stands in the way. Anytime:
// ask for more as long as there is time. Method: docs/algorithms/planner.md.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "estimate/installed.hpp"
#include "job/job.hpp"
#include "study/rules.hpp"
#include "wiring/linear_program.hpp"

namespace duskwire::study {

// What the contractor holds fast. Ids of the job; what does not exist is an obstacle of its own.
struct RoutePins {
  std::vector<std::string> kept_cables;         // stay as they are: ends, item, way
  std::vector<std::string> forbidden_trenches;  // cables: along their way as it is drawn today nothing is dug
  std::vector<std::string> own_outputs;         // luminaires that get an output each
  std::vector<std::string> kept_transformers;   // item and place stay; others may get another item or go

  bool operator==(const RoutePins&) const = default;
};

struct RouteRequest {
  RoutePins pins;
  bool no_hub = false;                 // no joint of more than three wires per conductor
  bool splice_every_lead = false;      // a cable never ends in a luminaire that has a lead of its own
  double reserve_pct = 0;              // all loads grow by so much: room for lamps added later
  std::uint32_t most_cable_types = 0;  // 0: as many as pay
  std::uint64_t seed = 1;
  std::uint64_t most_steps = 0;  // 0: until told to stop; the same job, request and steps give the same answer
  estimate::InstallRates rates;
};

// The size of a wiring and how sound it is, by the full solver at every corner.
struct RouteFigures {
  estimate::InstalledCost cost;
  double lowest_v = 0;  // of any lamp in any corner
  std::string lowest_lamp;
  double least_room_v = 0;  // least distance of any lamp to an edge of its window, in any corner; negative: outside
  std::string least_room_lamp;
  double load_margin = 0;  // factor by which all loads may grow
  double load_va = 0;      // at the taps, worst corner
  double rating_va = 0;    // of all transformers
  std::uint32_t transformers = 0;
  std::uint32_t outputs = 0;  // that feed something
  std::uint32_t errors = 0;   // findings of severity error
  bool wired = false;         // every lamp is fed
  bool sound = false;
};

enum class Topology : std::uint8_t { single = 0, chain = 1, tee = 2, hub = 3, mixed = 4 };

// One run: what hangs on one cable out of an output.
struct RouteRun {
  std::string cable;  // the first, at the output
  std::string output;
  double tap_v = 0;
  Topology topology = Topology::single;
  std::vector<std::string> lamps;
  double load_va = 0;
  double cable_m = 0;
  std::vector<std::string> cable_items;  // thickest first
  std::string sentence;                  // why it is so and what the next cheaper choice would break
};

// What stands in the way of a sound wiring.
struct RouteObstacle {
  std::string subject;  // id in the job, or empty
  std::string message;  // what stands in the way, in the user's units
  std::string cure;     // what to relax or to add
};

struct RouteProgress {
  std::uint64_t steps = 0;
  double cost_minor = 0;  // best so far, by the search's own account; 0: none yet
  double first_minor = 0;
  double trench_m = 0;
  double cable_m = 0;
  std::uint32_t joints = 0;
  std::uint32_t lamps_placed = 0;
  std::uint32_t lamps = 0;
};

struct RouteAnswer {
  std::optional<job::Job> job;  // absent where nothing sound was found
  RouteFigures today;
  RouteFigures planned;
  std::vector<std::string> sleeves_to_lay;  // ids of sleeves that the plan adds
  double bound_minor = 0;                   // no wiring on the same ways costs less: the whole cost, lamps included
  std::vector<RouteRun> runs;
  std::vector<RouteObstacle> obstacles;
  std::uint64_t steps = 0;
};

// How far a small plan can be from the best there is, by an exact solver. Costs are the search's own account: without
// lamps and mounts, nothing rounded up.
struct RouteProof {
  double cost_minor = 0;
  double bound_minor = 0;    // no wiring over these points and ways costs less
  bool proven = false;       // the bound is as high as it can be
  std::uint32_t points = 0;  // transformer, lamps, places for joints
  std::uint32_t ways = 0;    // between them
};
inline constexpr std::uint32_t most_exact_lamps = 12;

// Everything is copied in: job, ruleset and stock need not outlive it.
class Router {
 public:
  Router(const job::Job& job, const Ruleset& ruleset, const job::Catalogue& stock, const RouteRequest& request);
  ~Router();
  Router(Router&&) noexcept;
  Router& operator=(Router&&) noexcept;

  // Searches on while `go_on` says so; false once nothing more is to be expected (steps used up, or no lamp).
  bool improve(const std::function<bool()>& go_on);
  [[nodiscard]] RouteProgress progress() const;
  // The best so far, checked by the full solver. Does not end the search.
  [[nodiscard]] RouteAnswer answer() const;
  // How good the last answer is; the solver may take its time. An error, a sentence without its full stop, where there
  // is no sound answer, or the job is too large or not of the kind.
  [[nodiscard]] Result<RouteProof> proof(const wiring::ProgramSolver& solver) const;

 private:
  struct Held;
  std::unique_ptr<Held> held_;
};

}  // namespace duskwire::study
