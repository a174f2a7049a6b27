// SPDX-License-Identifier: Apache-2.0
#include "small_and_quick.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <limits>

#include "faulty/garden.hpp"
#include "faulty/problem_of.hpp"
#include "faulty/small_case.hpp"
#include "policies.hpp"

namespace duskwire::bench {

void print_small_cases(int count) {
  wiring::Dice dice(500);
  double best_min = 0;
  double ours_min = 0;
  double random_min = 0;
  double bound_min = 0;
  double worst = 1;
  for (int k = 0; k < count; ++k) {
    const faulty::Garden garden = faulty::make_garden(static_cast<faulty::Shape>(k % 4), 8, dice);
    const faulty::SmallCase one =
        faulty::make_small_case(faulty::problem_of(garden.network, {}, garden.leads), 12, 20, dice);
    const double best = faulty::least_cost_min(one);
    const double ours = faulty::engine_cost_min(one);
    best_min += best;
    ours_min += ours;
    random_min += faulty::random_cost_min(one, dice);
    bound_min += faulty::entropy_bound_min(one);
    if (best > 0) worst = std::max(worst, ours / best);
  }
  fmt::print("{} small cases: optimum {:.2f} min, ours {:.3f} of it (worst {:.2f}), any order {:.2f}\n", count,
             best_min / count, ours_min / best_min, worst, random_min / best_min);
  fmt::print("  of the entropy bound: the optimum {:.2f}, ours {:.2f}\n", best_min / bound_min, ours_min / bound_min);
}

void print_many_causes(int count) {
  wiring::Dice dice(530);
  for (const std::size_t lamps : {30U, 60U}) {
    for (const std::size_t causes : {12U, 20U, 30U, 60U}) {
      double ours_min = 0;
      double least_min = 0;
      double bound_min = 0;
      for (int k = 0; k < count; ++k) {
        const faulty::Garden garden = faulty::make_garden(static_cast<faulty::Shape>(k % 4), lamps, dice);
        const faulty::SmallCase one = faulty::make_small_case(faulty::problem_of(garden.network, {}, garden.leads),
                                                              causes, std::numeric_limits<std::size_t>::max(), dice);
        ours_min += faulty::engine_cost_min(one);
        least_min += faulty::least_by_two_min(one);
        bound_min += faulty::entropy_bound_min(one);
      }
      fmt::print(
          "  {} lamps, {} causes, {} cases: ours {:.2f} min, {:.2f} of the entropy bound; no order below {:.2f} of "
          "it, ours {:.3f} of that\n",
          lamps, causes, count, ours_min / count, ours_min / bound_min, least_min / bound_min, ours_min / least_min);
    }
  }
}

void print_time(const std::string& shape_only) {
  constexpr std::size_t readings = 5;
  constexpr int repeats = 5;
  static constexpr const char* shapes[] = {"chain", "tee", "hub", "loop"};
  fmt::print("60 lamps, processor ms, ranking alone / with what to read next:");
  for (int shape = 0; shape < 4; ++shape) {
    if (!shape_only.empty() && shape_only != shapes[shape]) continue;
    wiring::Dice dice(60);
    const faulty::Garden garden = faulty::make_garden(static_cast<faulty::Shape>(shape), 60, dice);
    diagnosis::FaultProblem problem = faulty::problem_of(garden.network, {}, garden.leads);
    const faulty::Truth truth = faulty::make_truth(problem, 1, {}, dice);
    problem.observations = play(problem, truth, Policy::ours, readings, {}, false, dice).taken;
    double least[2] = {1e9, 1e9};
    for (int k = 0; k < repeats; ++k) {
      for (const diagnosis::Depth depth : {diagnosis::Depth::ranking, diagnosis::Depth::whole}) {
        const std::clock_t start = std::clock();
        const diagnosis::Answer answer = diagnosis::diagnose(problem, depth);
        const double ms = 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
        double& best = least[depth == diagnosis::Depth::whole ? 1 : 0];
        if (!answer.brackets.empty()) best = std::min(best, ms);
      }
    }
    fmt::print("  {} {:.0f} / {:.0f}", shapes[shape], least[0], least[1]);
  }
  fmt::print("\n");
}

}  // namespace duskwire::bench
