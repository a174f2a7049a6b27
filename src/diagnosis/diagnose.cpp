// SPDX-License-Identifier: Apache-2.0
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <map>

#include "diagnosis/answer.hpp"
#include "diagnosis/beside_plan.hpp"
#include "diagnosis/chi_square.hpp"
#include "diagnosis/loops.hpp"
#include "diagnosis/next_reading.hpp"
#include "diagnosis/worlds.hpp"

namespace duskwire::diagnosis {
namespace {

std::vector<Explanation> explain(const std::vector<World>& worlds) {
  constexpr std::size_t most = 40;
  std::vector<Explanation> result;
  for (const World& world : worlds) {
    if (result.size() >= most) break;
    Explanation one{world.faults, world.places, world.chance, 0, 0};
    if (!world.faults.empty() && has_parameter(world.faults.front().kind)) {
      one.parameter_low = world.faults.front().parameter * std::exp(-world.log_sigma);
      one.parameter_high = world.faults.front().parameter * std::exp(world.log_sigma);
    }
    result.push_back(std::move(one));
  }
  return result;
}

std::vector<PlaceChance> by_place(const std::vector<World>& worlds) {
  std::map<std::uint32_t, double> sums;
  for (const World& world : worlds) {
    for (std::size_t k = 0; k < world.places.size(); ++k) {
      // Two faults at one place are one place.
      if (k == 0 || world.places[k] != world.places[0]) sums[world.places[k]] += world.chance;
    }
  }
  std::vector<PlaceChance> places;
  for (const auto& [place, chance] : sums) places.push_back({place, chance});
  std::stable_sort(places.begin(), places.end(),
                   [](const PlaceChance& x, const PlaceChance& y) { return x.chance > y.chance; });
  return places;
}

std::vector<Bracket> bracket(const FaultProblem& problem, const std::vector<PlaceChance>& places) {
  std::map<std::pair<PlaceKind, std::uint32_t>, Bracket> found;
  for (const PlaceChance& one : places) {
    const Place& place = problem.places[one.place];
    const PlaceKind kind = place.kind == PlaceKind::joint_side ? PlaceKind::cable : place.kind;
    Bracket& entry = found[{kind, place.index}];
    entry.chance += one.chance;
    entry.places.push_back(one);
  }
  std::vector<Bracket> brackets;
  for (auto& [key, entry] : found) brackets.push_back(std::move(entry));
  std::stable_sort(brackets.begin(), brackets.end(),
                   [](const Bracket& x, const Bracket& y) { return x.chance > y.chance; });
  return brackets;
}

// Kadane and Simon: with one fault to find, search in the order of chance over effort.
std::vector<HoleChance> order_holes(const FaultProblem& problem, const std::vector<PlaceChance>& places) {
  constexpr double worth = 0.002;
  std::map<std::uint32_t, HoleChance> holes;
  for (const PlaceChance& place : places) {
    const std::uint32_t hole = problem.places[place.place].hole;
    HoleChance& entry = holes[hole];
    entry.hole = hole;
    entry.effort_min = problem.holes[hole].effort_min;
    entry.chance += place.chance;
    entry.places.push_back(place);
  }
  std::vector<HoleChance> order;
  for (auto& [hole, entry] : holes) {
    if (entry.chance > worth) order.push_back(std::move(entry));
  }
  const auto merit = [](const HoleChance& hole) {
    constexpr double least_min = 0.5;
    return hole.chance / std::max(least_min, hole.effort_min);
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](const HoleChance& x, const HoleChance& y) { return merit(x) > merit(y); });
  return order;
}

struct Fitness {
  double share = 1;                   // of chance-alone readings that agree no better
  std::vector<std::size_t> left_out;  // numeric observations that the best explanation does not reach
};

// Leaves out up to one reading in four where that brings the rest into line: those are to be read again.
Fitness judge(const Model& model, const Eigen::VectorXd& measured, const Agreement& agreement) {
  constexpr double plain = 0.01;
  Fitness fitness;
  const Eigen::VectorXd residual = model.values() - measured;
  std::vector<Eigen::Index> kept;
  for (Eigen::Index k = 0; k < residual.size(); ++k) kept.push_back(k);
  const std::size_t spare = kept.size() / 4;
  const Eigen::MatrixXd covariance = agreement.precision.inverse();
  while (!kept.empty()) {
    const Eigen::MatrixXd precision = covariance(kept, kept).inverse();
    const Eigen::VectorXd rest = residual(kept);
    fitness.share = chance_above(rest.dot(precision * rest), static_cast<int>(kept.size()));
    if (fitness.share > plain || fitness.left_out.size() >= spare) return fitness;
    const Eigen::VectorXd z = precision * rest;
    Eigen::Index worst = 0;
    (z.array().square() / precision.diagonal().array()).maxCoeff(&worst);
    fitness.left_out.push_back(static_cast<std::size_t>(kept[static_cast<std::size_t>(worst)]));
    kept.erase(kept.begin() + worst);
  }
  return fitness;
}

std::vector<Compared> compare(const Model& model, const Outlook& best, const Fitness& fitness) {
  std::vector<Compared> result = beside_plan(model);
  for (std::size_t k = 0; k < result.size(); ++k) {
    result[k].explained = best.measured[static_cast<Eigen::Index>(k)];
    result[k].wrong_likely = std::find(fitness.left_out.begin(), fitness.left_out.end(), k) != fitness.left_out.end();
  }
  return result;
}

// Cuts of both conductors on a loop that change nothing which any candidate would show.
std::vector<std::uint32_t> blind_spans(const Model& model) {
  constexpr double seen_sigma = 2;
  const FaultProblem& problem = model.problem();
  std::vector<std::uint32_t> blind;
  const std::vector<bool> on_loop = segments_on_loops(problem.network);
  if (std::none_of(on_loop.begin(), on_loop.end(), [](bool on) { return on; })) return blind;
  const Outlook sound = model.outlooks({}, {none}, true).front();
  for (std::uint32_t s = 0; s < problem.spans.size(); ++s) {
    if (!on_loop[s]) continue;
    const Outlook cut = model.outlooks({{FaultKind::open, s, 0}}, {problem.spans[s].cable}, true).front();
    bool seen = false;
    for (std::size_t c = 0; c < problem.candidates.size() && !seen; ++c) {
      const auto at = static_cast<Eigen::Index>(c);
      const Probe& probe = problem.candidates[c].probe;
      const bool of_itself = probe.lifted != none || probe.quantity == Quantity::cable_end_v ||
                             (probe.quantity == Quantity::cable_a && probe.index == s);
      if (of_itself || is_state(probe.quantity)) continue;
      seen = std::abs(cut.future[at] - sound.future[at]) > seen_sigma * problem.candidates[c].sigma;
    }
    if (!seen) blind.push_back(s);
  }
  return blind;
}

Verdict judge_all(const FaultProblem& problem, const std::vector<World>& worlds, const std::vector<Bracket>& brackets,
                  const Fitness& fitness) {
  constexpr double located = 0.8;
  constexpr double misfit = 1e-3;
  if (problem.observations.empty()) return Verdict::no_readings;
  if (fitness.share < misfit) return Verdict::misfit;
  double sound = 0;
  for (const World& world : worlds) sound += world.faults.empty() ? world.chance : 0;
  if (sound > 0.5) return Verdict::sound;
  return !brackets.empty() && brackets.front().chance > located ? Verdict::located : Verdict::narrowed;
}

}  // namespace

Answer diagnose(const FaultProblem& problem, Depth depth) {
  const Model model(problem, depth == Depth::whole);
  const std::vector<World> found = worlds(model);
  Answer answer;
  answer.explanations = explain(found);
  answer.places = by_place(found);
  answer.brackets = bracket(problem, answer.places);
  answer.dig_order = order_holes(problem, answer.places);
  const std::uint32_t at = found.front().places.empty() ? none : found.front().places.front();
  const Outlook best = model.outlooks(found.front().faults, {at}, false).front();
  const Fitness fitness = judge(model, best.measured, best.agreement);
  answer.misfit_share = fitness.share;
  answer.compared = compare(model, best, fitness);
  answer.verdict = judge_all(problem, found, answer.brackets, fitness);
  if (depth == Depth::ranking) return answer;
  answer.next = next_readings(model, found);
  answer.half_split = half_split(model, found);
  answer.blind = blind_spans(model);
  return answer;
}

}  // namespace duskwire::diagnosis
