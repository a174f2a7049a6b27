// SPDX-License-Identifier: Apache-2.0
#include "study/trace_problem.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <unordered_set>

#include "diagnosis/problem.hpp"
#include "diagnosis/trace_ways.hpp"

namespace duskwire::study {
namespace {

// Farther off than that a branch or a clamp is not on what was walked.
constexpr double on_the_way_m = 3;
constexpr double at_transformer_m = 6;

class Asker {
 public:
  Asker(const job::Job& job, const job::Catalogue& stock, const TraceRequest& request)
      : job_(job), stock_(stock), request_(request) {}

  TraceAsked run() {
    lamps();
    if (request_.runs.empty()) {
      fault("/runs", "", "at least one run",
            "No run was walked: follow each cable from the transformer with a locator.");
    }
    for (std::size_t r = 0; r < request_.runs.size(); ++r) add_run(r);
    readings();
    return std::move(asked_);
  }

 private:
  void say(Severity severity, std::string pointer, std::string value, std::string expected, std::string message) {
    asked_.problems.push_back(
        {severity, std::move(pointer), std::move(value), std::move(expected), std::move(message)});
  }
  void fault(std::string pointer, std::string value, std::string expected, std::string message) {
    say(Severity::error, std::move(pointer), std::move(value), std::move(expected), std::move(message));
  }

  void lamps() {
    std::unordered_set<std::string> wired;
    for (const job::Cable& cable : job_.cables) wired.insert({cable.from, cable.to});
    for (std::uint32_t i = 0; i < job_.luminaires.size(); ++i) {
      const job::Luminaire& luminaire = job_.luminaires[i];
      const job::LuminaireItem* item = job::find_luminaire(job_.catalogue, luminaire.item);
      if (!luminaire.joint.empty() || wired.contains(luminaire.id)) continue;
      if (!luminaire.position || !item) {
        asked_.left_out.push_back(luminaire.id);
        continue;
      }
      diagnosis::TracedLamp lamp;
      lamp.at = {luminaire.position->x_m, luminaire.position->y_m};
      lamp.rated_v = item->rated_v > 0 ? item->rated_v : 12;
      lamp.rated_a = item->power_va * luminaire.dim_pct / 100 / lamp.rated_v;
      lamp.volts_power = power_of(item->lamp);
      lamp.least_v = item->v_regulation_min;
      asked_.problem.lamps.push_back(lamp);
      asked_.lamps.push_back(i);
    }
    if (asked_.lamps.empty()) {
      fault("", "", "luminaires on the plan that hang on nothing yet",
            "No lamp is left to be traced: put the lamps that you see on the plan first, without cables.");
    }
  }

  // How the current goes with the volts: power ~ V^1.6 for a filament (docs/algorithms/electrical.md).
  static double power_of(job::LampKind kind) {
    switch (kind) {
      case job::LampKind::regulated_led:
        return -1;
      case job::LampKind::filament:
        return 0.6;
      case job::LampKind::resistive:
        return 1;
      case job::LampKind::constant_current_led:
        return 0;
    }
    return -1;
  }

  const job::Transformer* transformer_of(const std::string& output, double& tap_v) const {
    for (const job::Transformer& transformer : job_.transformers) {
      for (const job::Output& one : transformer.outputs) {
        if (one.id != output) continue;
        tap_v = one.tap_v;
        return &transformer;
      }
    }
    return nullptr;
  }

  void add_run(std::size_t r) {
    const WalkedRun& walked = request_.runs[r];
    const std::string at = fmt::format("/runs/{}", r);
    diagnosis::TracedRun run;
    const job::Transformer* transformer = transformer_of(walked.output, run.source_v);
    if (!transformer) {
      fault(at + "/output", walked.output, "the id of an output of the job",
            fmt::format("Run {} leaves \"{}\", which is no output of this job.", walked.id, walked.output));
    }
    for (std::size_t other = 0; other < r; ++other) {
      if (request_.runs[other].id == walked.id) {
        fault(at + "/id", walked.id, "an id of its own", fmt::format("Two runs are called {}.", walked.id));
      }
    }
    // Mains 5 % off and the transformer's own drop.
    run.source_sigma_v = 0.04 * run.source_v;
    run.current_a = walked.current_a;
    set_ways(walked, at, transformer, run);
    set_cables(walked, at, run);
    looks(walked.went_dark, at + "/went_dark", walked.id, run.went_dark);
    looks(walked.stayed_lit, at + "/stayed_lit", walked.id, run.stayed_lit);
    for (const std::uint32_t lamp : run.went_dark) {
      if (std::find(run.stayed_lit.begin(), run.stayed_lit.end(), lamp) == run.stayed_lit.end()) continue;
      const std::string& id = job_.luminaires[asked_.lamps[lamp]].id;
      fault(at + "/stayed_lit", id, "each lamp in one of both lists",
            fmt::format("{} went dark and stayed lit when run {} was lifted: it cannot be both.", id, walked.id));
    }
    asked_.problem.runs.push_back(std::move(run));
  }

  void set_ways(const WalkedRun& walked, const std::string& at, const job::Transformer* transformer,
                diagnosis::TracedRun& run) {
    for (const WalkedWay& way : walked.ways) run.ways.push_back(way.path);
    if (run.ways.empty()) {
      fault(at + "/ways", "", "at least one way of two points", fmt::format("Run {} was not walked.", walked.id));
      return;
    }
    const diagnosis::WayTree tree(run.ways);
    for (std::uint32_t way = 1; way < tree.size(); ++way) {
      if (tree.gap_m(way) <= on_the_way_m) continue;
      fault(fmt::format("{}/ways/{}/path/0", at, way), fmt::format("{:.1f} m off", tree.gap_m(way)),
            fmt::format("a place within {:.0f} m of an earlier way of the run", on_the_way_m),
            fmt::format("Branch {} of run {} begins {:.1f} m off what was walked of it before.", way, walked.id,
                        tree.gap_m(way)));
    }
    if (transformer && transformer->position) {
      const double off_m = geometry::distance_m(*transformer->position, run.ways.front().front());
      if (off_m > at_transformer_m) {
        say(Severity::warning, at + "/ways/0/path/0", fmt::format("{:.1f} m off", off_m), "a place at the transformer",
            fmt::format("Run {} begins {:.1f} m from its transformer: the first metres were not walked.", walked.id,
                        off_m));
      }
    }
    for (std::size_t c = 0; c < walked.clamps.size(); ++c) {
      const double off_m = tree.nearest(walked.clamps[c].at).distance_m;
      if (off_m > on_the_way_m) {
        fault(fmt::format("{}/clamps/{}/at", at, c), fmt::format("{:.1f} m off", off_m),
              fmt::format("a place within {:.0f} m of the run", on_the_way_m),
              fmt::format("Clamp reading {} of run {} lies {:.1f} m off what was walked of it.", c + 1, walked.id,
                          off_m));
      }
      run.clamps.push_back({walked.clamps[c].at, walked.clamps[c].current_a});
    }
  }

  void set_cables(const WalkedRun& walked, const std::string& at, diagnosis::TracedRun& run) {
    asked_.items.emplace_back();
    auto& items = asked_.items.back();
    if (!walked.item.empty()) {
      const job::CableItem* item = job::find_cable(job_.catalogue, walked.item);
      if (!item) item = job::find_cable(stock_, walked.item);
      if (item) items.push_back(item);
      if (!item) {
        fault(at + "/item", walked.item, "the id of a cable item of the job or of the stock catalogue",
              fmt::format("Run {} is said to be \"{}\", which is no known cable.", walked.id, walked.item));
      }
    } else {
      for (const job::Catalogue* catalogue : {&job_.catalogue, &stock_}) {
        for (const job::CableItem& item : catalogue->cables) offer(item, items);
      }
    }
    for (const job::CableItem* item : items) run.loop_ohm_per_m.push_back(2 * item->ohm_per_m_20c);
  }

  // One of each resistance, sold as the region sells it.
  void offer(const job::CableItem& item, std::vector<const job::CableItem*>& items) const {
    constexpr double least_mm2 = 1;
    constexpr double most_mm2 = 9;
    constexpr double same = 0.1;
    if (item.area_mm2 < least_mm2 || item.area_mm2 > most_mm2 || item.ohm_per_m_20c <= 0) return;
    if (item.gauge_awg.has_value() != (job_.site.ruleset == "us")) return;
    const bool there = std::any_of(items.begin(), items.end(), [&](const job::CableItem* known) {
      return std::abs(known->ohm_per_m_20c / item.ohm_per_m_20c - 1) < same;
    });
    if (!there) items.push_back(&item);
  }

  std::uint32_t lamp_of(const std::string& id) const {
    for (std::uint32_t lamp = 0; lamp < asked_.lamps.size(); ++lamp) {
      if (job_.luminaires[asked_.lamps[lamp]].id == id) return lamp;
    }
    return diagnosis::none;
  }

  void looks(const std::vector<std::string>& ids, const std::string& at, const std::string& run,
             std::vector<std::uint32_t>& lamps) {
    for (std::size_t k = 0; k < ids.size(); ++k) {
      const std::uint32_t lamp = lamp_of(ids[k]);
      if (lamp != diagnosis::none) {
        lamps.push_back(lamp);
        continue;
      }
      const bool known = std::any_of(job_.luminaires.begin(), job_.luminaires.end(),
                                     [&](const job::Luminaire& one) { return one.id == ids[k]; });
      // What is wired already, or not on the plan, tells nothing here.
      if (known) continue;
      fault(fmt::format("{}/{}", at, k), ids[k], "the id of a luminaire of the job",
            fmt::format("Run {} names \"{}\", which is no luminaire of this job.", run, ids[k]));
    }
  }

  // Volts of outputs and of lamps, lamps on; the last word counts.
  void readings() {
    std::vector<job::Reading> all;
    if (request_.visit && *request_.visit < job_.visits.size()) all = job_.visits[*request_.visit].readings;
    if (request_.visit && *request_.visit >= job_.visits.size()) {
      fault("/visit", std::to_string(*request_.visit), "the index of a visit of the job",
            fmt::format("There is no visit {}: the job has {}.", *request_.visit, job_.visits.size()));
    }
    all.insert(all.end(), request_.readings.begin(), request_.readings.end());
    for (const job::Reading& reading : all) {
      if (reading.quantity != "voltage" || !reading.value || reading.load == job::ReadingLoad::open_circuit) continue;
      const double volts = std::abs(*reading.value);
      const std::uint32_t lamp = lamp_of(reading.place);
      if (lamp != diagnosis::none && reading.lifted.empty()) asked_.problem.lamps[lamp].measured = volts;
      for (std::size_t r = 0; r < asked_.problem.runs.size(); ++r) {
        if (request_.runs[r].output != reading.place) continue;
        asked_.problem.runs[r].source_v = volts;
        asked_.problem.runs[r].source_sigma_v = 0.004 * volts;
      }
    }
  }

  const job::Job& job_;
  const job::Catalogue& stock_;
  const TraceRequest& request_;
  TraceAsked asked_;
};

}  // namespace

TraceAsked trace_problem(const job::Job& job, const job::Catalogue& stock, const TraceRequest& request) {
  return Asker(job, stock, request).run();
}

}  // namespace duskwire::study
