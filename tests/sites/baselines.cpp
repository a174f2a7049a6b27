// SPDX-License-Identifier: Apache-2.0
#include "sites/baselines.hpp"

#include <algorithm>
#include <limits>

#include "sites/habit_trees.hpp"
#include "sites/habit_units.hpp"
#include "study/check.hpp"

namespace duskwire::sites {
namespace {

using Places = std::vector<std::size_t>;

// Every choice of a few places; of many all of them, or one within each circle of 25 m.
std::vector<Places> choices_of_places(const job::Job& site) {
  constexpr std::size_t few = 3;
  const std::size_t count = site.transformers.size();
  std::vector<Places> choices;
  if (count <= few) {
    for (std::size_t in = 1; in < (std::size_t{1} << count); ++in) {
      Places places;
      for (std::size_t p = 0; p < count; ++p) {
        if (((in >> p) & 1U) != 0) places.push_back(p);
      }
      choices.push_back(places);
    }
    return choices;
  }
  constexpr double near_m = 25;
  Places all;
  Places apart;
  for (std::size_t p = 0; p < count; ++p) {
    all.push_back(p);
    const bool is_near = std::any_of(apart.begin(), apart.end(), [&](std::size_t other) {
      return geometry::distance_m(*site.transformers[p].position, *site.transformers[other].position) < near_m;
    });
    if (!is_near) apart.push_back(p);
  }
  return {all, apart};
}

WiringSketch sketch_of(const std::vector<HabitRun>& runs, const std::vector<std::size_t>& output_of,
                       WiringSketch sketch) {
  for (std::size_t r = 0; r < runs.size(); ++r) {
    const std::size_t first = sketch.cables.size();
    for (const HungLamp& hung : runs[r].lamps) {
      SketchCable cable;
      if (hung.on) cable.from = first + *hung.on;
      cable.output = output_of[r];
      cable.path = hung.route.path;
      cable.sleeve = hung.route.sleeve;
      cable.lamps = {hung.lamp};
      sketch.cables.push_back(cable);
    }
  }
  return sketch;
}

enum class Verdict : std::uint8_t { good, no_headroom, bad };

// Sound, every lamp fed, and what the planner keeps besides: headroom, a device that sees a short at the far end and
// protects the cable.
Verdict verdict_on(const study::Report& report) {
  const bool all_fed = std::all_of(report.lamps.begin(), report.lamps.end(),
                                   [](const study::LampReport& lamp) { return !lamp.output.empty(); });
  const auto found = [&](std::string_view id) {
    return std::any_of(report.findings.begin(), report.findings.end(),
                       [&](const study::Finding& finding) { return finding.id == id; });
  };
  if (!report.sound || !all_fed || found("far-short") || found("us/small-wire-protection")) return Verdict::bad;
  return found("transformer-headroom") || found("output-headroom") ? Verdict::no_headroom : Verdict::good;
}

void fit_devices(const study::Report& report, job::Job& job) {
  for (job::Transformer& transformer : job.transformers) {
    for (job::Output& output : transformer.outputs) {
      for (const study::OutputReport& seen : report.outputs) {
        if (seen.id == output.id) output.limit_a = device_a(seen.worst_current_a, job.practice);
      }
    }
  }
}

class Contractor {
 public:
  Contractor(const job::Job& site, const study::Ruleset& rules, const job::Catalogue& stock,
             const estimate::InstallRates& rates)
      : site_(site), rules_(rules), stock_(stock), rates_(rates), ways_(site, rules, stock, rates) {
    for (const job::CableItem& item : stock.cables) {
      if (item.gauge_awg && item.direct_burial) gauges_.push_back(&item);
    }
    std::sort(gauges_.begin(), gauges_.end(), [](const auto* p, const auto* q) { return p->area_mm2 < q->area_mm2; });
  }

  std::optional<Baseline> best(Habit habit) {
    const bool has_hubs = habit == Habit::hubs;
    const std::vector<std::size_t> clusters =
        has_hubs ? std::vector<std::size_t>{5, 6, 7, 8} : std::vector<std::size_t>{0};
    for (const Places& places : choices_of_places(site_)) {
      for (const job::CableItem* gauge : gauges_) {
        const double full_va = most_va_of_a_run(gauge->ampacity_a, site_, stock_);
        for (const std::size_t cluster : clusters) {
          for (const double share : shares(habit)) {
            try_runs(habit_runs(habit, site_, ways_, places, full_va * share, cluster), *gauge);
          }
        }
      }
    }
    return std::move(best_);
  }

 private:
  // How full a run may be. A hub's cluster says that already; on an estate each try takes seconds.
  [[nodiscard]] std::vector<double> shares(Habit habit) const {
    constexpr std::size_t estate = 200;
    if (habit == Habit::hubs) return {1};
    if (site_.luminaires.size() > estate) return {0.87, 0.65, 0.5, 0.35, 0.2, 0.1};
    std::vector<double> shares;
    for (double share = 1; share > 0.1; share *= 0.88) shares.push_back(share);
    return shares;
  }

  // The smallest transformers that keep their headroom, cable losses included.
  void try_runs(const std::vector<HabitRun>& runs, const job::CableItem& gauge) {
    if (runs.empty()) return;
    for (const double losses : {1.0, 1.06, 1.12, 1.2, 1.3}) {
      if (try_gauge(runs, gauge, losses) != Verdict::no_headroom) break;
    }
  }

  Verdict try_gauge(const std::vector<HabitRun>& runs, const job::CableItem& gauge, double losses) {
    WiringSketch sketch;
    const auto output_of = hang_units(runs, {losses, gauge.ampacity_a}, site_, stock_, rates_, sketch);
    if (output_of.empty()) return Verdict::bad;
    sketch = sketch_of(runs, output_of, std::move(sketch));
    for (SketchCable& cable : sketch.cables) cable.item = gauge.id;
    job::Job job = wired(site_, sketch, stock_, rates_);
    const study::Report first = study::check(job, rules_, stock_, {.cures = false});
    if (!first.sound) return Verdict::bad;
    fit_devices(first, job);
    const Verdict verdict = verdict_on(study::check(job, rules_, stock_, {.cures = false}));
    if (verdict != Verdict::good) return verdict;
    const estimate::InstalledCost cost = estimate::installed_cost(job, stock_, rates_);
    if (!best_ || cost.cost_minor < best_->cost.cost_minor) best_ = Baseline{std::move(job), cost};
    return verdict;
  }

  const job::Job& site_;
  const study::Ruleset& rules_;
  const job::Catalogue& stock_;
  const estimate::InstallRates& rates_;
  SiteWays ways_;
  std::vector<const job::CableItem*> gauges_;
  std::optional<Baseline> best_;
};

}  // namespace

std::string_view habit_name(Habit habit) {
  switch (habit) {
    case Habit::chain:
      return "chain";
    case Habit::spanning_tree:
      return "spanning tree";
    case Habit::hubs:
      return "hubs";
  }
  return "";
}

std::optional<Baseline> baseline(Habit habit, const job::Job& site, const study::Ruleset& rules,
                                 const job::Catalogue& stock, const estimate::InstallRates& rates) {
  return Contractor(site, rules, stock, rates).best(habit);
}

}  // namespace duskwire::sites
