// SPDX-License-Identifier: Apache-2.0
#include "study/trace.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "diagnosis/trace_ways.hpp"
#include "study/numbers.hpp"
#include "study/trace_draw.hpp"
#include "study/trace_problem.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

// Below that a lamp or a run is worth another look.
constexpr double sure = 0.9;

double bits(double chance) {
  if (chance <= 0 || chance >= 1) return 0;
  return -chance * std::log2(chance) - (1 - chance) * std::log2(1 - chance);
}

std::string name_of(const job::Luminaire& lamp) {
  return lamp.name.empty() || lamp.name == lamp.id ? lamp.id : fmt::format("{} ({})", lamp.name, lamp.id);
}

class Tracer {
 public:
  Tracer(const job::Job& job, const job::Catalogue& stock, const TraceRequest& request)
      : job_(job), request_(request), asked_(trace_problem(job, stock, request)) {
    for (const diagnosis::TracedRun& run : asked_.problem.runs) {
      if (!run.ways.empty()) ways_.emplace_back(run.ways);
    }
  }

  Traced run() {
    traced_.problems = asked_.problems;
    if (has_errors(traced_.problems)) return std::move(traced_);
    answer_ = diagnosis::trace(asked_.problem);
    lamps();
    runs();
    remarks();
    next();
    headline();
    traced_.rests_on = {
        "Lamps stand where the plan has them, and draw what their catalogue item says, give or take 8 % each.",
        "A lamp hangs on a cable near by: leads of 2 m on average. A run's cable drops 8 % more than its walked metres "
        "would, give or take 8 %: slack and splices. Common practice, no source.",
        "A clamp is right to 2 %, a meter to 0.04 V; one reading of volts in 50 may be of something else.",
        "A locator's tone can jump to a cable beside: walk each run with the others lifted."};
    return std::move(traced_);
  }

 private:
  void lamps() {
    for (std::uint32_t k = 0; k < asked_.lamps.size(); ++k) {
      const job::Luminaire& luminaire = job_.luminaires[asked_.lamps[k]];
      LampFound found;
      found.id = luminaire.id;
      std::vector<double> on(request_.runs.size());
      for (const diagnosis::TracePlace& place : answer_.lamps[k].places) {
        on[place.run] += place.chance;
        const double from_m = ways_[place.run].from_source_m({place.way, place.along_m});
        found.places.push_back(
            {request_.runs[place.run].id, place.at.x_m, place.at.y_m, from_m, place.lead_m, place.chance});
      }
      chance_on_.push_back(on);
      const auto best = std::max_element(on.begin(), on.end());
      found.chance = answer_.lamps[k].unwalked;
      found.text = name_of(luminaire) + ": on no run that was walked";
      if (best != on.end() && *best > found.chance) {
        const auto run = static_cast<std::size_t>(best - on.begin());
        found.run = request_.runs[run].id;
        found.chance = *best;
        const auto place = std::find_if(found.places.begin(), found.places.end(),
                                        [&](const PlaceFound& one) { return one.run == found.run; });
        found.text = fmt::format("{}: on run {}, spliced about {} from the transformer", name_of(luminaire), found.run,
                                 worded(place->from_transformer_m, distance_unit(job_.site.units)));
      }
      traced_.lamps.push_back(std::move(found));
    }
  }

  void runs() {
    std::vector<std::size_t> cable;
    for (const diagnosis::RunTrace& run : answer_.runs) {
      cable.push_back(static_cast<std::size_t>(std::max_element(run.cable_chance.begin(), run.cable_chance.end()) -
                                               run.cable_chance.begin()));
    }
    TraceDrawn drawn = draw_trace(job_, request_, asked_, answer_, cable);
    for (std::size_t r = 0; r < request_.runs.size(); ++r) {
      RunFound found;
      found.id = request_.runs[r].id;
      found.measured_a = request_.runs[r].current_a;
      found.expected_a = answer_.runs[r].current_a;
      found.chance = 1;
      for (std::size_t k = 0; k < traced_.lamps.size(); ++k) {
        if (traced_.lamps[k].run != found.id) continue;
        found.lamps.push_back(traced_.lamps[k].id);
        found.chance *= traced_.lamps[k].chance;
      }
      for (std::size_t c = 0; c < asked_.items[r].size(); ++c) {
        found.cables.push_back({asked_.items[r][c]->id, asked_.items[r][c]->title, answer_.runs[r].cable_chance[c]});
      }
      std::stable_sort(found.cables.begin(), found.cables.end(),
                       [](const CableFound& x, const CableFound& y) { return x.chance > y.chance; });
      found.parts = drawn.parts[r];
      traced_.runs.push_back(std::move(found));
    }
    blind_m_ = drawn.blind_m;
    traced_.job = std::move(drawn.job);
  }

  void remarks() {
    constexpr double far_m = 4;
    for (std::size_t r = 0; r < request_.runs.size(); ++r) {
      const diagnosis::RunTrace& run = answer_.runs[r];
      if (run.total) does_not_fit(request_.runs[r].id, *run.total, "where it leaves the transformer");
      for (std::size_t c = 0; c < run.clamps.size(); ++c) {
        does_not_fit(request_.runs[r].id, run.clamps[c], fmt::format("at clamp reading {}", c + 1));
      }
      for (const diagnosis::VoltsFit& fit : run.volts) does_not_fit(request_.runs[r].id, fit);
      if (traced_.runs[r].lamps.empty()) {
        traced_.remarks.push_back(fmt::format("No lamp was found on run {}.", request_.runs[r].id));
      } else if (blind_m_[r] > far_m) {
        traced_.remarks.push_back(
            fmt::format("Run {} was walked {} beyond its last lamp: a lamp was missed there, or the cable ends blind.",
                        request_.runs[r].id, worded(blind_m_[r], distance_unit(job_.site.units))));
      }
    }
    if (!asked_.left_out.empty()) {
      traced_.remarks.push_back(fmt::format("Not traced, having no place on the plan: {}.", listed(asked_.left_out)));
    }
    if (!job_.cables.empty()) {
      traced_.remarks.push_back("The job has cables already: lamps that hang on them were left as they are.");
    }
  }

  void does_not_fit(const std::string& run, const diagnosis::AmpsFit& fit, const std::string& where) {
    constexpr double off_sigmas = 3;
    const double off_a = fit.measured_a - fit.expected_a;
    if (std::abs(off_a) <= off_sigmas * fit.sigma_a) return;
    const char* why = off_a > 0 ? "a lamp was not found, or water or a foreign load draws it"
                                : "a lamp found on it is dead, smaller, or hangs elsewhere";
    traced_.remarks.push_back(fmt::format("Run {} draws {:.2f} A {}, and its lamps explain {:.2f} A: {}.", run,
                                          fit.measured_a, where, fit.expected_a, why));
  }

  void does_not_fit(const std::string& run, const diagnosis::VoltsFit& fit) {
    constexpr double off_sigmas = 3.5;
    if (std::abs(fit.measured_v - fit.expected_v) <= off_sigmas * fit.sigma_v) return;
    traced_.remarks.push_back(
        fmt::format("{} reads {:.2f} V where run {} as drawn would give {:.2f} V: read it again, or look for a bad "
                    "joint or a thinner piece on the way.",
                    name_of(job_.luminaires[asked_.lamps[fit.lamp]]), fit.measured_v, run, fit.expected_v));
  }

  // Lifting a run shows of each lamp whether it hangs on it.
  void next() {
    constexpr double worth_bit = 0.1;
    for (std::size_t r = 0; r < request_.runs.size(); ++r) {
      double sum = 0;
      std::vector<std::string> unsure;
      for (std::size_t k = 0; k < chance_on_.size(); ++k) {
        const double one = bits(chance_on_[k][r]);
        sum += one;
        if (one > worth_bit) unsure.push_back(name_of(job_.luminaires[asked_.lamps[k]]));
      }
      if (sum < worth_bit || unsure.empty()) continue;
      traced_.next.push_back({request_.runs[r].id,
                              fmt::format("Lift run {} at the transformer and look whether {} {} dark.",
                                          request_.runs[r].id, listed(unsure), unsure.size() == 1 ? "goes" : "go"),
                              sum});
    }
    std::stable_sort(traced_.next.begin(), traced_.next.end(),
                     [](const TraceStep& x, const TraceStep& y) { return x.information_bit > y.information_bit; });
    for (const RunFound& run : traced_.runs) {
      if (run.lamps.empty() || run.cables.empty() || run.cables.front().chance >= sure) continue;
      double sum = 0;
      for (const CableFound& cable : run.cables) sum -= cable.chance > 0 ? cable.chance * std::log2(cable.chance) : 0;
      traced_.next.push_back(
          {run.id, fmt::format("Read the print on the jacket of run {}, or the volts at its last lamp.", run.id), sum});
    }
  }

  void headline() {
    const auto sure_lamps = std::count_if(traced_.lamps.begin(), traced_.lamps.end(),
                                          [](const LampFound& one) { return !one.run.empty() && one.chance >= sure; });
    const auto unwalked =
        std::count_if(traced_.lamps.begin(), traced_.lamps.end(), [](const LampFound& one) { return one.run.empty(); });
    traced_.headline = fmt::format("{} of {} placed on a run with a chance of 90 % and more.", sure_lamps,
                                   counted(traced_.lamps.size(), "lamp"));
    if (unwalked > 0) {
      traced_.headline += fmt::format(" {} on nothing that was walked: another run is still to be found.",
                                      unwalked == 1 ? "One hangs" : fmt::format("{} hang", unwalked));
    }
  }

  const job::Job& job_;
  const TraceRequest& request_;
  TraceAsked asked_;
  std::vector<diagnosis::WayTree> ways_;
  diagnosis::TraceAnswer answer_;
  std::vector<std::vector<double>> chance_on_;  // by lamp and run
  std::vector<double> blind_m_;
  Traced traced_;
};

}  // namespace

Traced trace(const job::Job& job, const job::Catalogue& stock, const TraceRequest& request) {
  return Tracer(job, stock, request).run();
}

}  // namespace duskwire::study
