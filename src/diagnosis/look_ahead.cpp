// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/look_ahead.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::diagnosis {
namespace {

constexpr std::size_t shown = 6;  // values that a reading is supposed to show, each as likely as the others

// Values at the middles of equal shares of what is foretold.
std::vector<double> likely_values(const std::vector<Foretold>& foretold) {
  std::vector<std::size_t> order(foretold.size());
  for (std::size_t k = 0; k < order.size(); ++k) order[k] = k;
  std::sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) {
    return foretold[x].value != foretold[y].value ? foretold[x].value < foretold[y].value : x < y;
  });
  std::vector<double> values;
  double sum = 0;
  for (const std::size_t k : order) {
    sum += foretold[k].share;
    while (values.size() < shown && sum >= (static_cast<double>(values.size()) + 0.5) / shown) {
      values.push_back(foretold[k].value);
    }
  }
  return values;
}

// How much likelier each piece is once `value` was read; 1 on average.
std::vector<double> likelier(const std::vector<Foretold>& foretold, double value, std::size_t pieces) {
  std::vector<double> prior(pieces, 0);
  std::vector<double> after(pieces, 0);
  double sum = 0;
  for (const Foretold& one : foretold) {
    const double z = (value - one.value) / one.sigma;
    const double density = std::abs(z) < 6 ? one.share * std::exp(-0.5 * z * z) / one.sigma : 0;
    prior[one.piece] += one.share;
    after[one.piece] += density;
    sum += density;
  }
  for (std::size_t k = 0; k < pieces; ++k) after[k] = prior[k] > 0 && sum > 0 ? after[k] / sum / prior[k] : 0;
  return after;
}

// Of the best reading after that one; none is worth 0.
double best_gain_bit(const std::vector<Option>& options, std::size_t taken, const std::vector<double>& likelier,
                     double rate, std::uint32_t targets) {
  constexpr double least_share = 1e-5;
  double best = 0;
  for (std::size_t k = 0; k < options.size(); ++k) {
    if (k == taken) continue;
    const Option& option = options[k];
    std::vector<Foretold> left;
    for (const Foretold& one : option.foretold) {
      const double share = one.share * likelier[one.piece];
      if (share < least_share) continue;
      left.push_back(one);
      left.back().share = share;
    }
    if (left.size() < 2) continue;
    best = std::max(best, OutcomeTable(std::move(left), targets).information_bit() - rate * option.cost_min);
  }
  return best;
}

}  // namespace

std::vector<double> two_step_gain_bit(const std::vector<Option>& options, std::size_t firsts, std::uint32_t targets,
                                      std::size_t pieces) {
  double rate = 0;
  for (const Option& option : options) rate = std::max(rate, option.information_bit / option.cost_min);
  std::vector<double> gains;
  for (std::size_t k = 0; k < std::min(firsts, options.size()); ++k) {
    const Option& first = options[k];
    double gain = first.information_bit - rate * first.cost_min;
    const std::vector<double> values = likely_values(first.foretold);
    for (const double value : values) {
      gain += best_gain_bit(options, k, likelier(first.foretold, value, pieces), rate, targets) /
              static_cast<double>(values.size());
    }
    gains.push_back(gain);
  }
  return gains;
}

}  // namespace duskwire::diagnosis
