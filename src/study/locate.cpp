// SPDX-License-Identifier: Apache-2.0
#include "study/locate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diagnosis/beside_plan.hpp"
#include "study/locate_cautions.hpp"
#include "study/locate_readings.hpp"
#include "study/locate_trends.hpp"
#include "study/locate_unseen.hpp"
#include "study/locate_words.hpp"

namespace duskwire::study {
namespace {

using diagnosis::Verdict;

const job::Visit* chosen_visit(const job::Job& job, const LocateOptions& options) {
  if (options.visit) return *options.visit < job.visits.size() ? &job.visits[*options.visit] : nullptr;
  for (auto visit = job.visits.rbegin(); visit != job.visits.rend(); ++visit) {
    if (!visit->readings.empty()) return &*visit;
  }
  return job.visits.empty() ? nullptr : &job.visits.back();
}

Meter meter_of(const job::Visit* visit) {
  Meter meter;
  if (visit && visit->meter_accuracy_pct) meter.volts_share = *visit->meter_accuracy_pct / 100;
  if (visit && visit->clamp_accuracy_pct) meter.clamp_share = *visit->clamp_accuracy_pct / 100;
  return meter;
}

class Locator {
 public:
  Locator(const job::Job& job, const LocateOptions& options)
      : job_(job),
        visit_(chosen_visit(job, options)),
        since_whenever_(options.readings_alone),
        depth_(options.ranking_alone ? diagnosis::Depth::ranking : diagnosis::Depth::whole),
        meter_(meter_of(visit_)),
        built_(build(job)),
        made_(locate_problem(built_)),
        words_(built_, made_) {
    if (visit_ && !options.readings_alone) readings_ = visit_->readings;
    readings_.insert(readings_.end(), options.readings.begin(), options.readings.end());
    taken_ = take_readings(built_, readings_, meter_);
    made_.problem.observations = taken_.observations;
    if (visit_) apply_answers(built_, *visit_, made_.problem);
  }

  Located compared_alone() {
    readings_taken(diagnosis::beside_plan(made_.problem));
    return std::move(located_);
  }

  Located run() {
    const diagnosis::Answer answer = diagnosis::diagnose(made_.problem, depth_);
    located_.verdict = answer.verdict;
    readings_taken(answer.compared);
    causes(answer);
    brackets(answer);
    holes(answer);
    next(answer);
    hidden(answer);
    located_.headline = headline(answer);
    if (answer.verdict == Verdict::misfit) located_.checks = misfit_checks();
    located_.unseen = unseen(built_, taken_.readings, visit_, located_);
    located_.room = rooms(built_);
    located_.cautions = standing_cautions();
    rests_on();
    return std::move(located_);
  }

 private:
  // Causes that differ only in where along one span they sit are one line.
  void causes(const diagnosis::Answer& answer) {
    constexpr std::size_t most = 6;
    constexpr double worth = 0.01;
    for (const diagnosis::Explanation& one : answer.explanations) {
      LocatedCause cause = words_.cause(one);
      if (!one.faults.empty()) cause.test = separating_test(one.faults.front().kind);
      const auto same = std::find_if(located_.causes.begin(), located_.causes.end(),
                                     [&](const LocatedCause& told) { return told.text == cause.text; });
      if (same != located_.causes.end())
        same->chance += cause.chance;
      else
        located_.causes.push_back(std::move(cause));
    }
    std::stable_sort(located_.causes.begin(), located_.causes.end(),
                     [](const LocatedCause& x, const LocatedCause& y) { return x.chance > y.chance; });
    std::erase_if(located_.causes, [](const LocatedCause& one) { return one.chance < worth; });
    if (located_.causes.size() > most) located_.causes.resize(most);
  }

  void brackets(const diagnosis::Answer& answer) {
    constexpr std::size_t most = 8;
    constexpr double worth = 0.005;
    for (const diagnosis::Bracket& one : answer.brackets) {
      if (one.chance < worth || located_.brackets.size() >= most) break;
      LocatedBracket bracket{words_.bracket(one), one.chance, {}};
      for (const diagnosis::PlaceChance& place : one.places) bracket.places.push_back(words_.place(place));
      located_.brackets.push_back(std::move(bracket));
    }
  }

  void holes(const diagnosis::Answer& answer) {
    constexpr std::size_t most = 8;
    for (const diagnosis::HoleChance& one : answer.dig_order) {
      if (located_.dig_order.size() >= most) break;
      const Site& site = made_.sites[one.hole];
      DigSpot spot;
      spot.id = id_of(job_, site.spot);
      spot.text = words_.hole(one.hole);
      spot.chance = one.chance;
      spot.effort_min = one.effort_min;
      spot.digging = site.digging;
      for (const diagnosis::PlaceChance& place : one.places) spot.places.push_back(words_.place(place));
      find_again(site, spot);
      spot.cautions = dig_cautions(site);
      located_.dig_order.push_back(std::move(spot));
    }
  }

  // Where it lies, how deep, and how it looked while the trench was open.
  void find_again(const Site& site, DigSpot& spot) const {
    if (site.spot.kind == SpotKind::joint) {
      const job::Joint& joint = job_.joints[site.spot.index];
      spot.offsets = joint_offsets(job_.plan, joint);
      if (joint.as_built) {
        spot.depth_m = joint.as_built->depth_m;
        spot.pictures = joint.as_built->pictures;
      }
    } else if (site.spot.kind == SpotKind::cable) {
      spot.depth_m = job_.cables[site.spot.index].depth_m;
    } else if (site.spot.kind == SpotKind::luminaire && job_.luminaires[site.spot.index].position && site.digging) {
      const auto& at = *job_.luminaires[site.spot.index].position;
      spot.offsets = plan_offsets(job_.plan, {at.x_m, at.y_m});
    }
  }

  NextToRead reading(const diagnosis::NextReading& one) const {
    const diagnosis::Probe& probe = made_.problem.candidates[one.candidate].probe;
    NextToRead next;
    next.place = words_.probe_place(probe);
    next.quantity = unit_of(probe.quantity);
    next.text = words_.probe(probe);
    words_.as_reading(probe, next);
    next.information_bit = one.information_bit;
    next.effort_min = one.effort_min;
    for (const diagnosis::Outcome& outcome : one.outcomes) next.outcomes.push_back(words_.outcome(probe, outcome));
    next.cautions = reading_cautions(probe);
    return next;
  }

  void next(const diagnosis::Answer& answer) {
    constexpr std::size_t most = 5;
    for (const diagnosis::NextReading& one : answer.next) {
      if (located_.next.size() >= most) break;
      if (!taken(made_.problem.candidates[one.candidate].probe)) located_.next.push_back(reading(one));
    }
    if (!answer.half_split.empty()) located_.half_split = reading(answer.half_split.front());
  }

  [[nodiscard]] bool taken(const diagnosis::Probe& probe) const {
    return std::any_of(taken_.observations.begin(), taken_.observations.end(),
                       [&](const diagnosis::Observation& one) { return one.probe == probe; });
  }

  void readings_taken(const std::vector<diagnosis::Compared>& beside_plan) {
    located_.unused = taken_.unused;
    if (visit_) located_.visit = visit_->date;
    located_.drift = drifts(built_, readings_, since_whenever_ || !visit_ ? "" : visit_->date);
    for (const diagnosis::Compared& one : beside_plan) {
      const job::Reading& reading = taken_.readings[one.observation];
      const diagnosis::Observation& observation = taken_.observations[one.observation];
      const bool mains = observation.probe.quantity == diagnosis::Quantity::mains_v;
      const double scale = mains ? job_.site.mains_v : 1;
      ComparedReading compared;
      compared.place = reading.place;
      compared.quantity = reading.quantity;
      compared.unit = unit_of(observation.probe.quantity);
      compared.measured = observation.value * scale;
      compared.predicted = one.predicted * scale;
      compared.difference = compared.measured - compared.predicted;
      compared.tolerance = 2 * one.predicted_sigma * scale;
      compared.explained = one.explained * scale;
      compared.in_tolerance = one.in_tolerance;
      compared.read_again = one.wrong_likely;
      located_.compared.push_back(std::move(compared));
    }
  }

  void hidden(const diagnosis::Answer& answer) {
    for (const std::uint32_t s : answer.blind) {
      located_.hidden.push_back(fmt::format(
          "A cut of both conductors in {} changes no reading: no current flows there. Lift one leg of the loop at its "
          "transformer, read the last lamps on either side of it, and put the leg back.",
          words_.segment(s)));
    }
  }

  [[nodiscard]] std::string headline(const diagnosis::Answer& answer) const {
    switch (answer.verdict) {
      case Verdict::no_readings:
        return "No reading yet: these are chances from experience alone. Start with the first reading below.";
      case Verdict::sound:
        return "The readings agree with the plan.";
      case Verdict::misfit:
        return "The readings do not fit this plan, with any fault or pair of faults that is known here.";
      case Verdict::located:
      case Verdict::narrowed:
        break;
    }
    if (planned_is_likeliest(located_))
      return "No reading differs from the plan so far: read on, or look for what volts do not show.";
    const std::string most = located_.causes.empty() ? "" : located_.causes.front().text;
    if (answer.verdict == Verdict::narrowed) return "Not narrowed to one place yet. Most likely so far: " + most + ".";
    return most + ".";
  }

  void rests_on() {
    const diagnosis::Spread& spread = made_.problem.spread;
    located_.rests_on = {
        fmt::format(
            "Mains ±{:.0f} % (shifts all readings together), cable ±{:.0f} % together and ±{:.0f} % each, lamps "
            "±{:.1f} % together and ±{:.0f} % each: one standard deviation.",
            100 * spread.mains, 100 * spread.copper_common, 100 * spread.length, 100 * spread.load_common,
            100 * spread.load),
        fmt::format("One reading in {:.0f} may be wrong.", 1 / spread.wrong_reading),
        "How common each fault is: estimates of the trade, no source. They decide only where readings do not.",
        "Minutes to dig or reach a spot: common practice, no source."};
  }

  const job::Job& job_;
  const job::Visit* visit_;
  bool since_whenever_;  // the readings are no visit's: every visit came before them
  diagnosis::Depth depth_;
  std::vector<job::Reading> readings_;
  Meter meter_;
  Built built_;
  LocateProblem made_;
  LocateWords words_;
  TakenReadings taken_;
  Located located_;
};

}  // namespace

Located locate(const job::Job& job, const LocateOptions& options) { return Locator(job, options).run(); }

Located readings_beside_plan(const job::Job& job, const LocateOptions& options) {
  return Locator(job, options).compared_alone();
}

}  // namespace duskwire::study
