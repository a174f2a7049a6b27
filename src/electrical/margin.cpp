// SPDX-License-Identifier: Apache-2.0
// Margin to collapse: how far all loads, or all lengths, may grow before the first lamp leaves regulation. Whether a
// factor is still bearable is decided by a Newton run that stops at the first lamp out of range; the edge is found by
// growing and then halving.
#include "electrical/prepared.hpp"

namespace duskwire::electrical {
namespace {

template <class SetFactor>
Margin margin(const Prepared& prepared, const Condition& nominal, Workspace& workspace, SetFactor&& set_factor) {
  constexpr double growth = 1.5;
  constexpr double relative_tolerance = 1e-5;
  Condition condition = nominal;
  Margin result;
  const auto bears = [&](double factor) {
    set_factor(condition, nominal, factor);
    const RegulatedRun run = run_regulated(prepared, condition, workspace);
    if (run.lowest_load != nothing) result.first_load = run.lowest_load;
    return run.regulated;
  };
  if (!bears(1.0)) return result;
  double low = 1.0;
  double high = growth;
  while (high < margin_cap && bears(high)) {
    low = high;
    high *= growth;
  }
  if (high >= margin_cap) {
    if (bears(margin_cap)) {
      result.factor = margin_cap;
      result.beyond_cap = true;
      return result;
    }
    high = margin_cap;
  }
  while (high - low > relative_tolerance * low) {
    const double middle = 0.5 * (low + high);
    (bears(middle) ? low : high) = middle;
  }
  bears(low);  // names the lamp that is nearest to the edge there
  result.factor = low;
  return result;
}

}  // namespace

Margin load_margin(const Prepared& prepared, const Condition& condition, Workspace& workspace) {
  return margin(prepared, condition, workspace, [](Condition& changed, const Condition& nominal, double factor) {
    changed.load_factor = nominal.load_factor * factor;
  });
}

Margin length_margin(const Prepared& prepared, const Condition& condition, Workspace& workspace) {
  return margin(prepared, condition, workspace, [](Condition& changed, const Condition& nominal, double factor) {
    changed.copper_factor = nominal.copper_factor * factor;
  });
}

}  // namespace duskwire::electrical
