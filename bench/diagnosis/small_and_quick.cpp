// SPDX-License-Identifier: Apache-2.0
#include "small_and_quick.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <limits>
#include <vector>

#include "faulty/garden.hpp"
#include "faulty/least_cost.hpp"
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

namespace {

// Against the entropy bound and the best order there is.
struct ManyCauses {
  struct Case {
    double ours_min = 0;
    double bound_min = 0;
  };
  std::vector<Case> cases;
  double ours_min = 0;
  double least_min = 0;
  double bound_min = 0;
  int not_exact = 0;  // of the least: the search was cut short

  void add(std::uint32_t lamps, std::size_t causes, int shape, wiring::Dice& dice) {
    constexpr std::size_t most_parts = 200000;
    const faulty::Garden garden = faulty::make_garden(static_cast<faulty::Shape>(shape), lamps, dice);
    const faulty::SmallCase one = faulty::make_small_case(faulty::problem_of(garden.network, {}, garden.leads), causes,
                                                          std::numeric_limits<std::size_t>::max(), dice);
    const faulty::LeastCost least = faulty::least_cost(one, most_parts);
    cases.push_back({faulty::engine_cost_min(one), faulty::entropy_bound_min(one)});
    ours_min += cases.back().ours_min;
    least_min += least.minutes;
    bound_min += cases.back().bound_min;
    not_exact += least.exact ? 0 : 1;
  }

  // Standard error of ours over the bound, a ratio of two means.
  [[nodiscard]] double error() const {
    double sum = 0;
    for (const Case& one : cases) sum += std::pow(one.ours_min - ours_min / bound_min * one.bound_min, 2);
    return std::sqrt(sum) / bound_min;
  }

  void print(const std::string& name) const {
    fmt::print(
        "  {}, {} cases: ours {:.2f} min, {:.3f} (standard error {:.3f}) of the entropy bound; no order below {:.3f} "
        "of it ({} not searched to "
        "the end), ours {:.3f} of that\n",
        name, cases.size(), ours_min / static_cast<double>(cases.size()), ours_min / bound_min, error(),
        least_min / bound_min, not_exact, ours_min / least_min);
  }
};

}  // namespace

void print_many_causes(int count) {
  wiring::Dice drawn(3060);
  ManyCauses all;
  for (int k = 0; k < count; ++k) {
    const auto lamps = static_cast<std::uint32_t>(30 + drawn.below(31));
    const std::size_t causes = 12 + drawn.below(49);
    all.add(lamps, causes, k % 4, drawn);
  }
  all.print("30 to 60 lamps with 12 to 60 causes, both drawn evenly");
  wiring::Dice dice(530);
  for (const std::uint32_t lamps : {30U, 60U}) {
    for (const std::size_t causes : {12U, 20U, 30U, 60U}) {
      ManyCauses alike;
      for (int k = 0; k < count / 5; ++k) alike.add(lamps, causes, k % 4, dice);
      alike.print(fmt::format("{} lamps, {} causes", lamps, causes));
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
