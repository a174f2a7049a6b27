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

// Interpolates between trials: a parabola through the three nearest, where readings bend least. Trials in which a
// device has tripped are no neighbours of those in which it holds.
struct Weights {
  std::size_t trial[3] = {0, 0, 0};
  double w[3] = {1, 0, 0};
  double w_ohm[3] = {1, 0, 0};  // of what an ohmmeter reads, which is straight in the ohms of a short
  std::size_t count = 1;
  std::size_t nearest = 0;
};

double share_of(const double (&at)[3], std::size_t count, std::size_t k, double x) {
  double share = 1;
  for (std::size_t m = 0; m < count; ++m) {
    if (m != k) share *= (x - at[m]) / (at[k] - at[m]);
  }
  return share;
}

Weights weights(FaultKind kind, const std::vector<Trial>& trials, double parameter) {
  Weights result;
  const auto far = [&](std::size_t k) { return std::abs(std::log(trials[k].parameter / parameter)); };
  for (std::size_t k = 1; k < trials.size(); ++k) {
    if (far(k) < far(result.nearest)) result.nearest = k;
  }
  std::vector<std::size_t> alike;
  for (std::size_t k = 0; k < trials.size(); ++k) {
    if (trials[k].at.front().trips == trials[result.nearest].at.front().trips) alike.push_back(k);
  }
  result.count = std::min<std::size_t>(3, alike.size());
  const auto middle = static_cast<std::size_t>(std::find(alike.begin(), alike.end(), result.nearest) - alike.begin());
  const std::size_t first = std::min(middle > 0 ? middle - 1 : 0, alike.size() - result.count);
  double at[3] = {0, 0, 0};
  double at_ohm[3] = {0, 0, 0};
  for (std::size_t k = 0; k < result.count; ++k) {
    result.trial[k] = alike[first + k];
    at_ohm[k] = trials[result.trial[k]].parameter;
    at[k] = straight(kind, at_ohm[k]);
  }
  const double low = trials[alike.front()].parameter;
  const double high = trials[alike.back()].parameter;
  const double x = straight(kind, std::clamp(parameter, low, high));
  for (std::size_t k = 0; k < result.count; ++k) {
    result.w[k] = share_of(at, result.count, k, x);
    result.w_ohm[k] = share_of(at_ohm, result.count, k, parameter);
  }
  return result;
}

Eigen::VectorXd mixed(const Model& model, const std::vector<Trial>& trials, const Weights& weights, std::size_t at) {
  Eigen::VectorXd sum = Eigen::VectorXd::Zero(model.values().size());
  for (Eigen::Index row = 0; row < sum.size(); ++row) {
    const bool ohm = model.numeric_probes()[static_cast<std::size_t>(row)].quantity == Quantity::loop_ohm;
    for (std::size_t k = 0; k < weights.count; ++k) {
      sum[row] += (ohm ? weights.w_ohm[k] : weights.w[k]) * trials[weights.trial[k]].at[at].measured[row];
    }
    if (ohm) sum[row] = std::clamp(sum[row], 0.0, most_ohm);
  }
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
  const Outlook without = beside.empty() ? model.sound() : model.outlooks(beside, {none}, model.foresees()).front();
  const auto at = std::find_if(trials.begin(), trials.end(),
                               [parameter](const Trial& trial) { return trial.parameter > parameter; });
  trials.insert(at, {parameter, std::vector<Outlook>(places, without)});
}

std::vector<Trial> compute(const Model& model, const Group& group, const std::vector<double>& parameters,
                           const std::vector<std::uint32_t>& at, const std::vector<Fault>& beside) {
  std::vector<Trial> trials;
  for (const double parameter : parameters) {
    trials.push_back({parameter, model.outlooks(with(beside, group, parameter), at, model.foresees())});
  }
  return trials;
}

// A stretch of the parameter's logarithm, with the density in its middle.
struct Sample {
  double x = 0;
  double width = 0;
  double log_p = 0;
  std::size_t nearest = 0;  // trial
};

class Integral {
 public:
  Integral(const Model& model, const Group& group, const std::vector<Trial>& trials, std::size_t at)
      : model_(model), group_(group), trials_(trials), at_(at) {}

  std::vector<Sample> run(Range over) {
    constexpr int coarse = 28;
    constexpr int rounds = 3;
    lay(std::log(over.low), std::log(over.high), coarse, 0);
    for (int round = 0; round < rounds && sharpen(); ++round) {
    }
    return std::move(samples_);
  }

 private:
  void lay(double low, double high, int steps, std::size_t before) {
    std::vector<Sample> laid;
    const double width = (high - low) / steps;
    for (int k = 0; k < steps; ++k) laid.push_back(sample(low + (k + 0.5) * width, width));
    samples_.insert(samples_.begin() + static_cast<std::ptrdiff_t>(before), laid.begin(), laid.end());
  }

  [[nodiscard]] Sample sample(double x, double width) const {
    const double parameter = std::exp(x);
    const Weights w = weights(group_.kind, trials_, parameter);
    const Outlook& nearest = trials_[w.nearest].at[at_];
    // Lamps go dark at a bend: they are not mixed.
    const double log_p = model_.log_likelihood(nearest, mixed(model_, trials_, w, at_), is_unsteady(group_.kind)) +
                         log_prior(group_.kind, parameter);
    return {x, width, log_p, w.nearest};
  }

  // Where one step holds most, readings are sharper than the steps: it and its neighbours are laid again, finer.
  bool sharpen() {
    constexpr double most = 0.3;
    constexpr int finer = 18;
    std::size_t top = 0;
    for (std::size_t k = 1; k < samples_.size(); ++k) {
      if (samples_[k].log_p > samples_[top].log_p) top = k;
    }
    double sum = 0;
    for (const Sample& one : samples_) sum += one.width * std::exp(one.log_p - samples_[top].log_p);
    if (samples_[top].width < most * sum) return false;
    const std::size_t first = top > 0 ? top - 1 : 0;
    const std::size_t last = std::min(top + 1, samples_.size() - 1);
    const double low = samples_[first].x - samples_[first].width / 2;
    const double high = samples_[last].x + samples_[last].width / 2;
    samples_.erase(samples_.begin() + static_cast<std::ptrdiff_t>(first),
                   samples_.begin() + static_cast<std::ptrdiff_t>(last) + 1);
    lay(low, high, finer, first);
    return true;
  }

  const Model& model_;
  const Group& group_;
  const std::vector<Trial>& trials_;
  std::size_t at_;
  std::vector<Sample> samples_;
};

PlaceFit integrate(const Model& model, const Group& group, const std::vector<Trial>& trials, std::size_t at,
                   Range over) {
  PlaceFit fit;
  if (!has_parameter(group.kind)) {
    const Outlook& only = trials.front().at[at];
    fit.parameter = trials.front().parameter;
    fit.log_evidence = model.log_likelihood(only, only.measured, is_unsteady(group.kind));
    fit.pieces.push_back({fit.parameter, 1, only.measured, only.future, only.dark, only.out});
    return fit;
  }
  const std::vector<Sample> samples = Integral(model, group, trials, at).run(over);
  const auto best = std::max_element(samples.begin(), samples.end(),
                                     [](const Sample& one, const Sample& two) { return one.log_p < two.log_p; });
  double sum = 0;
  double mean = 0;
  double square = 0;
  std::vector<double> by_trial(trials.size(), 0);
  for (const Sample& one : samples) {
    const double p = one.width * std::exp(one.log_p - best->log_p);
    sum += p;
    mean += p * one.x;
    square += p * one.x * one.x;
    by_trial[one.nearest] += p;
  }
  mean /= sum;
  fit.log_evidence = best->log_p + std::log(sum);
  fit.parameter = std::exp(mean);
  fit.log_sigma = std::max(std::sqrt(std::max(0.0, square / sum - mean * mean)), best->width / std::sqrt(12.0));
  for (std::size_t t = 0; t < trials.size(); ++t) {
    if (by_trial[t] <= 1e-3 * sum) continue;
    const Outlook& outlook = trials[t].at[at];
    fit.pieces.push_back(
        {trials[t].parameter, by_trial[t] / sum, outlook.measured, outlook.future, outlook.dark, outlook.out});
  }
  return fit;
}

// The same fit at a place that only readings yet to be taken tell apart from the first.
PlaceFit moved_to(std::size_t at, const std::vector<Trial>& trials, PlaceFit fit) {
  for (Piece& piece : fit.pieces) {
    const auto trial =
        std::find_if(trials.begin(), trials.end(), [&](const Trial& one) { return one.parameter == piece.parameter; });
    piece.future = trial->at[at].future;
  }
  return fit;
}

std::vector<PlaceFit> spread_over(const Model& model, const Group& group, const std::vector<Trial>& trials,
                                  Range over) {
  std::vector<PlaceFit> fits;
  const std::size_t apart = trials.front().at.size();
  for (std::size_t p = 0; p < group.places.size(); ++p) {
    const bool alike = p > 0 && p < apart && std::all_of(trials.begin(), trials.end(), [p](const Trial& trial) {
                         return trial.at[p].measured == trial.at.front().measured;
                       });
    if (p >= apart) {
      fits.push_back(fits.front());
    } else {
      fits.push_back(alike ? moved_to(p, trials, fits.front()) : integrate(model, group, trials, p, over));
    }
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
