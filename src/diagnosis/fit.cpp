// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/fit.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::diagnosis {
namespace {

// The coordinate in which readings bend least.
double straight(FaultKind kind, double parameter) {
  switch (kind) {
    case FaultKind::short_span:
    case FaultKind::short_lamp:
      return std::log(parameter);
    case FaultKind::water:
      return 1 / parameter;
    default:
      return parameter;
  }
}

struct Trial {
  double parameter = 0;
  std::vector<Outlook> at;  // by place
};

// Interpolates between trials: a parabola through the three nearest, where readings bend least.
struct Weights {
  std::size_t first = 0;
  double w[3] = {1, 0, 0};
  std::size_t count = 1;
  std::size_t nearest = 0;
};

Weights weights(FaultKind kind, const std::vector<Trial>& trials, double parameter) {
  Weights result;
  const double x = straight(kind, std::clamp(parameter, trials.front().parameter, trials.back().parameter));
  for (std::size_t k = 1; k < trials.size(); ++k) {
    if (std::abs(std::log(trials[k].parameter / parameter)) <
        std::abs(std::log(trials[result.nearest].parameter / parameter))) {
      result.nearest = k;
    }
  }
  if (trials.size() < 3) {
    result.first = result.nearest;
    return result;
  }
  result.count = 3;
  result.first = std::min(result.nearest > 0 ? result.nearest - 1 : 0, trials.size() - 3);
  double at[3];
  for (std::size_t k = 0; k < 3; ++k) at[k] = straight(kind, trials[result.first + k].parameter);
  for (std::size_t k = 0; k < 3; ++k) {
    result.w[k] = 1;
    for (std::size_t m = 0; m < 3; ++m) {
      if (m != k) result.w[k] *= (x - at[m]) / (at[k] - at[m]);
    }
  }
  return result;
}

template <class Get>
Eigen::VectorXd mixed(const std::vector<Trial>& trials, const Weights& weights, Get&& get) {
  Eigen::VectorXd sum = weights.w[0] * get(trials[weights.first]);
  for (std::size_t k = 1; k < weights.count; ++k) sum += weights.w[k] * get(trials[weights.first + k]);
  return sum;
}

std::vector<Fault> with(const std::vector<Fault>& beside, const Group& group, double parameter) {
  std::vector<Fault> faults{{group.kind, group.element, parameter}};
  faults.insert(faults.end(), beside.begin(), beside.end());
  return faults;
}

bool on_segment(FaultKind kind) {
  return kind == FaultKind::open || kind == FaultKind::open_a || kind == FaultKind::open_b ||
         kind == FaultKind::resistive;
}

// Places of one span look alike unless something is read at the ends of its cable.
std::vector<std::uint32_t> told_apart(const Model& model, const Group& group) {
  if (!on_segment(group.kind) || !model.distinguishes_ends_of(group.element)) return {group.places.front().place};
  std::vector<std::uint32_t> places;
  for (const Group::At& at : group.places) places.push_back(at.place);
  return places;
}

// The parameter at which a fault is none: a trial that costs nothing more.
double harmless(FaultKind kind) {
  switch (kind) {
    case FaultKind::resistive:
    case FaultKind::weak_output:
    case FaultKind::added_load:
      return 1e-6;
    case FaultKind::water:
      return 1e6;
    case FaultKind::wrong_gauge:
    case FaultKind::low_mains:
      return 1;
    default:
      return 0;
  }
}

void add_harmless(const Model& model, const Group& group, const std::vector<Fault>& beside, std::size_t places,
                  std::vector<Trial>& trials) {
  const double parameter = harmless(group.kind);
  if (parameter == 0) return;
  const Outlook without = beside.empty() ? model.sound() : model.outlooks(beside, {none}, true).front();
  const auto at = std::find_if(trials.begin(), trials.end(),
                               [parameter](const Trial& trial) { return trial.parameter > parameter; });
  trials.insert(at, {parameter, std::vector<Outlook>(places, without)});
}

std::vector<Trial> compute(const Model& model, const Group& group, const std::vector<double>& parameters,
                           const std::vector<std::uint32_t>& at, const std::vector<Fault>& beside) {
  std::vector<Trial> trials;
  for (const double parameter : parameters) {
    trials.push_back({parameter, model.outlooks(with(beside, group, parameter), at, true)});
  }
  return trials;
}

PlaceFit integrate(const Model& model, const Group& group, const std::vector<Trial>& trials, std::size_t at,
                   Range over) {
  constexpr int steps = 28;
  PlaceFit fit;
  const bool unsteady = is_unsteady(group.kind);
  if (!has_parameter(group.kind)) {
    const Outlook& only = trials.front().at[at];
    fit.parameter = trials.front().parameter;
    fit.log_evidence = model.log_likelihood(only.agreement, only.measured, only.seen, unsteady);
    fit.pieces.push_back({fit.parameter, 1, only.measured, only.future, only.dark});
    return fit;
  }
  const double width = std::log(over.high / over.low) / steps;
  std::vector<double> log_p(steps);
  std::vector<double> x(steps);
  std::vector<std::size_t> nearest(steps);
  for (int k = 0; k < steps; ++k) {
    x[k] = std::log(over.low) + (k + 0.5) * width;
    const double parameter = std::exp(x[k]);
    const Weights w = weights(group.kind, trials, parameter);
    nearest[k] = w.nearest;
    const Eigen::VectorXd measured = mixed(trials, w, [at](const Trial& t) { return t.at[at].measured; });
    // Lamps go dark at a bend: they are not mixed.
    log_p[k] =
        model.log_likelihood(trials[w.nearest].at[at].agreement, measured, trials[w.nearest].at[at].seen, unsteady) +
        log_prior(group.kind, parameter);
  }
  const double top = *std::max_element(log_p.begin(), log_p.end());
  double sum = 0;
  double mean = 0;
  double square = 0;
  std::vector<double> by_trial(trials.size(), 0);
  for (int k = 0; k < steps; ++k) {
    const double p = std::exp(log_p[k] - top);
    sum += p;
    mean += p * x[k];
    square += p * x[k] * x[k];
    by_trial[nearest[k]] += p;
  }
  mean /= sum;
  fit.log_evidence = top + std::log(sum * width);
  fit.parameter = std::exp(mean);
  fit.log_sigma = std::max(std::sqrt(std::max(0.0, square / sum - mean * mean)), width / std::sqrt(12.0));
  for (std::size_t t = 0; t < trials.size(); ++t) {
    if (by_trial[t] <= 1e-3 * sum) continue;
    const Outlook& outlook = trials[t].at[at];
    fit.pieces.push_back({trials[t].parameter, by_trial[t] / sum, outlook.measured, outlook.future, outlook.dark});
  }
  return fit;
}

std::vector<PlaceFit> spread_over(const Model& model, const Group& group, const std::vector<Trial>& trials,
                                  Range over) {
  std::vector<PlaceFit> fits;
  const std::size_t apart = trials.front().at.size();
  for (std::size_t p = 0; p < group.places.size(); ++p) {
    if (p < apart)
      fits.push_back(integrate(model, group, trials, p, over));
    else
      fits.push_back(fits.front());
    fits.back().place = group.places[p].place;
  }
  return fits;
}

}  // namespace

std::vector<PlaceFit> fit(const Model& model, const Group& group, const std::vector<Fault>& beside,
                          std::vector<Eigen::VectorXd>* computed) {
  const std::vector<std::uint32_t> at = told_apart(model, group);
  std::vector<Trial> trials = compute(model, group, group.trials, at, beside);
  add_harmless(model, group, beside, at.size(), trials);
  if (computed) {
    for (const Trial& trial : trials) computed->push_back(trial.at.front().measured);
  }
  return spread_over(model, group, trials, parameter_range(group.kind));
}

namespace {

const PlaceFit& best_of(const std::vector<PlaceFit>& fits) {
  return *std::max_element(fits.begin(), fits.end(),
                           [](const PlaceFit& p, const PlaceFit& q) { return p.log_evidence < q.log_evidence; });
}

// Solved anew about `centre`, `reach` being a standard deviation of the parameter's logarithm; empty where the range
// that is believed ends first.
std::vector<PlaceFit> about(const Model& model, const Group& group, double centre, double reach,
                            const std::vector<Fault>& beside) {
  const Range whole = parameter_range(group.kind);
  std::vector<double> parameters;
  for (const double step : {-2.5, 0.0, 2.5}) {
    parameters.push_back(std::clamp(centre * std::exp(step * reach), whole.low, whole.high));
  }
  for (std::size_t k = 1; k < parameters.size(); ++k) {
    if (parameters[k] <= parameters[k - 1] * 1.0001) return {};
  }
  const Range over{std::max(whole.low, centre * std::exp(-6 * reach)),
                   std::min(whole.high, centre * std::exp(6 * reach))};
  return spread_over(model, group, compute(model, group, parameters, told_apart(model, group), beside), over);
}

}  // namespace

std::vector<PlaceFit> refine(const Model& model, const Group& group, const std::vector<PlaceFit>& rough, int rounds,
                             const std::vector<Fault>& beside) {
  constexpr double sharp = 0.45;  // where the readings say less than this about the parameter the trials do
  if (!has_parameter(group.kind) || best_of(rough).log_sigma > sharp) return rough;
  std::vector<PlaceFit> fits = rough;
  double reach = std::clamp(best_of(rough).log_sigma, 0.06, 0.3);
  for (int round = 0; round < rounds; ++round) {
    const double centre = best_of(fits).parameter;
    std::vector<PlaceFit> closer = about(model, group, centre, reach, beside);
    if (closer.empty()) return fits;
    fits = std::move(closer);
    const double moved = std::abs(std::log(best_of(fits).parameter / centre));
    if (moved < reach && best_of(fits).log_sigma > reach / 4) break;
    reach = std::clamp(std::max(best_of(fits).log_sigma, moved / 2), 0.005, 0.3);
  }
  return fits;
}

}  // namespace duskwire::diagnosis
