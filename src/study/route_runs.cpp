// SPDX-License-Identifier: Apache-2.0
#include "study/route_runs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "study/check.hpp"
#include "study/route_obstacles.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using wiring::none;
using wiring::PlanAnswer;

// The cables of one run, its first cable first.
struct RunCables {
  std::vector<std::uint32_t> cables;  // of the answer
};

std::vector<RunCables> runs_of(const PlanAnswer& answer) {
  std::vector<RunCables> runs;
  std::vector<std::uint32_t> run_of(answer.cables.size(), 0);
  for (std::uint32_t c = 0; c < answer.cables.size(); ++c) {
    const std::uint32_t from = answer.cables[c].from;
    if (from == none) {
      run_of[c] = static_cast<std::uint32_t>(runs.size());
      runs.emplace_back();
    } else {
      run_of[c] = run_of[from];
    }
    runs[run_of[c]].cables.push_back(c);
  }
  return runs;
}

// By how cables leave the joints: one onward everywhere is a chain; one joint that feeds all is a hub; one fork is a
// tee.
Topology topology_of(const PlanAnswer& answer, const RunCables& run) {
  std::map<std::uint32_t, std::uint32_t> onward;
  for (const std::uint32_t c : run.cables) {
    if (answer.cables[c].from != none) ++onward[answer.cables[c].from];
  }
  if (run.cables.size() == 1) return Topology::single;
  std::uint32_t forks = 0;
  std::uint32_t most = 0;
  for (const auto& [cable, count] : onward) {
    forks += count > 1;
    most = std::max(most, count);
  }
  if (forks == 0) return Topology::chain;
  if (forks == 1 && most + 1 == run.cables.size() && most >= 3) return Topology::hub;
  return forks == 1 && most == 2 ? Topology::tee : Topology::mixed;
}

const char* words(Topology topology) {
  switch (topology) {
    case Topology::single:
      return "one cable";
    case Topology::chain:
      return "a chain";
    case Topology::tee:
      return "a tee";
    case Topology::hub:
      return "a hub";
    case Topology::mixed:
      break;
  }
  return "a chain with branches";
}

class Runs {
 public:
  Runs(const job::Job& job, const Ruleset& ruleset, const job::Catalogue& stock, const RouteGoods& goods,
       const RouteProblem& asked, const PlanAnswer& answer, const RoutedJob& routed)
      : job_(job),
        ruleset_(ruleset),
        stock_(stock),
        goods_(goods),
        asked_(asked),
        answer_(answer),
        routed_(routed),
        report_(check(routed.job, ruleset, stock, {.cures = false})) {
    for (const job::Cable& cable : routed.job.cables) cables_.emplace(cable.id, &cable);
    for (const CableReport& cable : report_.cables) cable_reports_.emplace(cable.id, &cable);
    for (const LampReport& lamp : report_.lamps) lamp_reports_.emplace(lamp.id, &lamp);
  }

  std::vector<RouteRun> run() {
    std::vector<RouteRun> all;
    constexpr std::size_t tried_one_by_one = 24;
    const std::vector<RunCables> runs = runs_of(answer_);
    for (const RunCables& cables : runs) all.push_back(describe(cables, runs.size() <= tried_one_by_one));
    return all;
  }

 private:
  RouteRun describe(const RunCables& cables, bool try_cheaper) {
    RouteRun run;
    const wiring::PlanCable& first = answer_.cables[cables.cables.front()];
    run.cable = routed_.cable_ids[cables.cables.front()];
    run.output = cables_.at(run.cable)->from;
    if (answer_.cables[cables.cables.front()].kept_id != none && asked_.kept_reversed[first.kept_id])
      run.output = cables_.at(run.cable)->to;
    run.tap_v = answer_.outputs[first.output].tap_v;
    run.topology = topology_of(answer_, cables);
    std::set<std::uint32_t, std::greater<>> types;
    for (const std::uint32_t c : cables.cables) {
      types.insert(answer_.cables[c].type);
      const auto found = cable_reports_.find(routed_.cable_ids[c]);
      if (found != cable_reports_.end()) run.cable_m += found->second->length_m;
      for (const std::uint32_t lamp : answer_.cables[c].lamps) {
        run.lamps.push_back(job_.luminaires[asked_.luminaires[lamp]].id);
        run.load_va += asked_.problem.lamps[lamp].load.power_va;
      }
    }
    for (const std::uint32_t type : types) run.cable_items.push_back(goods_.cables[type]->id);
    run.sentence = why(run, types);
    if (try_cheaper) run.sentence += " " + cheaper(run, cables);
    return run;
  }

  std::string why(const RouteRun& run, const std::set<std::uint32_t, std::greater<>>& types) const {
    std::vector<std::string> sizes;
    for (const std::uint32_t type : types) sizes.push_back(conductor_words(*goods_.cables[type], job_.site.units));
    const LampReport* lowest = lowest_of(run);
    return fmt::format(
        "{} from {} on the {:g} V tap, {} in {}: {} of {}{}.", words(run.topology), run.output, run.tap_v,
        worded(run.cable_m, distance_unit(job_.site.units)), listed(sizes), counted(run.lamps.size(), "lamp"),
        worded(run.load_va, volt_ampere_unit),
        lowest ? fmt::format(", the lowest, {}, at {} or more", lowest->id, worded(lowest->worst_low_v, volt_unit))
               : "");
  }

  const LampReport* lowest_of(const RouteRun& run) const {
    const LampReport* lowest = nullptr;
    for (const std::string& id : run.lamps) {
      const auto found = lamp_reports_.find(id);
      if (found == lamp_reports_.end()) continue;
      const auto room = [](const LampReport& lamp) { return lamp.worst_low_v - lamp.window_min_v; };
      if (!lowest || room(*found->second) < room(*lowest)) lowest = found->second;
    }
    return lowest;
  }

  // The thickest cable of the run one size thinner, where it lies; else the output one tap lower is no cheaper, so the
  // run cannot be had for less copper.
  std::string cheaper(const RouteRun& run, const RunCables& cables) const {
    std::uint32_t thickest = 0;
    bool any = false;
    for (const std::uint32_t c : cables.cables) {
      if (answer_.cables[c].kept_id != none) continue;
      thickest = std::max(thickest, answer_.cables[c].type);
      any = true;
    }
    if (!any) return "It stays as it is because it is held fast.";
    if (thickest == 0) return "No thinner cable is to be had.";
    job::Job tried = routed_.job;
    const job::CableItem& thinner = *goods_.cables[thickest - 1];
    const bool there = std::any_of(tried.catalogue.cables.begin(), tried.catalogue.cables.end(),
                                   [&](const job::CableItem& item) { return item.id == thinner.id; });
    if (!there) tried.catalogue.cables.push_back(thinner);
    std::set<std::string> changed;
    for (const std::uint32_t c : cables.cables) {
      if (answer_.cables[c].type == thickest && answer_.cables[c].kept_id == none) changed.insert(routed_.cable_ids[c]);
    }
    for (job::Cable& cable : tried.cables) {
      if (changed.contains(cable.id)) cable.item = thinner.id;
    }
    const std::string start = fmt::format("With {} instead of {} ", conductor_words(thinner, job_.site.units),
                                          conductor_words(*goods_.cables[thickest], job_.site.units));
    return start + broken(run, check(tried, ruleset_, stock_, {.cures = false}), thinner);
  }

  std::string broken(const RouteRun& run, const Report& report, const job::CableItem& thinner) const {
    const LampReport* worst = nullptr;
    for (const LampReport& lamp : report.lamps) {
      const bool ours = std::find(run.lamps.begin(), run.lamps.end(), lamp.id) != run.lamps.end();
      if (!ours || lamp.worst_low_v >= lamp.window_min_v) continue;
      if (!worst || lamp.worst_low_v - lamp.window_min_v < worst->worst_low_v - worst->window_min_v) worst = &lamp;
    }
    if (worst) {
      const WordedPair volts = worded_apart(worst->worst_low_v, worst->window_min_v, volt_unit);
      return fmt::format("{} would see {} at worst, below its {}.", worst->id, volts.measured, volts.limit);
    }
    for (const OutputReport& output : report.outputs) {
      if (output.id != run.output) continue;
      if (thinner.ampacity_a < output.limit_a) {
        return fmt::format("the {} device of {} would not protect a cable for {}.", worded(output.limit_a, ampere_unit),
                           run.output, worded(thinner.ampacity_a, ampere_unit));
      }
      if (output.far_short_a < output.limit_a) {
        return fmt::format("a short at {} would draw {}, too little to open the {} device.", output.far_short_at,
                           worded(output.far_short_a, ampere_unit), worded(output.limit_a, ampere_unit));
      }
    }
    const Findings errors = wiring_errors(ruleset_, report);
    if (!errors.empty()) return fmt::format("this would be wrong: {}", errors.front().message);
    return "little volts would be left in hand.";
  }

  const job::Job& job_;
  const Ruleset& ruleset_;
  const job::Catalogue& stock_;
  const RouteGoods& goods_;
  const RouteProblem& asked_;
  const PlanAnswer& answer_;
  const RoutedJob& routed_;
  Report report_;
  std::map<std::string, const job::Cable*> cables_;
  std::map<std::string, const CableReport*> cable_reports_;
  std::map<std::string, const LampReport*> lamp_reports_;
};

}  // namespace

std::vector<RouteRun> route_runs(const job::Job& job, const Ruleset& ruleset, const job::Catalogue& stock,
                                 const RouteGoods& goods, const RouteProblem& asked, const wiring::PlanAnswer& answer,
                                 const RoutedJob& routed) {
  return Runs(job, ruleset, stock, goods, asked, answer, routed).run();
}

}  // namespace duskwire::study
