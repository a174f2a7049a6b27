// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/trace_model.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace duskwire::diagnosis {
namespace {

constexpr double anywhere_v = 10;  // a wrong reading may be any within so many volts

double log_normal(double off, double sigma) {
  return -0.5 * (off / sigma) * (off / sigma) - std::log(sigma) - 0.5 * std::log(2 * std::numbers::pi);
}

// A fixed sequence of numbers without pattern (the finaliser of SplitMix64).
std::uint64_t scrambled(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15ULL;
  x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9ULL;
  x = (x ^ (x >> 27U)) * 0x94d049bb133111ebULL;
  return x ^ (x >> 31U);
}

double log_of_sum(const std::vector<double>& logs) {
  const double most = *std::max_element(logs.begin(), logs.end());
  double sum = 0;
  for (const double one : logs) sum += std::exp(one - most);
  return most + std::log(sum);
}

}  // namespace

TraceModel::TraceModel(const TraceProblem& problem) : problem_(&problem) {
  for (const TracedRun& run : problem.runs) ways_.emplace_back(run.ways);
  known_.resize(problem.runs.size());
  choose_places();
  set_worlds();
}

void TraceModel::choose_places() {
  constexpr double hopeless = 14;  // of log weight behind the nearest
  const TraceSpread& spread = problem_->spread;
  count_.assign(problem_->runs.size(), 0);
  of_lamp_.resize(problem_->lamps.size());
  const double right = std::log(1 - spread.wrong_look);
  const double wrong = std::log(spread.wrong_look);
  const auto holds = [](const std::vector<std::uint32_t>& list, std::uint32_t lamp) {
    return std::find(list.begin(), list.end(), lamp) != list.end();
  };
  for (std::uint32_t lamp = 0; lamp < problem_->lamps.size(); ++lamp) {
    // What lifting each run did to this lamp, if it hangs on `on`.
    const auto looks = [&](std::uint32_t on) {
      double log = 0;
      for (std::uint32_t run = 0; run < problem_->runs.size(); ++run) {
        if (holds(problem_->runs[run].went_dark, lamp)) log += run == on ? right : wrong;
        if (holds(problem_->runs[run].stayed_lit, lamp)) log += run == on ? wrong : right;
      }
      return log;
    };
    // On what nobody walked its volts may be any.
    log_unwalked_.push_back(-spread.unwalked_m / spread.usual_lead_m +
                            looks(static_cast<std::uint32_t>(problem_->runs.size())) -
                            (problem_->lamps[lamp].measured ? std::log(anywhere_v) : 0));
    std::vector<TraceChoice> found;
    double best = log_unwalked_.back();
    for (std::uint32_t run = 0; run < problem_->runs.size(); ++run) {
      for (std::uint32_t way = 0; way < ways_[run].size(); ++way) {
        const NearestPlace near = ways_[run].nearest(way, problem_->lamps[lamp].at);
        // The end of a branch at its parting is the earlier way's place already.
        if (way > 0 && near.place.along_m <= 0) continue;
        found.push_back(
            {lamp, run, 0, near.place, near.at, near.distance_m, -near.distance_m / spread.usual_lead_m + looks(run)});
        best = std::max(best, found.back().log_prior);
      }
    }
    for (TraceChoice& one : found) {
      if (one.log_prior < best - hopeless) continue;
      one.of_run = count_[one.run]++;
      of_lamp_[lamp].push_back(static_cast<std::uint32_t>(choices_.size()));
      key_.push_back(scrambled(choices_.size() + 1));
      choices_.push_back(one);
    }
  }
  for (const std::uint32_t n : count_) shared_m_.emplace_back(std::size_t{n} * n);
  for (const TraceChoice& one : choices_) {
    for (const TraceChoice& other : choices_) {
      if (one.run != other.run) continue;
      shared_m_[one.run][std::size_t{one.of_run} * count_[one.run] + other.of_run] =
          ways_[one.run].shared_m(one.place, other.place);
    }
  }
  for (std::uint32_t run = 0; run < problem_->runs.size(); ++run) {
    past_.emplace_back();
    for (const TracedClamp& clamp : problem_->runs[run].clamps) {
      const WayPlace at = ways_[run].nearest(clamp.at).place;
      past_.back().emplace_back(count_[run]);
      for (const TraceChoice& one : choices_) {
        if (one.run == run) past_.back().back()[one.of_run] = ways_[run].lies_beyond(one.place, at) ? 1 : 0;
      }
    }
  }
}

void TraceModel::set_worlds() {
  constexpr double known_v = 0.1;  // a source known so well is not varied
  for (const TracedRun& run : problem_->runs) {
    worlds_.emplace_back();
    const bool varied = run.source_sigma_v > known_v;
    for (std::uint32_t cable = 0; cable < run.loop_ohm_per_m.size(); ++cable) {
      for (int step = varied ? -4 : 0; step <= (varied ? 4 : 0); ++step) {
        const double sigmas = step / 2.0;
        for (const double stretched : {-1.5, -0.5, 0.5, 1.5}) {
          worlds_.back().push_back({cable, run.source_v + sigmas * run.source_sigma_v,
                                    problem_->spread.longer + stretched * problem_->spread.longer_share,
                                    -0.5 * (sigmas * sigmas + stretched * stretched)});
        }
      }
    }
  }
}

RunState TraceModel::settle(std::uint32_t run, const RunWorld& world, const std::vector<std::uint32_t>& members) const {
  constexpr int passes = 4;  // a drop of a tenth is then right to a thousandth
  const std::size_t n = members.size();
  const double ohm_per_m = problem_->runs[run].loop_ohm_per_m[world.cable] * world.longer;
  RunState state;
  state.at_cable_v.assign(n, world.source_v);
  state.at_lamp_v.assign(n, world.source_v);
  state.current_a.assign(n, 0);
  for (int pass = 0; pass <= passes; ++pass) {
    for (std::size_t k = 0; k < n; ++k) {
      const TracedLamp& lamp = problem_->lamps[choices_[members[k]].lamp];
      const double volts = std::max({state.at_lamp_v[k], lamp.least_v, 0.1 * lamp.rated_v});
      state.current_a[k] = lamp.rated_a * std::pow(volts / lamp.rated_v, lamp.volts_power);
    }
    if (pass == passes) break;
    for (std::size_t k = 0; k < n; ++k) {
      const TraceChoice& at = choices_[members[k]];
      const double* shared_m = &shared_m_[run][std::size_t{at.of_run} * count_[run]];
      double volt_m = 0;
      for (std::size_t j = 0; j < n; ++j) volt_m += state.current_a[j] * shared_m[choices_[members[j]].of_run];
      state.at_cable_v[k] = std::max(0.0, world.source_v - ohm_per_m * volt_m);
      state.at_lamp_v[k] =
          std::max(0.0, state.at_cable_v[k] - state.current_a[k] * problem_->lead_loop_ohm_per_m * at.lead_m);
    }
  }
  return state;
}

std::vector<AmpsFit> TraceModel::amps(std::uint32_t run, const RunState& state,
                                      const std::vector<std::uint32_t>& members) const {
  const TracedRun& asked = problem_->runs[run];
  const TraceSpread& spread = problem_->spread;
  std::vector<AmpsFit> fits;
  const auto fit = [&](double measured_a, const std::vector<std::uint8_t>* past) {
    AmpsFit one{measured_a, 0, 0};
    double variance = 0;
    for (std::size_t k = 0; k < members.size(); ++k) {
      if (past && (*past)[choices_[members[k]].of_run] == 0) continue;
      one.expected_a += state.current_a[k];
      variance += std::pow(spread.lamp_share * state.current_a[k], 2);
    }
    one.sigma_a = std::sqrt(variance + std::pow(std::hypot(spread.clamp_share * measured_a, spread.clamp_a), 2));
    fits.push_back(one);
  };
  if (asked.current_a) fit(*asked.current_a, nullptr);
  for (std::size_t c = 0; c < asked.clamps.size(); ++c) fit(asked.clamps[c].current_a, &past_[run][c]);
  return fits;
}

// The lamps beyond two clamps are the same lamps: their own spread is common to both readings.
double TraceModel::log_amps(std::uint32_t run, const RunState& state, const std::vector<std::uint32_t>& members) const {
  const TracedRun& asked = problem_->runs[run];
  const std::vector<AmpsFit> fits = amps(run, state, members);
  if (fits.empty()) return 0;
  const auto n = static_cast<Eigen::Index>(fits.size());
  const std::size_t first_clamp = asked.current_a ? 1 : 0;
  const auto counts = [&](std::size_t reading, std::uint32_t of_run) {
    return reading < first_clamp || past_[run][reading - first_clamp][of_run] != 0;
  };
  Eigen::VectorXd off(n);
  Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto at = static_cast<std::size_t>(i);
    off[i] = fits[at].measured_a - fits[at].expected_a;
    covariance(i, i) = fits[at].sigma_a * fits[at].sigma_a;
    for (Eigen::Index j = 0; j < i; ++j) {
      for (std::size_t k = 0; k < members.size(); ++k) {
        const std::uint32_t of_run = choices_[members[k]].of_run;
        if (!counts(at, of_run) || !counts(static_cast<std::size_t>(j), of_run)) continue;
        covariance(i, j) += std::pow(problem_->spread.lamp_share * state.current_a[k], 2);
      }
      covariance(j, i) = covariance(i, j);
    }
  }
  const Eigen::LLT<Eigen::MatrixXd> factor(covariance);
  const Eigen::VectorXd z = factor.matrixL().solve(off);
  double log = -0.5 * z.squaredNorm() - 0.5 * static_cast<double>(n) * std::log(2 * std::numbers::pi);
  for (Eigen::Index i = 0; i < n; ++i) log -= std::log(factor.matrixLLT()(i, i));
  return log;
}

double TraceModel::volts_sigma(const RunWorld& world, double at_lamp_v) const {
  return std::hypot(problem_->spread.meter_v, problem_->spread.drop_share * (world.source_v - at_lamp_v));
}

double TraceModel::log_volts(const RunWorld& world, const RunState& state,
                             const std::vector<std::uint32_t>& members) const {
  const double wrong = problem_->spread.wrong_volts;
  double log = 0;
  for (std::size_t k = 0; k < members.size(); ++k) {
    const std::optional<double>& measured = problem_->lamps[choices_[members[k]].lamp].measured;
    if (!measured) continue;
    const double sigma = volts_sigma(world, state.at_lamp_v[k]);
    log += std::log((1 - wrong) * std::exp(log_normal(*measured - state.at_lamp_v[k], sigma)) + wrong / anywhere_v);
  }
  return log;
}

std::vector<double> TraceModel::world_weights(std::uint32_t run, const std::vector<std::uint32_t>& members) const {
  std::vector<double> logs;
  for (const RunWorld& world : worlds_[run]) {
    const RunState state = settle(run, world, members);
    logs.push_back(world.log_prior + log_volts(world, state, members) + log_amps(run, state, members));
  }
  return logs;
}

double TraceModel::log_weight(std::uint32_t run, const std::vector<std::uint32_t>& members) {
  std::uint64_t key = 0;
  for (const std::uint32_t one : members) key ^= key_[one];
  const auto [at, fresh] = known_[run].try_emplace(key, 0);
  if (fresh) at->second = log_of_sum(world_weights(run, members));
  return at->second;
}

}  // namespace duskwire::diagnosis
