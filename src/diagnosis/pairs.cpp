// SPDX-License-Identifier: Apache-2.0
// Pairs of faults. All pairs of a garden are too many to solve, so the likeliest first faults are joined with every
// other by adding up what each does to the readings; the best of those sums are then solved as they are.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "diagnosis/priors.hpp"
#include "diagnosis/worlds.hpp"

namespace duskwire::diagnosis {
namespace {

constexpr std::size_t most_firsts = 8;
constexpr std::size_t most_solved = 24;
constexpr double alive_v = 0.5;
constexpr double worth_nat = 7;
constexpr int rounds = 2;

struct Sketch {
  std::size_t first = 0;
  std::size_t second = 0;
  double log_weight = 0;
};

// What both do together: their changes added; what either leaves dark is dark.
Eigen::VectorXd together(const Model& model, const Eigen::VectorXd& sound, const Eigen::VectorXd& first,
                         const Eigen::VectorXd& second) {
  Eigen::VectorXd sum = first + second - sound;
  for (Eigen::Index k = 0; k < sum.size(); ++k) {
    const bool volts = is_volts(model.numeric_probes()[static_cast<std::size_t>(k)].quantity);
    const bool dark = volts && (first[k] < alive_v || second[k] < alive_v);
    sum[k] = dark ? 0 : std::max(0.0, sum[k]);
  }
  return sum;
}

std::vector<std::size_t> best_firsts(const std::vector<Single>& singles) {
  std::vector<std::size_t> order;
  for (std::size_t k = 1; k < singles.size(); ++k) order.push_back(k);  // the sound network makes no pair
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t x, std::size_t y) { return singles[x].log_weight > singles[y].log_weight; });
  order.resize(std::min(order.size(), most_firsts));
  return order;
}

std::vector<Sketch> sketch(const Model& model, const std::vector<Single>& singles) {
  const double log_2pi = std::log(2 * std::numbers::pi);
  const Eigen::VectorXd& sound = singles.front().fits.front().pieces.front().measured;
  const Agreement agreement = diagnosis::agreement(
      model.uncertainty().rows(model.sound_state(), model.numeric_probes()), model.own_sigma(sound));
  const double peak = 0.5 * (agreement.log_determinant - static_cast<double>(sound.size()) * log_2pi);
  std::vector<Sketch> found;
  const std::vector<std::size_t> firsts = best_firsts(singles);
  for (std::size_t i = 0; i < firsts.size(); ++i) {
    const Single& first = singles[firsts[i]];
    const Eigen::VectorXd& by_first = first.fits.front().pieces.front().measured;
    for (std::size_t second = 1; second < singles.size(); ++second) {
      if (std::find(firsts.begin(), firsts.begin() + static_cast<std::ptrdiff_t>(i) + 1, second) !=
          firsts.begin() + static_cast<std::ptrdiff_t>(i) + 1) {
        continue;  // seen from the other side, or itself
      }
      double best = HUGE_VAL;
      for (const Eigen::VectorXd& trial : singles[second].trials) {
        best = std::min(best, distance2(agreement, model.values() - together(model, sound, by_first, trial)));
      }
      found.push_back(
          {firsts[i], second,
           std::log(first.group->chance()) + std::log(singles[second].group->chance()) + peak - 0.5 * best});
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Sketch& x, const Sketch& y) { return x.log_weight > y.log_weight; });
  if (found.size() > most_solved) found.resize(most_solved);
  return found;
}

// The second fault fitted beside the first, then the first beside the second.
void solve(const Model& model, const Single& first, const Single& second, std::vector<World>& into) {
  const std::vector<Fault> held{{first.group->kind, first.group->element, first.fits.front().parameter}};
  const std::vector<PlaceFit> second_fit = refine(model, *second.group, fit(model, *second.group, held), rounds, held);
  const Fault beside{second.group->kind, second.group->element, second_fit.front().parameter};
  const std::vector<PlaceFit> first_fit =
      refine(model, *first.group, fit(model, *first.group, {beside}), rounds, {beside});
  // The second parameter was held: its own share of the prior that the readings leave.
  double occam = 0;
  if (has_parameter(second.group->kind)) {
    occam =
        log_prior(second.group->kind, beside.parameter) + std::log(std::max(0.02, second_fit.front().log_sigma) * 2.5);
  }
  for (std::size_t p = 0; p < first_fit.size(); ++p) {
    for (std::size_t q = 0; q < second_fit.size(); ++q) {
      World world;
      world.faults = {{first.group->kind, first.group->element, first_fit[p].parameter}, beside};
      world.places = {first_fit[p].place, second_fit[q].place};
      world.log_sigma = first_fit[p].log_sigma;
      world.pieces = first_fit[p].pieces;
      // Places of the second differ by what it alone says of them.
      const double aside = second_fit[q].log_evidence - second_fit.front().log_evidence;
      world.chance = std::log(first.group->places[p].chance) + std::log(second.group->places[q].chance) +
                     first_fit[p].log_evidence + aside + occam;
      into.push_back(std::move(world));
    }
  }
}

}  // namespace

std::vector<World> pairs(const Model& model, const std::vector<Single>& singles) {
  std::vector<World> result;
  if (model.problem().observations.empty()) return result;
  const std::vector<Sketch> sketches = sketch(model, singles);
  double best_single = -HUGE_VAL;
  for (const Single& single : singles) best_single = std::max(best_single, single.log_weight);
  for (const Sketch& pair : sketches) {
    if (pair.log_weight + std::log(second_fault_share) < best_single - worth_nat) break;
    solve(model, singles[pair.first], singles[pair.second], result);
  }
  return result;
}

}  // namespace duskwire::diagnosis
