// SPDX-License-Identifier: Apache-2.0
#include "wiring/search.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::wiring {
namespace {

double middle_cost_per_m(const PlanProblem& problem) { return problem.cables[problem.cables.size() / 3].cost_per_m; }

const std::vector<double> no_taps;

}  // namespace

double Wiring::cost() const {
  double sum = layout.trench_cost + left_out_cost * static_cast<double>(left_out.size());
  for (const Output& output : layout.outputs) {
    if (output.alive) sum += output.cost;
  }
  for (const UnitChoice& choice : units) sum += choice.cost;
  return sum;
}

Search::Search(const PlanProblem& problem, std::vector<bool> allowed_cables)
    : problem_(problem),
      copper_(problem, std::move(allowed_cables)),
      joinings_(problem, middle_cost_per_m(problem)),
      where_(problem.ground.nodes.size()),
      relay_ways_(problem.ground),
      spent_(problem.places.size(), 0) {}

Wiring Search::empty() {
  Wiring wiring(problem_);
  for (std::uint32_t p = 0; p < problem_.places.size(); ++p) {
    wiring.units[p] = choose_units(problem_, problem_.places[p], wiring.layout, {});
  }
  return wiring;
}

Feed Search::feed_of(const Wiring& wiring, std::uint32_t output) const {
  const Output& record = wiring.layout.outputs[output];
  const UnitChoice& choice = wiring.units[record.place];
  const std::uint32_t type = record.unit + 1 >= choice.count ? choice.last_type : choice.type;
  if (type == none) return {0, 0, 0, 0, 0, &no_taps};
  const UnitType& unit = problem_.units[type];
  // Outputs of 25 A and less are built alike in all sizes; a small unit's limit is looked at when units are chosen.
  double limit_a = unit.limit_a;
  for (const std::uint32_t other : problem_.places[record.place].types)
    limit_a = std::max(limit_a, problem_.units[other].limit_a);
  return {unit.r_own_ohm, unit.r_shared_ohm, record.siblings_a, limit_a, unit.limit_a, &unit.taps_v};
}

void Search::mark_stale(std::uint32_t output) {
  if (stale_.size() <= output) stale_.resize(output + 1, false);
  stale_[output] = true;
}

bool Search::choose_units_at(Wiring& wiring, std::uint32_t place, double least_cost) {
  const std::vector<std::uint32_t> outputs = outputs_at(wiring.layout, place);
  wiring.units[place] = choose_units(problem_, problem_.places[place], wiring.layout, outputs, least_cost);
  return outputs.empty() || wiring.units[place].type != none;
}

bool Search::settle(Wiring& wiring) {
  Layout& layout = wiring.layout;
  stale_.resize(layout.outputs.size(), false);
  // A smaller transformer drops more volts, so that its lamps draw more: what turned out too small once is not tried
  // again.
  std::vector<double> least_cost(problem_.places.size(), 0);
  for (int round = 0; round < 6; ++round) {
    std::vector<bool> touched(problem_.places.size(), false);
    bool any = false;
    for (std::uint32_t o = 0; o < layout.outputs.size(); ++o) {
      if (!stale_[o]) continue;
      stale_[o] = false;
      any = true;
      touched[layout.outputs[o].place] = true;
      if (!layout.outputs[o].alive) continue;
      if (copper_.size(layout, o, feed_of(wiring, o)) != Hindrance::nothing) return fail();
    }
    if (!any) return true;
    for (std::uint32_t p = 0; p < problem_.places.size(); ++p) {
      if (!touched[p]) continue;
      const UnitChoice before = wiring.units[p];
      std::vector<std::pair<std::uint32_t, double>> siblings;
      for (const std::uint32_t o : outputs_at(layout, p)) siblings.emplace_back(o, layout.outputs[o].siblings_a);
      if (!choose_units_at(wiring, p, least_cost[p])) return fail();
      const UnitChoice& after = wiring.units[p];
      if (round > 0 && after.cost > before.cost) least_cost[p] = after.cost;
      const bool other_units =
          before.type != after.type || before.last_type != after.last_type || before.count != after.count;
      constexpr double noticeable_a = 0.3;
      for (const auto& [o, was_a] : siblings) {
        if (other_units || std::abs(layout.outputs[o].siblings_a - was_a) > noticeable_a) mark_stale(o);
      }
    }
  }
  return fail();
}

bool Search::fail() {
  stale_.assign(stale_.size(), false);
  return false;
}

void Search::save(const Wiring& wiring, SizedState& saved) {
  saved.outputs.assign(wiring.layout.outputs.begin(), wiring.layout.outputs.end());
  saved.types.clear();
  for (const Lay& lay : wiring.layout.lays) saved.types.push_back(lay.type);
  saved.units = wiring.units;
}

void Search::restore(Wiring& wiring, const SizedState& saved) {
  Layout& layout = wiring.layout;
  for (std::size_t o = 0; o < saved.outputs.size(); ++o) static_cast<Sized&>(layout.outputs[o]) = saved.outputs[o];
  for (std::size_t c = 0; c < saved.types.size(); ++c) layout.lays[c].type = saved.types[c];
  wiring.units = saved.units;
}

std::uint32_t Search::apply(Layout& layout, std::uint32_t lamp, const Joining& joining) {
  std::uint32_t from = none;
  std::uint32_t output = none;
  switch (joining.kind) {
    case JoinKind::spot:
      from = joining.target;
      break;
    case JoinKind::split:
      from = layout.split(joining.target, joining.at);
      break;
    case JoinKind::detour:
      layout.reroute(joining.target, joining.way);
      from = layout.split(joining.target, joining.at);
      break;
    case JoinKind::output:
      output = joining.target;
      break;
    case JoinKind::new_output:
      output = layout.new_output(joining.target);
      layout.outputs[output].own = problem_.lamps[lamp].own_output;
      break;
  }
  if (from != none) output = layout.output_of(from);
  const bool is_there = joining.kind == JoinKind::detour || (from != none && joining.way->edges.empty());
  const std::uint32_t spot = is_there ? from : layout.lay(from, output, joining.way);
  layout.put(lamp, spot);
  return output;
}

// Joins, sizes, takes the cost and takes it all back.
Search::Trial Search::attempt(Wiring& wiring, std::uint32_t lamp, const Joining& joining) {
  Layout& layout = wiring.layout;
  const double trench_before = layout.trench_cost;
  const WayPtr way_before = joining.kind == JoinKind::detour ? layout.lays[joining.target].way : nullptr;
  const std::uint32_t output = apply(layout, lamp, joining);
  const std::uint32_t place = layout.outputs[output].place;
  const std::vector<std::uint32_t> siblings = outputs_at(layout, place);
  std::vector<Output> records;
  records.reserve(siblings.size());
  for (const std::uint32_t o : siblings) records.push_back(layout.outputs[o]);
  saved_types_.clear();
  for (std::uint32_t c = 0; c < layout.lays.size(); ++c) {
    if (layout.lays[c].alive && layout.lays[c].output == output) saved_types_.emplace_back(c, layout.lays[c].type);
  }
  const double cost_before = layout.outputs[output].cost;

  Trial trial;
  trial.hindrance = copper_.size(layout, output, feed_of(wiring, output));
  trial.room_v = copper_.least_room_v();
  if (trial.hindrance == Hindrance::nothing) {
    const UnitChoice units = choose_units(problem_, problem_.places[place], layout, siblings);
    if (units.type == none) {
      trial.hindrance = Hindrance::current;
    } else {
      trial.cost = layout.trench_cost - trench_before + layout.outputs[output].cost - cost_before +
                   std::max(units.cost, spent_[place]) - std::max(wiring.units[place].cost, spent_[place]);
    }
  }
  for (const auto& [cable, type] : saved_types_) layout.lays[cable].type = type;
  for (std::size_t i = 0; i < siblings.size(); ++i) layout.outputs[siblings[i]] = records[i];
  layout.take_out(lamp);
  if (way_before) layout.reroute(joining.target, way_before);
  return trial;
}

bool Search::join(Wiring& wiring, std::uint32_t lamp, Dice* dice) {
  constexpr double looked_far = 0.1;  // of all joins: as far as the transformers, where nearer ways would do
  constexpr std::size_t some_places = 3;
  const bool far_first = dice && dice->unit() < looked_far;
  if (join_within(wiring, lamp, dice, far_first ? some_places : 0)) return true;
  if (join_within(wiring, lamp, nullptr, problem_.places.size())) return true;
  refusals_.push_back(refusal_);
  return false;
}

bool Search::join_within(Wiring& wiring, std::uint32_t lamp, Dice* dice, std::size_t places) {
  constexpr std::size_t looked_at = 5;  // sound ways that are compared
  constexpr std::size_t most_tried = 16;
  constexpr double passed_over = 0.02;  // Christiaens and Vanden Berghe (2020) call it a blink
  const PlanLamp& item = problem_.lamps[lamp];
  // Copied: an attempt lays and takes up, which the ways themselves outlast.
  const std::vector<Joining> found = joinings_.find(item.node, item.own_output, places, wiring.layout, where_);
  const Joining* best = nullptr;
  double best_cost = HUGE_VAL;
  std::size_t sound = 0;
  std::size_t tried = 0;
  Trial nearest;
  for (const Joining& joining : found) {
    const bool beyond = sound >= 1 && joining.estimate > best_cost;
    if (sound >= looked_at || tried >= most_tried || beyond) {
      // An output of its own is always worth a look: it may spare thick copper.
      if (joining.kind != JoinKind::new_output || sound > 0) continue;
    }
    if (dice && found.size() > 1 && dice->unit() < passed_over) continue;
    ++tried;
    const Trial trial = attempt(wiring, lamp, joining);
    if (trial.hindrance != Hindrance::nothing) {
      if (nearest.hindrance == Hindrance::nothing || trial.hindrance > nearest.hindrance ||
          (trial.hindrance == Hindrance::low_volts && trial.room_v > nearest.room_v)) {
        nearest = trial;
      }
      continue;
    }
    ++sound;
    if (trial.cost >= best_cost) continue;
    best_cost = trial.cost;
    best = &joining;
  }
  if (!best) {
    refusal_ = {lamp, nearest.hindrance, !found.empty(), nearest.room_v};
    return false;
  }
  Layout& layout = wiring.layout;
  const WayPtr way_before = best->kind == JoinKind::detour ? layout.lays[best->target].way : nullptr;
  save(wiring, saved_);
  const std::uint32_t output = apply(layout, lamp, *best);
  mark_stale(output);
  if (!settle(wiring)) {
    layout.take_out(lamp);
    if (way_before) layout.reroute(best->target, way_before);
    restore(wiring, saved_);
    stale_.assign(stale_.size(), false);
    refusal_ = {lamp, Hindrance::current, true, 0};
    return false;
  }
  const std::uint32_t spot = layout.spot_of_lamp[lamp];
  where_.add_spot(layout, spot);
  where_.add_cable(layout, layout.spots[spot].in);
  if (best->kind == JoinKind::split || best->kind == JoinKind::detour) {
    const std::uint32_t parent =
        best->kind == JoinKind::detour || best->way->edges.empty() ? spot : layout.lays[layout.spots[spot].in].from;
    where_.add_spot(layout, parent);
    where_.add_cable(layout, layout.spots[parent].in);
    for (std::uint32_t c = layout.spots[parent].first_out; c != none; c = layout.lays[c].next) {
      where_.add_cable(layout, c);
    }
  }
  return true;
}

void Search::join_all(Wiring& wiring, const std::vector<std::uint32_t>& lamps, Dice* dice) {
  refusals_.clear();
  where_.rebuild(wiring.layout);
  wiring.left_out.clear();
  for (const std::uint32_t lamp : lamps) {
    if (!join(wiring, lamp, dice)) wiring.left_out.push_back(lamp);
  }
}

void Search::lay_anew(Wiring& wiring, Dice& dice, std::size_t count) {
  Layout& layout = wiring.layout;
  if (layout.lays.empty()) return;
  for (std::size_t i = 0; i < count; ++i) {
    const auto cable = static_cast<std::uint32_t>(dice.below(layout.lays.size()));
    const Lay& lay = layout.lays[cable];
    if (!lay.alive || lay.kept || lay.way->edges.empty()) continue;
    const WayPtr was = lay.way;
    const std::uint32_t from = was->nodes.front();
    const std::uint32_t to = was->nodes.back();
    for (const std::uint32_t e : was->edges) --layout.laid[e];
    relay_ways_.start(from, layout, problem_.cables[lay.type].cost_per_m);
    while (true) {
      const std::uint32_t at = relay_ways_.next();
      if (at == to || at == none) break;
    }
    const WayPtr now = relay_ways_.way_to(to);
    for (const std::uint32_t e : was->edges) ++layout.laid[e];
    if (now->edges == was->edges) continue;
    layout.reroute(cable, now);
    mark_stale(lay.output);
  }
}

std::uint32_t Search::feed_joint(Wiring& wiring, std::uint32_t node) {
  Layout& layout = wiring.layout;
  relay_ways_.start(node, layout, middle_cost_per_m(problem_));
  for (std::uint32_t at = relay_ways_.next(); at != none; at = relay_ways_.next()) {
    for (std::uint32_t p = 0; p < problem_.places.size(); ++p) {
      if (problem_.places[p].node != at) continue;
      const std::vector<std::uint32_t> there = outputs_at(layout, p);
      const std::uint32_t output = there.empty() ? layout.new_output(p) : there.front();
      const std::uint32_t spot = layout.lay(none, output, relay_ways_.way_from(at));
      layout.spots[spot].joint = true;
      layout.outputs[output].kept = true;
      return spot;
    }
  }
  return none;
}

void Search::lower_taps(Wiring& wiring) {
  // Lower taps mean more amperes: never so many that a larger transformer is called for.
  for (std::uint32_t p = 0; p < problem_.places.size(); ++p) {
    for (const std::uint32_t o : outputs_at(wiring.layout, p)) {
      save(wiring, saved_);
      copper_.lower_tap(wiring.layout, o, feed_of(wiring, o));
      const double before = wiring.units[p].cost;
      if (!choose_units_at(wiring, p, before) || wiring.units[p].cost > before) restore(wiring, saved_);
    }
  }
}

}  // namespace duskwire::wiring
