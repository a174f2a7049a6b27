// SPDX-License-Identifier: Apache-2.0
#include "study/locate_readings.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::study {
namespace {

using diagnosis::Probe;
using diagnosis::Quantity;

struct Where {
  std::uint32_t node = none;
  std::uint32_t output = none;
  std::uint32_t segment = none;
  std::uint32_t lamp = none;
  std::uint32_t transformer = none;
  bool mains = false;
};

template <class Items>
std::uint32_t index_of(const Items& items, const std::string& id) {
  for (std::size_t k = 0; k < items.size(); ++k) {
    if (items[k].id == id) return static_cast<std::uint32_t>(k);
  }
  return none;
}

Where where(const Built& built, const std::string& id) {
  Where place;
  const job::Job& job = *built.job;
  place.node = built.node_of(id);
  if (place.node != none && place.node < built.joint_base) place.output = place.node;
  place.lamp = index_of(job.luminaires, id);
  const std::uint32_t cable = index_of(job.cables, id);
  if (cable != none) place.segment = built.segment_of_cable[cable];
  place.transformer = index_of(job.transformers, id);
  place.mains = place.transformer != none || index_of(job.plan.receptacles, id) != none;
  return place;
}

class Taker {
 public:
  Taker(const Built& built, const Meter& meter) : built_(built), meter_(meter) {}

  TakenReadings run(const std::vector<job::Reading>& readings) {
    for (const job::Reading& reading : readings) {
      const std::string why = take(reading);
      if (!why.empty()) taken_.unused.push_back({reading.place, reading.quantity, why});
    }
    return std::move(taken_);
  }

 private:
  // Empty where it is used, else the reason.
  std::string take(const job::Reading& reading) {
    const Where at = where(built_, reading.place);
    if (at.node == none && at.segment == none && !at.mains)
      return "the job has nothing of this id that carries current";
    if (reading.quantity == "lamp_state") return see(reading, at);
    if (reading.quantity == "breaker") return see_breaker(reading, at);
    if (!reading.value) return "it has no value";
    if (reading.quantity == "voltage") return volts(reading, at);
    if (reading.quantity == "current") return amperes(reading, at);
    if (reading.quantity == "mains_voltage") return mains(reading, at);
    if (reading.quantity == "mains_current" || reading.quantity == "apparent_power") return input(reading, at);
    if (reading.quantity == "resistance") return ohms(reading, at);
    return "such a reading says nothing about where a fault sits";
  }

  std::string put(const job::Reading& reading, Probe probe, double value) {
    if (!reading.lifted.empty()) {
      probe.lifted = where(built_, reading.lifted).segment;
      if (probe.lifted == none) return "the cable that was lifted is not known";
    }
    taken_.readings.push_back(reading);
    taken_.observations.push_back(
        {probe, value, sigma_of(meter_, probe.quantity, std::abs(value)), diagnosis::SeenLamp::lit});
    return {};
  }

  std::string volts(const job::Reading& reading, const Where& at) {
    const double value = std::abs(*reading.value);
    const bool open = reading.load == job::ReadingLoad::open_circuit;
    if (at.output != none) return put(reading, {open ? Quantity::open_output_v : Quantity::output_v, at.output}, value);
    if (open) return "volts without load prove little: a meter sees ghost volts through a broken splice";
    if (at.node != none) return put(reading, {Quantity::node_v, at.node}, value);
    if (at.segment == none) return "volts of the mains are a mains_voltage";
    const electrical::Segment& segment = electrical::network_of(*built_.prepared).segments[at.segment];
    const std::uint32_t end = built_.node_of(reading.at);
    if (end != segment.from && end != segment.to) return "say beside which of its ends (at) the cable was read";
    return put(reading, {Quantity::cable_end_v, at.segment, end == segment.to}, value);
  }

  std::string amperes(const job::Reading& reading, const Where& at) {
    const double value = std::abs(*reading.value);
    if (at.segment != none) {
      if (reading.clamped == job::Clamped::net) return put(reading, {Quantity::cable_net_a, at.segment}, value);
      return put(reading, {Quantity::cable_a, at.segment, false, reading.clamped == job::Clamped::other}, value);
    }
    if (at.output != none) return put(reading, {Quantity::output_a, at.output}, value);
    return "amperes are those of an output or a cable";
  }

  std::string mains(const job::Reading& reading, const Where& at) {
    if (!at.mains) return "mains volts are those of a transformer or a receptacle";
    return put(reading, {Quantity::mains_v, 0}, *reading.value / built_.job->site.mains_v);
  }

  std::string input(const job::Reading& reading, const Where& at) {
    if (at.transformer == none) return "the draw from the mains is that of a transformer";
    const bool amps = reading.quantity == "mains_current";
    return put(reading, {Quantity::input_va, at.transformer}, *reading.value * (amps ? built_.job->site.mains_v : 1));
  }

  std::string ohms(const job::Reading& reading, const Where& at) {
    if (at.node == none) return "ohms are read between the conductors of an output, a joint or a lamp";
    return put(reading, {Quantity::loop_ohm, at.node}, *reading.value);
  }

  std::string see(const job::Reading& reading, const Where& at) {
    if (at.lamp == none) return "only a luminaire is lit or dark";
    const auto seen = static_cast<int>(reading.seen) - static_cast<int>(job::Seen::lit);
    if (seen < 0 || seen > static_cast<int>(diagnosis::SeenLamp::flickering)) return "say lit, dim, dark or flickering";
    taken_.readings.push_back(reading);
    taken_.observations.push_back({{Quantity::lamp_state, at.lamp}, 0, 0, static_cast<diagnosis::SeenLamp>(seen)});
    return {};
  }

  std::string see_breaker(const job::Reading& reading, const Where& at) {
    if (at.output == none) return "a device that trips is that of an output";
    if (reading.seen != job::Seen::tripped && reading.seen != job::Seen::holding) return "say tripped or holding";
    taken_.readings.push_back(reading);
    taken_.observations.push_back(
        {{Quantity::breaker, at.output}, reading.seen == job::Seen::tripped ? 1.0 : 0.0, 0, diagnosis::SeenLamp::lit});
    return {};
  }

  const Built& built_;
  Meter meter_;
  TakenReadings taken_;
};

}  // namespace

TakenReadings take_readings(const Built& built, const std::vector<job::Reading>& readings, const Meter& meter) {
  return Taker(built, meter).run(readings);
}

void apply_answers(const Built& built, const job::Visit& visit, diagnosis::FaultProblem& problem) {
  const job::Answers& answers = visit.answers;
  problem.history.age_years = answers.age_years.value_or(0);
  problem.history.new_work =
      answers.new_work || visit.kind == job::VisitKind::installation || visit.kind == job::VisitKind::commissioning;
  problem.history.rained = answers.rained;
  problem.history.storm = answers.storm;
  problem.history.digging = answers.digging;
  problem.history.complaint = visit.kind == job::VisitKind::service || !visit.complaint.empty();
  for (const std::string& id : answers.dug_near) {
    const Where at = where(built, id);
    for (std::size_t s = 0; s < problem.spans.size(); ++s) {
      const electrical::Segment& segment = problem.network.segments[s];
      const bool near = s == at.segment || (at.node != none && (segment.from == at.node || segment.to == at.node));
      if (near) problem.places[problem.spans[s].cable].dug_near = true;
    }
  }
}

}  // namespace duskwire::study
