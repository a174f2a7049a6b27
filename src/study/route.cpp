// SPDX-License-Identifier: Apache-2.0
#include "study/route.hpp"

#include <algorithm>
#include <limits>
#include <utility>

#include "study/check.hpp"
#include "study/route_bound.hpp"
#include "study/route_exact.hpp"
#include "study/route_figures.hpp"
#include "study/route_ground.hpp"
#include "study/route_job.hpp"
#include "study/route_obstacles.hpp"
#include "study/route_problem.hpp"
#include "study/route_runs.hpp"
#include "wiring/exact_model.hpp"
#include "wiring/planner.hpp"

namespace duskwire::study {

struct Router::Held {
  Held(const job::Job& given, const Ruleset& rules, const job::Catalogue& shelf, const RouteRequest& wanted)
      : job(given),
        ruleset(rules),
        stock(shelf),
        request(wanted),
        goods(job, stock, request.rates),
        asked(route_problem(job, ruleset, request, goods)),
        planner(asked.problem, request.seed) {}

  job::Job job;
  Ruleset ruleset;
  job::Catalogue stock;
  RouteRequest request;
  RouteGoods goods;
  RouteProblem asked;
  wiring::Planner planner;
  mutable std::optional<double> bound;
  mutable std::optional<wiring::PlanAnswer> answered;  // the last sound plan

  [[nodiscard]] std::uint64_t most_steps() const {
    return request.most_steps > 0 ? request.most_steps : std::numeric_limits<std::uint64_t>::max();
  }
  [[nodiscard]] bool can_begin() const {
    return !asked.problem.lamps.empty() && !asked.problem.places.empty() && !asked.problem.cables.empty() &&
           !asked.problem.units.empty();
  }
};

Router::Router(const job::Job& job, const Ruleset& ruleset, const job::Catalogue& stock, const RouteRequest& request)
    : held_(std::make_unique<Held>(job, ruleset, stock, request)) {}
Router::~Router() = default;
Router::Router(Router&&) noexcept = default;
Router& Router::operator=(Router&&) noexcept = default;

bool Router::improve(const std::function<bool()>& go_on) {
  if (!held_->can_begin()) return false;
  held_->planner.improve(go_on, held_->most_steps());
  return held_->planner.progress().steps < held_->most_steps();
}

RouteProgress Router::progress() const {
  const wiring::PlanProgress now = held_->planner.progress();
  RouteProgress progress;
  progress.steps = now.steps;
  progress.cost_minor = now.cost;
  progress.first_minor = now.first_cost;
  progress.trench_m = now.trench_m;
  progress.cable_m = now.cable_m;
  progress.joints = now.joints;
  progress.lamps_placed = now.placed;
  progress.lamps = static_cast<std::uint32_t>(held_->job.luminaires.size());
  return progress;
}

RouteAnswer Router::answer() const {
  const Held& held = *held_;
  RouteAnswer answer;
  answer.today = figures_of(held.job, held.ruleset, held.stock, held.request.rates);
  answer.obstacles = held.asked.obstacles;
  answer.steps = held.planner.progress().steps;
  if (!held.can_begin()) return answer;
  // The search reckons with two worst cases; the full solver has the last word, and more volts are held back where it
  // finds a lamp outside.
  wiring::PlanAnswer plan;
  RoutedJob routed;
  Report report;
  Findings open;
  for (const double more_safety_v : {0.0, 0.03, 0.08, 0.2}) {
    plan = held.planner.answer(more_safety_v);
    routed = routed_job(held.job, held.ruleset, held.goods, held.asked, plan);
    report = check(routed.job, held.ruleset, held.stock, {.cures = false});
    open = wiring_errors(held.ruleset, report);
    if (open.empty() || !plan.left_out.empty()) break;
  }
  answer.planned = figures_of(routed.job, report, held.stock, held.request.rates, routed.sleeves_to_lay);
  answer.sleeves_to_lay = routed.sleeves_to_lay;
  const bool whole = plan.left_out.empty() && open.empty() && held.asked.obstacles.empty();
  if (whole) {
    if (!held_->bound) held_->bound = route_bound(held.asked);
    const RouteFigures& planned = answer.planned;
    // What is bought whatever the wiring: lamps with their mounts.
    answer.bound_minor = *held_->bound + static_cast<double>(planned.cost.cost_minor) - plan.cost;
    answer.bound_minor = std::min(answer.bound_minor, static_cast<double>(planned.cost.cost_minor));
    answer.runs = route_runs(held.job, held.ruleset, held.stock, held.goods, held.asked, plan, routed);
    answer.job = std::move(routed.job);
    held_->answered = plan;
  }
  add_obstacles(held.job, held.asked, held.goods, held.planner, open, answer.obstacles);
  add_remarks(held.ruleset, report, answer.obstacles);
  return answer;
}

Result<RouteProof> Router::proof(const wiring::ProgramSolver& solver) const {
  const Held& held = *held_;
  if (!held.answered) return Error{ErrorCode::unsupported, "there is no sound plan"};
  const wiring::GroundMap map = ground_map(held.job, held.ruleset, held.request, held.goods.prices, held.goods);
  const Result<wiring::ExactProblem> exact = exact_problem(held.asked, map, *held.answered);
  if (!exact) return exact.error();
  const auto bound = wiring::exact_bound(exact.value(), held.answered->cost, solver);
  if (!bound) return Error{ErrorCode::unavailable, "the solver is not installed or had too little time"};
  RouteProof proof;
  proof.cost_minor = held.answered->cost;
  proof.bound_minor = bound->bound;
  proof.proven = bound->proven;
  proof.points = static_cast<std::uint32_t>(exact.value().points.size());
  proof.ways = static_cast<std::uint32_t>(exact.value().ways.size());
  return proof;
}

}  // namespace duskwire::study
