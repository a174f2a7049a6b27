// SPDX-License-Identifier: Apache-2.0
#include "wiring/layout.hpp"

#include <utility>

namespace duskwire::wiring {

WayPtr make_way(const GroundGraph& ground, std::uint32_t from, std::vector<std::uint32_t> edges) {
  auto way = std::make_shared<Way>();
  way->nodes.reserve(edges.size() + 1);
  way->nodes.push_back(from);
  for (const std::uint32_t e : edges) {
    const GroundEdge& edge = ground.edges[e];
    way->nodes.push_back(way->nodes.back() == edge.a ? edge.b : edge.a);
    way->length_m += edge.length_m;
  }
  way->edges = std::move(edges);
  return way;
}

Layout::Layout(const PlanProblem& problem)
    : spot_of_lamp(problem.lamps.size(), none),
      next_lamp(problem.lamps.size(), none),
      laid(problem.ground.edges.size(), 0),
      problem_(&problem) {}

std::uint32_t Layout::new_output(std::uint32_t place) {
  std::uint32_t found = none;
  for (std::uint32_t o = 0; o < outputs.size() && found == none; ++o) {
    if (!outputs[o].alive) found = o;
  }
  if (found == none) {
    found = static_cast<std::uint32_t>(outputs.size());
    outputs.emplace_back();
  }
  outputs[found] = Output{};
  outputs[found].place = place;
  outputs[found].alive = true;
  return found;
}

std::uint32_t Layout::new_spot(std::uint32_t node) {
  std::uint32_t spot = 0;
  if (free_spots_.empty()) {
    spot = static_cast<std::uint32_t>(spots.size());
    spots.emplace_back();
  } else {
    spot = free_spots_.back();
    free_spots_.pop_back();
  }
  spots[spot] = Spot{};
  spots[spot].node = node;
  spots[spot].alive = true;
  return spot;
}

std::uint32_t Layout::new_lay() {
  std::uint32_t lay = 0;
  if (free_lays_.empty()) {
    lay = static_cast<std::uint32_t>(lays.size());
    lays.emplace_back();
  } else {
    lay = free_lays_.back();
    free_lays_.pop_back();
  }
  lays[lay] = Lay{};
  lays[lay].alive = true;
  return lay;
}

void Layout::chain(std::uint32_t lay) {
  Lay& cable = lays[lay];
  std::uint32_t& head = cable.from == none ? outputs[cable.output].first_out : spots[cable.from].first_out;
  cable.next = head;
  head = lay;
  ++(cable.from == none ? outputs[cable.output].outs : spots[cable.from].outs);
}

void Layout::unchain(std::uint32_t lay) {
  Lay& cable = lays[lay];
  std::uint32_t* at = cable.from == none ? &outputs[cable.output].first_out : &spots[cable.from].first_out;
  while (*at != lay) at = &lays[*at].next;
  *at = cable.next;
  --(cable.from == none ? outputs[cable.output].outs : spots[cable.from].outs);
}

void Layout::dig(const Way& way) {
  for (const std::uint32_t e : way.edges) {
    if (laid[e]++ > 0) continue;
    trench_cost += problem_->ground.edges[e].dig_cost;
    trench_m += problem_->ground.edges[e].length_m;
  }
}

void Layout::fill(const Way& way) {
  for (const std::uint32_t e : way.edges) {
    if (--laid[e] > 0) continue;
    trench_cost -= problem_->ground.edges[e].dig_cost;
    trench_m -= problem_->ground.edges[e].length_m;
  }
}

std::uint32_t Layout::lay(std::uint32_t from, std::uint32_t output, WayPtr way) {
  const std::uint32_t to = new_spot(way->nodes.back());
  const std::uint32_t lay = new_lay();
  Lay& cable = lays[lay];
  cable.from = from;
  cable.to = to;
  cable.output = output;
  dig(*way);
  cable.way = std::move(way);
  spots[to].in = lay;
  chain(lay);
  return to;
}

void Layout::take_up(std::uint32_t spot) {
  const std::uint32_t lay = spots[spot].in;
  fill(*lays[lay].way);
  unchain(lay);
  Output& output = outputs[lays[lay].output];
  if (output.outs == 0 && !output.kept) output.alive = false;
  lays[lay].alive = false;
  lays[lay].way.reset();
  spots[spot].alive = false;
  free_lays_.push_back(lay);
  free_spots_.push_back(spot);
}

std::uint32_t Layout::split(std::uint32_t cable, std::size_t at) {
  const WayPtr whole = lays[cable].way;
  using Edges = std::vector<std::uint32_t>;
  const auto middle = whole->edges.begin() + static_cast<std::ptrdiff_t>(at);
  const std::uint32_t spot = new_spot(whole->nodes[at]);
  const std::uint32_t onward = new_lay();
  Lay& first = lays[cable];
  Lay& second = lays[onward];
  second.from = spot;
  second.to = first.to;
  second.output = first.output;
  second.type = first.type;
  second.way = make_way(problem_->ground, whole->nodes[at], Edges(middle, whole->edges.end()));
  spots[second.to].in = onward;
  first.to = spot;
  first.way = make_way(problem_->ground, whole->nodes.front(), Edges(whole->edges.begin(), middle));
  spots[spot].in = cable;
  chain(onward);
  return spot;
}

void Layout::reroute(std::uint32_t cable, WayPtr way) {
  fill(*lays[cable].way);
  dig(*way);
  lays[cable].way = std::move(way);
}

void Layout::put(std::uint32_t lamp, std::uint32_t spot) {
  spot_of_lamp[lamp] = spot;
  next_lamp[lamp] = spots[spot].first_lamp;
  spots[spot].first_lamp = lamp;
  ++spots[spot].lamps;
  recount(output_of(spot), 1);
}

void Layout::lift(std::uint32_t lamp) {
  Spot& spot = spots[spot_of_lamp[lamp]];
  recount(lays[spot.in].output, -1);
  std::uint32_t* at = &spot.first_lamp;
  while (*at != lamp) at = &next_lamp[*at];
  *at = next_lamp[lamp];
  --spot.lamps;
  spot_of_lamp[lamp] = none;
}

void Layout::tidy(std::uint32_t spot) {
  while (spot != none && spots[spot].alive) {
    Spot& here = spots[spot];
    Lay& in = lays[here.in];
    if (here.lamps > 0 || here.outs > 1 || in.kept || here.joint) return;
    if (here.outs == 0) {
      const std::uint32_t above = in.from;
      take_up(spot);
      spot = above;
      continue;
    }
    const std::uint32_t onward = here.first_out;
    if (lays[onward].kept) return;
    // Two cables that only meet here are one.
    std::vector<std::uint32_t> edges = in.way->edges;
    edges.insert(edges.end(), lays[onward].way->edges.begin(), lays[onward].way->edges.end());
    in.way = make_way(problem_->ground, in.way->nodes.front(), std::move(edges));
    in.to = lays[onward].to;
    spots[in.to].in = here.in;
    lays[onward].alive = false;
    lays[onward].way.reset();
    free_lays_.push_back(onward);
    here.alive = false;
    free_spots_.push_back(spot);
    return;
  }
}

void Layout::take_out(std::uint32_t lamp) {
  const std::uint32_t spot = spot_of_lamp[lamp];
  lift(lamp);
  tidy(spot);
}

std::uint32_t Layout::lamp_end(const Spot& spot) const {
  if (spot.outs > 0 || spot.lamps != 1 || spot.joint) return none;
  const bool spliced = problem_->lamps[spot.first_lamp].has_lead && problem_->splice_every_lead && !spot.closed;
  return spliced ? none : spot.first_lamp;
}

std::uint32_t Layout::wires_at(const Spot& spot) const {
  if (lamp_end(spot) != none) return 0;
  return 1 + spot.outs + spot.lamps;
}

}  // namespace duskwire::wiring
