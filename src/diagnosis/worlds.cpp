// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/worlds.hpp"

#include <algorithm>
#include <cmath>

#include "diagnosis/priors.hpp"

namespace duskwire::diagnosis {
namespace {

double weigh(const Single& single) {
  double sum = -HUGE_VAL;
  for (std::size_t p = 0; p < single.fits.size(); ++p) {
    sum = log_sum(sum, std::log(single.group->places[p].chance) + single.fits[p].log_evidence);
  }
  return sum;
}

// The likeliest `count` singles fitted again, closer.
void refine_best(const Model& model, std::vector<Single>& singles, std::size_t count, int rounds) {
  std::vector<std::size_t> order(singles.size());
  for (std::size_t k = 0; k < order.size(); ++k) order[k] = k;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t x, std::size_t y) { return singles[x].log_weight > singles[y].log_weight; });
  for (std::size_t k = 0; k < std::min(order.size(), count); ++k) {
    Single& single = singles[order[k]];
    single.fits = refine(model, *single.group, single.fits, rounds);
    single.log_weight = weigh(single);
  }
}

// Trials far apart place a fault only roughly, so many are looked at more closely once, and the best of those again.
std::vector<Single> fit_all(const Model& model, const std::vector<Group>& groups) {
  constexpr std::size_t looked_at = 70;
  constexpr std::size_t finalists = 12;
  std::vector<Single> singles;
  for (const Group& group : groups) {
    singles.push_back({&group, {}, {}, 0});
    singles.back().fits = fit(model, group, {}, &singles.back().trials);
    singles.back().log_weight = weigh(singles.back());
  }
  if (model.values().size() == 0) return singles;
  refine_best(model, singles, looked_at, 2);
  refine_best(model, singles, finalists, 3);
  return singles;
}

}  // namespace

std::vector<World> worlds(const Model& model) {
  const std::vector<Group> groups = single_faults(model.problem(), model.sound_state().solution.segment_a_a);
  const std::vector<Single> singles = fit_all(model, groups);
  std::vector<World> all;
  for (const Single& single : singles) {
    for (std::size_t p = 0; p < single.fits.size(); ++p) {
      World world;
      const PlaceFit& fit = single.fits[p];
      if (single.group->kind != FaultKind::sound) {
        world.faults.push_back({single.group->kind, single.group->element, fit.parameter});
        world.places.push_back(fit.place);
      }
      world.chance = std::log(single.group->places[p].chance) + fit.log_evidence;
      world.log_sigma = fit.log_sigma;
      world.pieces = fit.pieces;
      all.push_back(std::move(world));
    }
  }
  for (World& pair : pairs(model, singles)) {
    pair.chance += std::log(second_fault_share);
    all.push_back(std::move(pair));
  }
  std::stable_sort(all.begin(), all.end(), [](const World& x, const World& y) { return x.chance > y.chance; });
  const double top = all.front().chance;
  constexpr double least = 1e-7;
  std::erase_if(all, [&](const World& world) { return !(world.chance > top + std::log(least)); });
  double sum = 0;
  for (World& world : all) sum += world.chance = std::exp(world.chance - top);
  for (World& world : all) world.chance /= sum;
  return all;
}

}  // namespace duskwire::diagnosis
