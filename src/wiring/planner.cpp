// SPDX-License-Identifier: Apache-2.0
#include "wiring/planner.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "wiring/kept_trees.hpp"
#include "wiring/plan_answer.hpp"
#include "wiring/search.hpp"

namespace duskwire::wiring {
namespace {

using Lamps = std::vector<std::uint32_t>;

constexpr std::size_t most_torn_out = 20;

// Each lamp's neighbours, nearest first.
std::vector<Lamps> neighbours_of(const PlanProblem& problem) {
  constexpr std::size_t most = 40;
  const auto& nodes = problem.ground.nodes;
  std::vector<Lamps> near(problem.lamps.size());
  std::vector<std::pair<double, std::uint32_t>> row;
  for (std::size_t i = 0; i < problem.lamps.size(); ++i) {
    row.clear();
    for (std::uint32_t j = 0; j < problem.lamps.size(); ++j) {
      if (j == i) continue;
      row.emplace_back(geometry::distance_m(nodes[problem.lamps[i].node].at, nodes[problem.lamps[j].node].at), j);
    }
    const std::size_t count = std::min(most, row.size());
    std::partial_sort(row.begin(), row.begin() + static_cast<std::ptrdiff_t>(count), row.end());
    for (std::size_t k = 0; k < count; ++k) near[i].push_back(row[k].second);
  }
  return near;
}

// Nearest to a transformer first: a wiring grows outwards.
Lamps from_near_to_far(const PlanProblem& problem) {
  std::vector<std::pair<double, std::uint32_t>> order;
  const auto& nodes = problem.ground.nodes;
  for (std::uint32_t i = 0; i < problem.lamps.size(); ++i) {
    double least_m = HUGE_VAL;
    for (const Place& place : problem.places) {
      least_m = std::min(least_m, geometry::distance_m(nodes[problem.lamps[i].node].at, nodes[place.node].at));
    }
    order.emplace_back(least_m, i);
  }
  std::sort(order.begin(), order.end());
  Lamps lamps;
  for (const auto& [m, lamp] : order) lamps.push_back(lamp);
  return lamps;
}

}  // namespace

struct Planner::State {
  State(PlanProblem given, std::uint64_t seed) : problem(std::move(given)), dice(seed), near(neighbours_of(problem)) {}

  PlanProblem problem;
  Dice dice;
  std::vector<Lamps> near;
  std::vector<bool> allowed;
  std::unique_ptr<Search> search;
  std::optional<Wiring> current, best;
  std::vector<Search::Refusal> refusals;  // of the best
  double first_cost = 0;
  std::uint64_t steps = 0;
  std::uint64_t round_first = 0;  // steps at which the present round began
  std::uint64_t round_steps = 0;
  std::uint64_t rounds = 0;
  std::vector<std::vector<bool>> choices;  // of open places

  [[nodiscard]] std::uint64_t short_round() const { return 30 + problem.lamps.size(); }
  [[nodiscard]] std::uint64_t long_round() const { return 200 + 5 * problem.lamps.size(); }

  Wiring construct(Search& with, Lamps order) {
    Wiring wiring = with.empty();
    lay_kept(problem, wiring.layout);
    for (std::uint32_t o = 0; o < wiring.layout.outputs.size(); ++o) with.mark_stale(o);
    with.settle(wiring);
    feed_kept(problem, with, wiring);
    std::erase_if(order, [&](std::uint32_t lamp) { return wiring.layout.spot_of_lamp[lamp] != none; });
    with.join_all(wiring, order, nullptr);
    return wiring;
  }

  void begin() {
    allowed.assign(problem.cables.size(), true);
    search = std::make_unique<Search>(problem, allowed);
    current = construct(*search, from_near_to_far(problem));
    if (problem.most_cable_types > 0 && problem.most_cable_types < problem.cables.size()) choose_cable_types();
    best = current;
    refusals = search->refusals();
    first_cost = best->cost();
    round_steps = short_round();
    list_choices();
  }

  // Every choice of so many types, each wired once: the cheapest stays.
  void choose_cable_types() {
    const auto count = static_cast<std::uint32_t>(problem.cables.size());
    std::vector<bool> kept(count, false);
    for (const KeptTree& tree : problem.kept) {
      for (const KeptCable& cable : tree.cables) kept[cable.type] = true;
    }
    std::optional<Wiring> cheapest;
    for (std::uint32_t choice = 1; choice < (1U << count); ++choice) {
      std::vector<bool> mask(count);
      std::uint32_t types = 0;
      bool holds_kept = true;
      for (std::uint32_t t = 0; t < count; ++t) {
        mask[t] = ((choice >> t) & 1U) != 0;
        types += mask[t];
        holds_kept = holds_kept && (mask[t] || !kept[t]);
      }
      if (types != problem.most_cable_types || !holds_kept) continue;
      auto trial = std::make_unique<Search>(problem, mask);
      Wiring wiring = construct(*trial, from_near_to_far(problem));
      if (cheapest && wiring.cost() >= cheapest->cost()) continue;
      cheapest = std::move(wiring);
      allowed = mask;
      search = std::move(trial);
    }
    if (cheapest) current = std::move(cheapest);
  }

  // Neighbours of a lamp drawn at random, now and then a whole run; and whatever found no place last time.
  Lamps torn_out(const Wiring& wiring) {
    const auto count = problem.lamps.size();
    Lamps out = wiring.left_out;
    const auto take = [&](std::uint32_t lamp) {
      if (std::find(out.begin(), out.end(), lamp) == out.end()) out.push_back(lamp);
    };
    const auto seed = static_cast<std::uint32_t>(dice.below(count));
    const std::size_t wanted = 1 + dice.below(std::min(most_torn_out, count));
    constexpr double whole_run = 0.15;
    const std::uint32_t spot = wiring.layout.spot_of_lamp[seed];
    if (spot != none && dice.unit() < whole_run) {
      const std::uint32_t output = wiring.layout.output_of(spot);
      take(seed);
      for (const std::uint32_t lamp : near[seed]) {
        const std::uint32_t at = wiring.layout.spot_of_lamp[lamp];
        if (out.size() < 2 * most_torn_out && at != none && wiring.layout.output_of(at) == output) take(lamp);
      }
      return out;
    }
    constexpr double skipped = 0.25;
    take(seed);
    for (const std::uint32_t lamp : near[seed]) {
      if (out.size() >= wanted + wiring.left_out.size()) break;
      if (dice.unit() >= skipped) take(lamp);
    }
    return out;
  }

  void order(Lamps& lamps) {
    for (std::size_t i = lamps.size(); i > 1; --i) std::swap(lamps[i - 1], lamps[dice.below(i)]);
    const auto by = [&](auto key) {
      std::stable_sort(lamps.begin(), lamps.end(), [&](std::uint32_t p, std::uint32_t q) { return key(p) < key(q); });
    };
    const auto distance_m = [&](std::uint32_t lamp) {
      double least_m = HUGE_VAL;
      for (const Place& place : problem.places) {
        least_m = std::min(least_m, geometry::distance_m(problem.ground.nodes[problem.lamps[lamp].node].at,
                                                         problem.ground.nodes[place.node].at));
      }
      return least_m;
    };
    switch (dice.below(4)) {
      case 0:
        by(distance_m);
        break;
      case 1:
        by([&](std::uint32_t lamp) { return -distance_m(lamp); });
        break;
      default:
        break;  // as they were shuffled
    }
  }

  [[nodiscard]] bool movable(const Wiring& wiring, std::uint32_t lamp) const {
    const std::uint32_t spot = wiring.layout.spot_of_lamp[lamp];
    return spot == none || !wiring.layout.spots[spot].closed;
  }

  // Which places to try with transformers: every choice where there are few, some where there are many.
  void list_choices() {
    constexpr std::size_t few = 3;
    const std::size_t count = problem.places.size();
    if (count > few) {
      choices.emplace_back(count, true);
      for (std::size_t p = 0; p < std::min<std::size_t>(count, 6); ++p) {
        choices.emplace_back(count, false);
        choices.back()[p] = true;
      }
      return;
    }
    for (std::size_t mask = 1; mask < (std::size_t{1} << count); ++mask) {
      choices.emplace_back(count, false);
      for (std::size_t p = 0; p < count; ++p) choices.back()[p] = ((mask >> p) & 1U) != 0;
    }
  }

  [[nodiscard]] std::vector<bool> everywhere() const { return std::vector<bool>(problem.places.size(), true); }
  [[nodiscard]] std::vector<double> nothing_spent() const { return std::vector<double>(problem.places.size(), 0); }

  // At each open place a transformer for its share of the lamps counts as spent.
  [[nodiscard]] std::vector<double> spent_at(const std::vector<bool>& open) const {
    double lamp_va = 0;
    for (const PlanLamp& lamp : problem.lamps) lamp_va += lamp.load.power_va;
    const double share_va =
        1.15 * lamp_va / static_cast<double>(std::max<std::ptrdiff_t>(1, std::count(open.begin(), open.end(), true)));
    std::vector<double> spent = nothing_spent();
    for (std::size_t p = 0; p < open.size(); ++p) {
      if (!open[p]) continue;
      for (const std::uint32_t type : problem.places[p].types) {
        spent[p] = problem.units[type].cost + problem.places[p].unit_cost;
        if (problem.units[type].rating_va >= share_va) break;
      }
    }
    return spent;
  }

  void begin_anew(const std::vector<bool>& open) {
    search->open_places(open, spent_at(open));
    Lamps lamps = from_near_to_far(problem);
    if (rounds > choices.size()) order(lamps);
    Wiring anew = construct(*search, std::move(lamps));
    if (anew.left_out.empty() || !best->left_out.empty()) current = std::move(anew);
    take_if_better();
  }

  // First a short round for each choice of places; then long ones that grow, every other one begun anew where a garden
  // is small enough for that, the others from the best.
  void next_round() {
    constexpr std::size_t most_lamps_anew = 400;
    round_first = steps;
    ++rounds;
    current = best;
    if (rounds <= choices.size() && problem.lamps.size() <= most_lamps_anew) {
      begin_anew(choices[rounds - 1]);
      return;
    }
    const bool anew = rounds % 2 == 0 && problem.lamps.size() <= most_lamps_anew;
    round_steps = rounds <= choices.size() + 2 ? long_round() : anew ? round_steps : round_steps + round_steps / 2;
    search->open_places(everywhere(), nothing_spent());
    if (!anew) return;
    std::vector<bool> open(problem.places.size(), true);
    for (std::size_t p = 0; p < open.size(); ++p) open[p] = dice.below(2) == 0;
    if (std::find(open.begin(), open.end(), true) == open.end()) open[dice.below(open.size())] = true;
    begin_anew(open);
  }

  void take_if_better() {
    if (current->cost() >= best->cost() - 1e-6) return;
    best = current;
    refusals = search->refusals();
  }

  void step() {
    if (steps == round_first + round_steps / 2) search->open_places(everywhere(), nothing_spent());
    Wiring next = *current;
    constexpr double only_ways = 0.1;
    if (dice.unit() < only_ways) {
      search->lay_anew(next, dice, 4);
      if (!search->settle(next)) return;
    } else {
      Lamps lamps = torn_out(next);
      std::erase_if(lamps, [&](std::uint32_t lamp) { return !movable(next, lamp); });
      order(lamps);
      for (const std::uint32_t lamp : lamps) {
        const std::uint32_t spot = next.layout.spot_of_lamp[lamp];
        if (spot == none) continue;
        search->mark_stale(next.layout.output_of(spot));
        next.layout.take_out(lamp);
      }
      if (!search->settle(next)) return;
      search->join_all(next, lamps, &dice);
      constexpr double ways_too = 0.3;
      if (dice.unit() < ways_too) {
        search->lay_anew(next, dice, 3);
        if (!search->settle(next)) return;
      }
    }
    const double cost = next.cost();
    if (cost < best->cost() - 1e-6) {
      best = next;
      refusals = search->refusals();
      current = std::move(next);
    } else if (cost < current->cost() - temperature() * std::log(std::max(1e-12, dice.unit()))) {
      current = std::move(next);
    }
  }

  // Falls within a round from the price of a few joints to next to nothing.
  [[nodiscard]] double temperature() const {
    const double share = static_cast<double>(steps - round_first) / static_cast<double>(round_steps);
    const double hot = 3 * problem.joints.of(3, 0, 0).cost + 1e-9;
    return hot * std::pow(0.01, std::min(1.0, share));
  }
};

Planner::Planner(PlanProblem problem, std::uint64_t seed) : state_(std::make_unique<State>(std::move(problem), seed)) {}
Planner::~Planner() = default;
Planner::Planner(Planner&&) noexcept = default;
Planner& Planner::operator=(Planner&&) noexcept = default;

void Planner::improve(const std::function<bool()>& go_on, std::uint64_t most_steps) {
  State& state = *state_;
  if (state.problem.lamps.empty() || state.problem.places.empty()) return;
  if (!state.best) state.begin();
  while (state.steps < most_steps && (!go_on || go_on())) {
    if (state.steps - state.round_first >= state.round_steps) {
      state.next_round();
    }
    state.step();
    ++state.steps;
  }
}

PlanProgress Planner::progress() const {
  PlanProgress progress;
  progress.steps = state_->steps;
  if (!state_->best) return progress;
  const Wiring& best = *state_->best;
  progress.placed = static_cast<std::uint32_t>(state_->problem.lamps.size() - best.left_out.size());
  if (best.left_out.empty()) {
    progress.cost = best.cost();
    progress.first_cost = state_->first_cost < left_out_cost ? state_->first_cost : progress.cost;
  }
  const PlanAnswer sizes = answer_of(state_->problem, best);
  progress.trench_m = sizes.trench_m;
  progress.cable_m = sizes.cable_m;
  progress.joints = sizes.joints;
  return progress;
}

PlanAnswer Planner::answer(double more_safety_v) const {
  const State& state = *state_;
  if (!state.best) {
    PlanAnswer nothing;
    for (std::uint32_t lamp = 0; lamp < state.problem.lamps.size(); ++lamp) nothing.left_out.push_back(lamp);
    return nothing;
  }
  PlanProblem safer = state.problem;
  safer.safety_v += more_safety_v;
  Search search(safer, state.allowed);
  Wiring wiring = *state.best;
  wiring.layout.rebind(safer);
  for (std::uint32_t o = 0; o < wiring.layout.outputs.size(); ++o) search.mark_stale(o);
  if (!search.settle(wiring)) wiring = *state.best, wiring.layout.rebind(safer);
  search.lower_taps(wiring);
  return answer_of(safer, wiring);
}

std::vector<Refusal> Planner::refusals() const {
  std::vector<Refusal> all;
  const State& state = *state_;
  if (state.problem.places.empty()) {
    for (std::uint32_t lamp = 0; lamp < state.problem.lamps.size(); ++lamp) all.push_back({lamp, Refused::no_place, 0});
    return all;
  }
  for (const Search::Refusal& refusal : state.refusals) {
    Refused why = Refused::no_way;
    if (refusal.reached) {
      constexpr Refused words[] = {Refused::current, Refused::joint_place, Refused::joint_wires, Refused::tap,
                                   Refused::current, Refused::low_volts,   Refused::far_short};
      why = words[static_cast<std::size_t>(refusal.hindrance)];
    }
    all.push_back({refusal.lamp, why, refusal.room_v});
  }
  return all;
}

const PlanProblem& Planner::problem() const { return state_->problem; }

}  // namespace duskwire::wiring
