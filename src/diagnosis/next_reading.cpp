// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/next_reading.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <queue>

#include "diagnosis/look_ahead.hpp"
#include "diagnosis/outcomes.hpp"

namespace duskwire::diagnosis {
namespace {

constexpr std::size_t most_worlds = 240;

// Worlds worth telling apart, by where their faults sit.
struct Targets {
  std::vector<const World*> worlds;
  std::vector<std::uint32_t> target;               // by world
  std::vector<std::vector<std::uint32_t>> places;  // by target
  double chance = 0;                               // of all of them
};

Targets targets_of(const std::vector<World>& worlds) {
  Targets targets;
  std::map<std::vector<std::uint32_t>, std::uint32_t> known;
  for (const World& world : worlds) {
    if (targets.worlds.size() >= most_worlds) break;
    const auto [at, fresh] = known.emplace(world.places, static_cast<std::uint32_t>(known.size()));
    if (fresh) targets.places.push_back(world.places);
    targets.worlds.push_back(&world);
    targets.target.push_back(at->second);
    targets.chance += world.chance;
  }
  return targets;
}

// What the readings taken say about errors that the next one shares (a low mains lowers both): by the sensitivities of
// the sound network.
struct Shared {
  Eigen::MatrixXd gain;      // candidate by observation
  Eigen::VectorXd variance;  // of a candidate, after the observations
};

Shared shared_errors(const Model& model) {
  const FaultProblem& problem = model.problem();
  std::vector<Probe> probes;
  for (const Candidate& candidate : problem.candidates) probes.push_back(candidate.probe);
  const State& sound = model.sound_state();
  const Eigen::MatrixXd future = model.uncertainty().rows(sound, probes);
  const Eigen::MatrixXd past = model.uncertainty().rows(sound, model.numeric_probes());
  Shared shared;
  shared.variance = future.rowwise().squaredNorm();
  if (past.rows() == 0) {
    shared.gain.resize(future.rows(), 0);
    return shared;
  }
  Eigen::VectorXd computed(past.rows());
  for (Eigen::Index k = 0; k < past.rows(); ++k) {
    computed[k] = read(problem, sound, model.numeric_probes()[static_cast<std::size_t>(k)]);
  }
  const Agreement taken = agreement(past, model.own_sigma(computed));
  const Eigen::MatrixXd covariance = future * past.transpose();
  shared.gain = covariance * taken.precision;
  shared.variance -= (shared.gain.array() * covariance.array()).rowwise().sum().matrix();
  return shared;
}

// What is left of the readings where this piece explains them at all.
Eigen::VectorXd moved(const Model& model, const Piece& piece) {
  constexpr double alive_v = 0.5;
  constexpr double wrong_v = 0.8;  // a difference that no shared error makes
  Eigen::VectorXd left = model.values() - piece.measured;
  for (Eigen::Index k = 0; k < left.size(); ++k) {
    const bool dark = is_volts(model.numeric_probes()[static_cast<std::size_t>(k)].quantity) &&
                      (piece.measured[k] < alive_v || model.values()[k] < alive_v);
    if (dark || std::abs(left[k]) > wrong_v) left[k] = 0;
  }
  return left;
}

void foretell_seen(const World& world, const Piece& piece, double share, std::uint32_t target, std::size_t c,
                   std::uint32_t number, std::vector<Foretold>& into) {
  const bool unsteady = !world.faults.empty() && is_unsteady(world.faults.front().kind);
  constexpr double narrow = 0.05;  // states are far apart on this scale: their number
  for (int seen = 0; seen < 4; ++seen) {
    const auto as = static_cast<SeenLamp>(seen);
    const double light = piece.future[static_cast<Eigen::Index>(c)];
    const double flickers = unsteady ? flickers_now : 0;
    const double chance =
        (1 - flickers) * seen_chance(as, light, false) + (flickers > 0 ? flickers * seen_chance(as, light, true) : 0);
    into.push_back({target, share * chance, static_cast<double>(seen), narrow, number});
  }
}

std::vector<Foretold> foretell(const Model& model, const Targets& targets, const Shared& shared,
                               const std::vector<std::vector<Eigen::VectorXd>>& left, std::size_t c) {
  constexpr double alive_v = 0.5;
  constexpr double no_end_sigma = 0.5;  // "no end of ohms" is a state, not a number
  const Candidate& candidate = model.problem().candidates[c];
  const Quantity quantity = candidate.probe.quantity;
  const auto at = static_cast<Eigen::Index>(c);
  std::vector<Foretold> foretold;
  std::uint32_t number = 0;
  for (std::size_t w = 0; w < targets.worlds.size(); ++w) {
    const World& world = *targets.worlds[w];
    for (std::size_t p = 0; p < world.pieces.size(); ++p, ++number) {
      const Piece& piece = world.pieces[p];
      const double share = world.chance / targets.chance * piece.share;
      if (quantity == Quantity::lamp_state) {
        foretell_seen(world, piece, share, targets.target[w], c, number, foretold);
        continue;
      }
      double value = piece.future[at];
      double variance = candidate.sigma * candidate.sigma;
      if (quantity == Quantity::breaker) variance = 1e-3;
      const bool dark = is_volts(quantity) && value < alive_v;
      if (!dark && quantity != Quantity::breaker) {
        if (shared.gain.cols() > 0) value += shared.gain.row(at).dot(left[w][p]);
        variance += std::max(0.0, shared.variance[at]) + std::pow(loose_share(quantity) * value, 2);
      }
      if (quantity == Quantity::loop_ohm && value >= most_ohm) variance = no_end_sigma * no_end_sigma;
      // Whether the lamp beside it is dark is seen for nothing: such readings are laid far apart.
      if (piece.dark[c]) value += beside_dark_lamp;
      foretold.push_back({targets.target[w], share, value, std::sqrt(std::max(variance, 1e-8)), number});
    }
  }
  return foretold;
}

// The patterns of dark lamps that the worlds make, by number; what is rarer than the first few shares the last number.
struct Patterns {
  std::map<std::vector<bool>, std::uint32_t> number;
  std::vector<std::vector<bool>> out;

  std::uint32_t of(const std::vector<bool>& pattern) {
    constexpr std::size_t most = 200;
    const auto found = number.find(pattern);
    if (found != number.end()) return found->second;
    if (out.size() < most) out.push_back(pattern);
    return number.emplace(pattern, static_cast<std::uint32_t>(out.size() - 1)).first->second;
  }
};

std::vector<Foretold> foretell_look(const Targets& targets, Patterns& patterns) {
  constexpr double narrow = 0.05;  // patterns are whole numbers on this scale
  std::vector<Foretold> foretold;
  std::uint32_t number = 0;
  for (std::size_t w = 0; w < targets.worlds.size(); ++w) {
    const World& world = *targets.worlds[w];
    for (const Piece& piece : world.pieces) {
      const double share = world.chance / targets.chance * piece.share;
      foretold.push_back({targets.target[w], share, static_cast<double>(patterns.of(piece.out)), narrow, number++});
    }
  }
  return foretold;
}

// The lamps of this garden have been looked at: another look would say the same.
bool looked_round(const FaultProblem& problem) {
  constexpr double most = 0.75;
  std::vector<bool> seen(problem.network.loads.size(), false);
  for (const Observation& one : problem.observations) {
    if (one.probe.quantity == Quantity::lamp_state) seen[one.probe.index] = true;
  }
  const auto count = static_cast<double>(std::count(seen.begin(), seen.end(), true));
  return count >= most * static_cast<double>(seen.size());
}

std::vector<PlaceChance> pointed_to(const Targets& targets, const std::vector<double>& by_target) {
  std::map<std::uint32_t, double> by_place;
  for (std::size_t t = 0; t < by_target.size(); ++t) {
    if (targets.places[t].empty()) by_place[none] += by_target[t];
    for (const std::uint32_t place : targets.places[t]) by_place[place] += by_target[t];
  }
  std::vector<PlaceChance> places;
  for (const auto& [place, chance] : by_place) places.push_back({place, chance});
  std::stable_sort(places.begin(), places.end(),
                   [](const PlaceChance& x, const PlaceChance& y) { return x.chance > y.chance; });
  if (places.size() > 3) places.resize(3);
  return places;
}

std::vector<bool> suspect_spans(const FaultProblem& problem, const std::vector<World>& worlds) {
  constexpr double worth = 0.01;
  std::vector<double> chance(problem.spans.size(), 0);
  for (const World& world : worlds) {
    for (const std::uint32_t id : world.places) {
      const Place& place = problem.places[id];
      if (place.kind == PlaceKind::joint_side || place.kind == PlaceKind::cable) chance[place.index] += world.chance;
    }
  }
  std::vector<bool> suspect;
  for (const double one : chance) suspect.push_back(one > worth);
  return suspect;
}

void tell_outcomes(const Targets& targets, const OutcomeTable& table, NextReading& reading) {
  constexpr std::size_t most = 4;
  for (const OutcomeTable::Stretch& stretch : table.stretches(most)) {
    reading.outcomes.push_back({stretch.low, stretch.high, stretch.share, pointed_to(targets, stretch.by_target), {}});
  }
}

void tell_look(const Targets& targets, NextReading& reading) {
  constexpr std::size_t most = 4;
  Patterns patterns;
  std::vector<double> share;
  std::vector<std::vector<double>> by_target;
  for (const Foretold& one : foretell_look(targets, patterns)) {
    const auto n = static_cast<std::size_t>(one.value);
    if (n >= share.size()) {
      share.resize(n + 1, 0);
      by_target.resize(n + 1, std::vector<double>(targets.places.size(), 0));
    }
    share[n] += one.share;
    by_target[n][one.target] += one.share;
  }
  std::vector<std::size_t> order(share.size());
  for (std::size_t n = 0; n < order.size(); ++n) order[n] = n;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) { return share[x] > share[y]; });
  for (std::size_t k = 0; k < std::min(most, order.size()); ++k) {
    const std::size_t n = order[k];
    for (double& one : by_target[n]) one /= share[n];
    Outcome outcome{0, 0, share[n], pointed_to(targets, by_target[n]), {}};
    for (std::uint32_t load = 0; load < patterns.out[n].size(); ++load) {
      if (patterns.out[n][load]) outcome.out.push_back(load);
    }
    reading.outcomes.push_back(std::move(outcome));
  }
}

// The few that lead are put in the order of what each is worth with the best reading after it.
template <class ForetoldOf>
void look_ahead(const Targets& targets, const ForetoldOf& foretold_of, std::vector<NextReading>& readings) {
  constexpr std::size_t firsts = 6;
  constexpr std::size_t seconds = 24;
  std::vector<Option> options;
  for (std::size_t k = 0; k < std::min(seconds, readings.size()); ++k) {
    options.push_back(
        {readings[k].effort_min + to_hand_min, readings[k].information_bit, foretold_of(readings[k].candidate)});
  }
  std::size_t pieces = 0;
  for (const World* world : targets.worlds) pieces += world->pieces.size();
  const std::vector<double> gains =
      two_step_gain_bit(options, firsts, static_cast<std::uint32_t>(targets.places.size()), pieces);
  std::vector<std::size_t> order(gains.size());
  for (std::size_t k = 0; k < order.size(); ++k) order[k] = k;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) { return gains[x] > gains[y]; });
  std::vector<NextReading> ordered;
  for (const std::size_t k : order) ordered.push_back(std::move(readings[k]));
  std::move(ordered.begin(), ordered.end(), readings.begin());
}

}  // namespace

std::vector<NextReading> next_readings(const Model& model, const std::vector<World>& worlds) {
  constexpr double worth_bit = 0.01;
  constexpr std::size_t told = 5;  // outcomes are spelt out for the best
  const Targets targets = targets_of(worlds);
  const Shared shared = shared_errors(model);
  std::vector<std::vector<Eigen::VectorXd>> left;
  for (const World* world : targets.worlds) {
    left.emplace_back();
    for (const Piece& piece : world->pieces) left.back().push_back(moved(model, piece));
  }
  const auto count = static_cast<std::uint32_t>(targets.places.size());
  const auto foretold_of = [&](std::uint32_t c) {
    Patterns patterns;
    return model.problem().candidates[c].probe.quantity == Quantity::lamps_seen
               ? foretell_look(targets, patterns)
               : foretell(model, targets, shared, left, c);
  };
  std::vector<NextReading> readings;
  const bool looked = looked_round(model.problem());
  const std::vector<bool> suspect = suspect_spans(model.problem(), worlds);
  for (std::size_t c = 0; c < model.problem().candidates.size(); ++c) {
    const Probe& probe = model.problem().candidates[c].probe;
    // The ends of a cable say more than the joint beside them only where that cable is suspect.
    if (probe.quantity == Quantity::cable_end_v && !suspect[probe.index]) continue;
    if (probe.quantity == Quantity::lamps_seen && looked) continue;
    const OutcomeTable table(foretold_of(static_cast<std::uint32_t>(c)), count);
    NextReading reading;
    reading.candidate = static_cast<std::uint32_t>(c);
    reading.information_bit = table.information_bit();
    reading.effort_min = model.problem().candidates[c].effort_min;
    reading.merit = reading.information_bit / (reading.effort_min + to_hand_min);
    if (reading.information_bit > worth_bit) readings.push_back(reading);
  }
  std::stable_sort(readings.begin(), readings.end(),
                   [](const NextReading& x, const NextReading& y) { return x.merit > y.merit; });
  look_ahead(targets, foretold_of, readings);
  for (std::size_t k = 0; k < std::min(told, readings.size()); ++k) {
    if (model.problem().candidates[readings[k].candidate].probe.quantity == Quantity::lamps_seen) {
      tell_look(targets, readings[k]);
      continue;
    }
    const OutcomeTable table(foretold_of(readings[k].candidate), count);
    tell_outcomes(targets, table, readings[k]);
  }
  return readings;
}

std::vector<std::uint32_t> parents(const electrical::Network& network) {
  std::vector<std::vector<std::uint32_t>> beside(network.node_count);
  for (const electrical::Segment& segment : network.segments) {
    beside[segment.from].push_back(segment.to);
    beside[segment.to].push_back(segment.from);
  }
  std::vector<std::uint32_t> parent(network.node_count, none);
  std::vector<bool> reached(network.node_count, false);
  std::queue<std::uint32_t> queue;
  for (const electrical::Output& output : network.outputs) {
    reached[output.node] = true;
    queue.push(output.node);
  }
  for (; !queue.empty(); queue.pop()) {
    for (const std::uint32_t next : beside[queue.front()]) {
      if (reached[next]) continue;
      reached[next] = true;
      parent[next] = queue.front();
      queue.push(next);
    }
  }
  return parent;
}

std::vector<NextReading> half_split(const Model& model, const std::vector<World>& worlds) {
  const FaultProblem& problem = model.problem();
  const std::vector<std::uint32_t> parent = parents(problem.network);
  // Chance by the node at whose far side a place lies.
  std::vector<double> at_node(problem.network.node_count, 0);
  for (const World& world : worlds) {
    for (const std::uint32_t id : world.places) {
      const Place& place = problem.places[id];
      if (place.kind == PlaceKind::lamp) at_node[problem.network.loads[place.index].plus.node] += world.chance;
      if (place.kind != PlaceKind::joint_side && place.kind != PlaceKind::cable) continue;
      const electrical::Segment& segment = problem.network.segments[place.index];
      at_node[parent[segment.to] == segment.from ? segment.to : segment.from] += world.chance;
    }
  }
  double all = 0;
  std::vector<double> beyond(at_node.size(), 0);
  for (std::uint32_t node = 0; node < at_node.size(); ++node) {
    all += at_node[node];
    for (std::uint32_t up = node; up != none; up = parent[up]) beyond[up] += at_node[node];
  }
  NextReading best;
  double best_miss = HUGE_VAL;
  for (std::size_t c = 0; c < problem.candidates.size(); ++c) {
    if (problem.candidates[c].probe.quantity != Quantity::node_v) continue;
    const double miss = std::abs(beyond[problem.candidates[c].probe.index] - all / 2);
    if (miss >= best_miss) continue;
    best_miss = miss;
    best.candidate = static_cast<std::uint32_t>(c);
    best.effort_min = problem.candidates[c].effort_min;
  }
  if (best.candidate == none) return {};
  return {best};
}

}  // namespace duskwire::diagnosis
