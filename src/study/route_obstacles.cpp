// SPDX-License-Identifier: Apache-2.0
#include "study/route_obstacles.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <string_view>

#include "job/plan_ground.hpp"
#include "study/ground.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using wiring::none;
using wiring::Refused;

// Checks of a ruleset that look at the site, not at the wiring.
constexpr std::array<std::string_view, 9> site_checks = {
    "receptacle-gfci",     "receptacle-cover", "extension-cord", "transformer-height", "transformer-water",
    "transformer-listing", "branch-circuit",   "branch-load",    "water-distance"};

bool is_of_the_site(const Ruleset& ruleset, const Finding& finding) {
  const std::string prefix = ruleset.id + "/";
  if (finding.id.compare(0, prefix.size(), prefix) != 0) return false;
  const std::string_view id = std::string_view(finding.id).substr(prefix.size());
  return std::any_of(ruleset.rules.begin(), ruleset.rules.end(), [&](const Rule& rule) {
    return rule.id == id && std::find(site_checks.begin(), site_checks.end(), rule.check) != site_checks.end();
  });
}

std::vector<std::string> names_of(const job::Job& job, const RouteProblem& asked,
                                  const std::vector<std::uint32_t>& lamps) {
  std::vector<std::string> names;
  for (const std::uint32_t lamp : lamps) names.push_back(job.luminaires[asked.luminaires[lamp]].id);
  return names;
}

// The nodes that can be reached from the places over the ground.
std::vector<bool> reached_nodes(const RouteProblem& asked) {
  const wiring::GroundGraph& ground = asked.problem.ground;
  std::vector<std::vector<std::uint32_t>> next(ground.nodes.size());
  for (const wiring::GroundEdge& edge : ground.edges) {
    next[edge.a].push_back(edge.b);
    next[edge.b].push_back(edge.a);
  }
  std::vector<bool> reached(ground.nodes.size(), false);
  std::vector<std::uint32_t> open;
  for (const wiring::Place& place : asked.problem.places) open.push_back(place.node);
  while (!open.empty()) {
    const std::uint32_t node = open.back();
    open.pop_back();
    if (reached[node]) continue;
    reached[node] = true;
    open.insert(open.end(), next[node].begin(), next[node].end());
  }
  return reached;
}

// What lies on the straight line from a lamp to the nearest place and cannot be crossed.
std::vector<std::string> barriers(const job::Job& job, const RouteProblem& asked, std::uint32_t lamp) {
  const auto& nodes = asked.problem.ground.nodes;
  const geometry::Point2 at = nodes[asked.problem.lamps[lamp].node].at;
  const wiring::Place* nearest = nullptr;
  for (const wiring::Place& place : asked.problem.places) {
    if (!nearest || geometry::distance_m(at, nodes[place.node].at) < geometry::distance_m(at, nodes[nearest->node].at))
      nearest = &place;
  }
  std::vector<std::string> words;
  if (!nearest) return words;
  for (const job::GroundStretch& stretch : job::PlanGround(job.plan).along({at, nodes[nearest->node].at})) {
    using job::GroundKind;
    if (!stretch.kind) continue;
    constexpr std::array closed = {GroundKind::drive, GroundKind::street, GroundKind::building, GroundKind::water,
                                   GroundKind::pool,  GroundKind::wall,   GroundKind::steps,    GroundKind::forbidden};
    if (std::find(closed.begin(), closed.end(), *stretch.kind) == closed.end()) continue;
    const std::string word(ground_words(*stretch.kind));
    if (std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
  }
  return words;
}

struct Words {
  std::string message;
  std::string cure;
};

Words words_for(const job::Job& job, const RouteProblem& asked, const RouteGoods& goods, Refused why,
                const std::vector<std::uint32_t>& lamps, double room_v) {
  const std::string who =
      fmt::format("{} {}", lamps.size() == 1 ? "Lamp" : "Lamps", listed(names_of(job, asked, lamps)));
  const wiring::PlanLamp& lamp = asked.problem.lamps[lamps.front()];
  switch (why) {
    case Refused::no_place:
      return {"There is no place for a transformer.", "Put a transformer or a receptacle on the plan."};
    case Refused::no_way: {
      const std::vector<std::string> between = barriers(job, asked, lamps.front());
      return {fmt::format("{} cannot be reached from any transformer place{}.", who,
                          between.empty() ? std::string(": no way that may be dug leads there")
                                          : fmt::format(": between lie {}", listed(between))),
              "Draw a sleeve where cable can be led through, open the way, or add a transformer place on that side."};
    }
    case Refused::tap:
      return {fmt::format("{} would see more than {} when mains are high, even on the lowest tap.", who,
                          worded(lamp.window_max_v, volt_unit)),
              "Choose a lamp with a wider window, or a transformer with a lower tap."};
    case Refused::current:
      return {
          fmt::format("{} draw more than the transformers and cables that may be used carry with their headroom.", who),
          "Allow another transformer or a larger one, thicker cable, or less headroom; or hold less fast."};
    case Refused::low_volts:
      return {fmt::format("{} would see {} less than the {} needed at worst, even with {} all the way.", who,
                          worded(-room_v, volt_unit), worded(lamp.floor_v, volt_unit),
                          goods.cables.empty() ? std::string("the thickest cable")
                                               : conductor_words(*goods.cables.back(), job.site.units)),
              "Put a transformer nearer, add thicker cable or a higher tap to the catalogue, or choose lamps with a "
              "wider window."};
    case Refused::far_short:
      return {fmt::format("A short at {} would draw too little for any protective device that carries the load.", who),
              "Put a transformer nearer, or feed fewer lamps from one output."};
    case Refused::joint_place:
      return {fmt::format("{} would need a joint under paving or in a wall, where none can be reached.", who),
              "Move the lamp, or draw a bed beside it."};
    case Refused::joint_wires:
      return {fmt::format("No connector of the catalogue takes the wires that would meet at {}.", who),
              "Add a larger connector to the catalogue, or allow joints of more wires."};
  }
  return {};
}

}  // namespace

Findings wiring_errors(const Ruleset& ruleset, const Report& report) {
  Findings open;
  for (const Finding& finding : report.findings) {
    if (finding.severity == Severity::error && !is_of_the_site(ruleset, finding)) open.push_back(finding);
  }
  return open;
}

void add_obstacles(const job::Job& job, const RouteProblem& asked, const RouteGoods& goods,
                   const wiring::Planner& planner, const Findings& open, std::vector<RouteObstacle>& obstacles) {
  const std::vector<wiring::Refusal> refusals = planner.refusals();
  const std::vector<bool> reached = reached_nodes(asked);
  std::map<Refused, std::vector<std::uint32_t>> lamps;
  std::map<Refused, double> room_v;
  for (const wiring::Refusal& refusal : refusals) {
    const bool off_ways = !asked.problem.places.empty() && !reached[asked.problem.lamps[refusal.lamp].node];
    const Refused why = off_ways ? Refused::no_way : refusal.why;
    lamps[why].push_back(refusal.lamp);
    room_v[why] = std::min(room_v[why], refusal.room_v);
  }
  for (const auto& [why, who] : lamps) {
    Words words = words_for(job, asked, goods, why, who, room_v[why]);
    const std::string subject = why == Refused::no_place ? "" : job.luminaires[asked.luminaires[who.front()]].id;
    obstacles.push_back({subject, std::move(words.message), std::move(words.cure)});
  }
  if (!refusals.empty()) return;
  for (const Finding& finding : open) {
    obstacles.push_back({finding.subject, finding.message, "Hold less fast, or change what the sentence names."});
  }
}

void add_remarks(const Ruleset& ruleset, const Report& report, std::vector<RouteObstacle>& obstacles) {
  for (const Finding& finding : report.findings) {
    if (finding.severity != Severity::error || !is_of_the_site(ruleset, finding)) continue;
    obstacles.push_back({finding.subject, finding.message, "No wiring cures this: it has to be put right on site."});
  }
}

}  // namespace duskwire::study
