// SPDX-License-Identifier: Apache-2.0
#include "wiring/joining.hpp"

#include <algorithm>

namespace duskwire::wiring {
namespace {

constexpr std::size_t enough = 10;  // ways that are looked at more closely
constexpr std::size_t most_detours = 3;

}  // namespace

void WhoIsWhere::rebuild(const Layout& layout) {
  std::fill(spots_.begin(), spots_.end(), none);
  std::fill(cables_.begin(), cables_.end(), none);
  entries_.clear();
  for (std::uint32_t s = 0; s < layout.spots.size(); ++s) {
    if (layout.spots[s].alive) add_spot(layout, s);
  }
  for (std::uint32_t c = 0; c < layout.lays.size(); ++c) {
    if (layout.lays[c].alive) add_cable(layout, c);
  }
}

void WhoIsWhere::add_spot(const Layout& layout, std::uint32_t spot) {
  std::uint32_t& head = spots_[layout.spots[spot].node];
  entries_.push_back({spot, 0, head});
  head = static_cast<std::uint32_t>(entries_.size() - 1);
}

void WhoIsWhere::add_cable(const Layout& layout, std::uint32_t cable) {
  const Way& way = *layout.lays[cable].way;
  for (std::size_t i = 1; i + 1 < way.nodes.size(); ++i) {
    std::uint32_t& head = cables_[way.nodes[i]];
    entries_.push_back({cable, static_cast<std::uint32_t>(i), head});
    head = static_cast<std::uint32_t>(entries_.size() - 1);
  }
}

Joinings::Joinings(const PlanProblem& problem, double typical_per_m)
    : problem_(problem),
      per_m_(typical_per_m),
      ways_(problem.ground),
      places_at_(problem.ground.nodes.size()),
      open_places_(problem.places.size(), true) {
  for (std::uint32_t p = 0; p < problem.places.size(); ++p) places_at_[problem.places[p].node].push_back(p);
}

double Joinings::joint_cost(std::uint32_t wires) const { return problem_.joints.of(wires, 0, 0).cost; }

void Joinings::offer(Joining joining) { found_.push_back(std::move(joining)); }

void Joinings::offer_spot(const Layout& layout, std::uint32_t spot, std::uint32_t node, double cost) {
  const Spot& here = layout.spots[spot];
  if (here.closed || layout.outputs[layout.output_of(spot)].own) return;
  if (!problem_.ground.nodes[here.node].joint_allowed && !here.joint) return;
  const std::uint32_t wires = layout.wires_at(here);
  const std::uint32_t then = (wires == 0 ? 2 : wires) + 1;
  if (then > problem_.most_wires) return;
  offer({JoinKind::spot, spot, 0, nullptr, node, cost + joint_cost(then) - joint_cost(wires)});
}

void Joinings::offer_place(const Layout& layout, std::uint32_t place, std::uint32_t node, double cost, bool own) {
  if (open_places_[place]) offer({JoinKind::new_output, place, 0, nullptr, node, cost});
  if (own) return;
  constexpr std::size_t most_outputs = 4;
  std::vector<std::pair<double, std::uint32_t>> least_loaded;
  for (std::uint32_t o = 0; o < layout.outputs.size(); ++o) {
    const Output& output = layout.outputs[o];
    if (output.alive && output.place == place && !output.own) least_loaded.emplace_back(output.current_a, o);
  }
  std::sort(least_loaded.begin(), least_loaded.end());
  if (least_loaded.size() > most_outputs) least_loaded.resize(most_outputs);
  for (const auto& [current_a, output] : least_loaded) offer({JoinKind::output, output, 0, nullptr, node, cost});
}

// The cable is taken up, so its trench is filled where it lay alone, and laid anew past the lamp.
void Joinings::add_detours(std::uint32_t node, const Layout& layout) {
  for (const std::uint32_t cable : near_cables_) {
    const Lay& lay = layout.lays[cable];
    const std::uint32_t from = lay.way->nodes.front();
    const std::uint32_t to = lay.way->nodes.back();
    double saved = per_m_ * lay.way->length_m;
    for (const std::uint32_t e : lay.way->edges) {
      if (layout.laid[e] == 1) saved += problem_.ground.edges[e].dig_cost;
    }
    // By the trench as it is: a little too dear where the cable's own trench would not be dug.
    const double limit = 3 * saved + 20 * per_m_;
    while (!ways_.reached(from) || !ways_.reached(to)) {
      const std::uint32_t at = ways_.next();
      if (at == none || ways_.cost(at) > limit) break;
    }
    if (!ways_.reached(from) || !ways_.reached(to)) continue;
    std::vector<std::uint32_t> edges = ways_.way_from(from)->edges;
    const std::size_t middle = edges.size();
    const WayPtr onward = ways_.way_to(to);
    edges.insert(edges.end(), onward->edges.begin(), onward->edges.end());
    const double cost = ways_.cost(from) + ways_.cost(to) - saved + joint_cost(3);
    offer({JoinKind::detour, cable, middle, make_way(problem_.ground, from, std::move(edges)), node, cost});
  }
}

const std::vector<Joining>& Joinings::find(std::uint32_t node, bool own, std::size_t places, const Layout& layout,
                                           const WhoIsWhere& where) {
  if (own) places = problem_.places.size();
  places = std::min(places, problem_.places.size());
  std::size_t places_met = 0;
  found_.clear();
  near_cables_.clear();
  ways_.start(node, layout, per_m_);
  double reach = std::numeric_limits<double>::infinity();
  for (std::uint32_t at = ways_.next(); at != none; at = ways_.next()) {
    const double cost = ways_.cost(at);
    if (cost > reach && places_met >= places) break;
    for (const std::uint32_t place : places_at_[at]) {
      offer_place(layout, place, at, cost, own);
      ++places_met;
    }
    if (!own && cost <= reach) {
      where.spots_at(layout, at, [&](std::uint32_t spot) {
        offer_spot(layout, spot, at, cost);
        const std::uint32_t in = layout.spots[spot].in;
        const bool known = std::find(near_cables_.begin(), near_cables_.end(), in) != near_cables_.end();
        if (!known && near_cables_.size() < most_detours && !layout.lays[in].kept &&
            !layout.outputs[layout.lays[in].output].own) {
          near_cables_.push_back(in);
        }
      });
      where.cables_at(layout, at, [&](std::uint32_t cable, std::size_t index) {
        if (layout.outputs[layout.lays[cable].output].own) return;
        if (!problem_.ground.nodes[at].joint_allowed) return;
        const double away = at == node ? 0 : problem_.joint_away_cost;
        offer({JoinKind::split, cable, index, nullptr, at, cost + joint_cost(3) + away});
      });
    }
    if (found_.size() >= enough && reach == std::numeric_limits<double>::infinity()) reach = cost + 2 * joint_cost(3);
  }
  for (Joining& joining : found_) joining.way = ways_.way_from(joining.node);
  if (!own && problem_.ground.nodes[node].joint_allowed) add_detours(node, layout);
  std::sort(found_.begin(), found_.end(), [](const Joining& p, const Joining& q) { return p.estimate < q.estimate; });
  return found_;
}

}  // namespace duskwire::wiring
