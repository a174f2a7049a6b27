// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/next_reading.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <queue>

#include "diagnosis/outcomes.hpp"

namespace duskwire::diagnosis {
namespace {

constexpr std::size_t most_worlds = 240;
constexpr double to_hand_min = 0.5;  // taking any reading: probes out, number noted

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

bool is_volts(Quantity quantity) {
  return quantity == Quantity::node_v || quantity == Quantity::cable_end_v || quantity == Quantity::output_v;
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
  const State sound = settle(problem, {});
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
                   std::vector<Foretold>& into) {
  const bool unsteady = !world.faults.empty() && is_unsteady(world.faults.front().kind);
  constexpr double narrow = 0.05;  // states are far apart on this scale: their number
  for (int seen = 0; seen < 4; ++seen) {
    const double chance =
        seen_chance(static_cast<SeenLamp>(seen), piece.future[static_cast<Eigen::Index>(c)], unsteady);
    into.push_back({target, share * chance, static_cast<double>(seen), narrow});
  }
}

std::vector<Foretold> foretell(const Model& model, const Targets& targets, const Shared& shared,
                               const std::vector<std::vector<Eigen::VectorXd>>& left, std::size_t c) {
  constexpr double alive_v = 0.5;
  const Candidate& candidate = model.problem().candidates[c];
  const Quantity quantity = candidate.probe.quantity;
  const auto at = static_cast<Eigen::Index>(c);
  std::vector<Foretold> foretold;
  for (std::size_t w = 0; w < targets.worlds.size(); ++w) {
    const World& world = *targets.worlds[w];
    for (std::size_t p = 0; p < world.pieces.size(); ++p) {
      const Piece& piece = world.pieces[p];
      const double share = world.chance / targets.chance * piece.share;
      if (quantity == Quantity::lamp_state) {
        foretell_seen(world, piece, share, targets.target[w], c, foretold);
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
      // Whether the lamp beside it is dark is seen for nothing: such readings are laid far apart.
      if (piece.dark[c]) value += beside_dark_lamp;
      foretold.push_back({targets.target[w], share, value, std::sqrt(std::max(variance, 1e-8))});
    }
  }
  return foretold;
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
    reading.outcomes.push_back({stretch.low, stretch.high, stretch.share, pointed_to(targets, stretch.by_target)});
  }
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
  std::vector<NextReading> readings;
  const std::vector<bool> suspect = suspect_spans(model.problem(), worlds);
  for (std::size_t c = 0; c < model.problem().candidates.size(); ++c) {
    const Probe& probe = model.problem().candidates[c].probe;
    // The ends of a cable say more than the joint beside them only where that cable is suspect.
    if (probe.quantity == Quantity::cable_end_v && !suspect[probe.index]) continue;
    const OutcomeTable table(foretell(model, targets, shared, left, c), count);
    NextReading reading;
    reading.candidate = static_cast<std::uint32_t>(c);
    reading.information_bit = table.information_bit();
    reading.effort_min = model.problem().candidates[c].effort_min;
    reading.merit = reading.information_bit / (reading.effort_min + to_hand_min);
    if (reading.information_bit > worth_bit) readings.push_back(reading);
  }
  std::stable_sort(readings.begin(), readings.end(),
                   [](const NextReading& x, const NextReading& y) { return x.merit > y.merit; });
  for (std::size_t k = 0; k < std::min(told, readings.size()); ++k) {
    const OutcomeTable table(foretell(model, targets, shared, left, readings[k].candidate), count);
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
