// SPDX-License-Identifier: Apache-2.0
#include "study/locate_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace duskwire::study {
namespace {

using diagnosis::Fault;
using diagnosis::FaultKind;
using diagnosis::PlaceKind;
using diagnosis::Probe;
using diagnosis::Quantity;

std::string ohms(double ohm) { return fmt::format("{:.{}f} ohm", ohm, ohm < 0.095 ? 2 : 1); }

// "Oak, left (F4)": as a visit says it, where the name is what one sees.
std::string name_first(const std::string& id, const std::string& name) {
  return name.empty() || name == id ? id : fmt::format("{} ({})", name, id);
}

std::string between(double low, double high, int decimals) {
  return fmt::format(" ({0:.{2}f} to {1:.{2}f})", low, high, decimals);
}

// As docs/job-format.md names it.
const char* reading_quantity(Quantity quantity) {
  switch (quantity) {
    case Quantity::node_v:
    case Quantity::cable_end_v:
    case Quantity::output_v:
    case Quantity::open_output_v:
      return "voltage";
    case Quantity::output_a:
    case Quantity::cable_a:
    case Quantity::cable_net_a:
      return "current";
    case Quantity::mains_v:
      return "mains_voltage";
    case Quantity::input_va:
      return "mains_current";
    case Quantity::loop_ohm:
      return "resistance";
    case Quantity::lamp_state:
    case Quantity::lamps_seen:
      return "lamp_state";
    case Quantity::breaker:
      return "breaker";
  }
  return "";
}

}  // namespace

const char* in_ground_words(job::GroundKind ground) {
  switch (ground) {
    case job::GroundKind::bed:
      return "in a bed";
    case job::GroundKind::lawn:
      return "in lawn";
    case job::GroundKind::gravel:
      return "under gravel";
    case job::GroundKind::paving:
      return "under paving";
    case job::GroundKind::drive:
      return "under the drive";
    case job::GroundKind::street:
      return "under the street";
    case job::GroundKind::building:
      return "in a building";
    case job::GroundKind::deck:
      return "under a deck";
    case job::GroundKind::wall:
      return "in a wall";
    case job::GroundKind::steps:
      return "in steps";
    case job::GroundKind::water:
      return "in water";
    case job::GroundKind::pool:
      return "by the pool";
    case job::GroundKind::root_zone:
      return "among roots";
    case job::GroundKind::forbidden:
      return "where digging is forbidden";
  }
  return "";
}

const char* unit_of(Quantity quantity) {
  switch (quantity) {
    case Quantity::node_v:
    case Quantity::cable_end_v:
    case Quantity::output_v:
    case Quantity::open_output_v:
    case Quantity::mains_v:
      return "V";
    case Quantity::output_a:
    case Quantity::cable_a:
    case Quantity::cable_net_a:
      return "A";
    case Quantity::input_va:
      return "VA";
    case Quantity::loop_ohm:
      return "ohm";
    case Quantity::lamp_state:
    case Quantity::breaker:
    case Quantity::lamps_seen:
      return "";
  }
  return "";
}

std::string LocateWords::node(std::uint32_t node) const {
  const Spot spot = built_.spot_of_node(node);
  if (spot.kind == SpotKind::joint)
    return name_first(built_.job->joints[spot.index].id, built_.job->joints[spot.index].name);
  if (spot.kind == SpotKind::luminaire) {
    return name_first(built_.job->luminaires[spot.index].id, built_.job->luminaires[spot.index].name);
  }
  return id_of_node(built_, node);
}

std::string LocateWords::segment(std::uint32_t segment) const {
  const electrical::Segment& wire = made_.problem.network.segments[segment];
  if (built_.wires[segment].is_lead) return "the lead of " + id_of_node(built_, wire.to);
  return fmt::format("{} between {} and {}", id_of_segment(built_, segment), id_of_node(built_, wire.from),
                     id_of_node(built_, wire.to));
}

LocatedPlace LocateWords::place(const diagnosis::PlaceChance& chance) const {
  LocatedPlace result;
  result.chance = chance.chance;
  if (chance.place == diagnosis::none) {
    result.text = "nothing: as planned";
    return result;
  }
  const diagnosis::Place& place = made_.problem.places[chance.place];
  result.kind = place.kind;
  const std::uint32_t i = place.index;
  switch (place.kind) {
    case PlaceKind::joint_side: {
      const electrical::Segment& wire = made_.problem.network.segments[i];
      const std::uint32_t at = place.at_to ? wire.to : wire.from;
      result.id = id_of_node(built_, at);
      result.cable = id_of_segment(built_, i);
      const bool lead = built_.wires[i].is_lead;
      const SpotKind kind = built_.spot_of_node(at).kind;
      if (kind == SpotKind::output)
        result.text = fmt::format("the lugs of {} at output {}", result.cable, result.id);
      else if (lead && place.at_to)
        result.text = "the socket of " + result.id;
      else if (lead)
        result.text = fmt::format("the lead splice of {} in {}", result.cable, result.id);
      else
        result.text = fmt::format("the splice of {} at {}", result.cable, result.id);
      return result;
    }
    case PlaceKind::cable:
      result.id = id_of_segment(built_, i);
      result.text = segment(i);
      return result;
    case PlaceKind::lamp:
      result.id = built_.job->luminaires[i].id;
      result.text = "the lamp " + name_first(result.id, built_.job->luminaires[i].name);
      return result;
    case PlaceKind::output:
      result.id = id_of_node(built_, made_.problem.network.outputs[i].node);
      result.text = fmt::format("output {}: tap, winding or protection, or the gauge of its run", result.id);
      return result;
    case PlaceKind::transformer:
      result.id = built_.job->transformers[i].id;
      result.text = "transformer " + name_first(result.id, built_.job->transformers[i].name);
      return result;
    case PlaceKind::supply:
      result.text = "the supply: outlet, residual-current device, clock or photocell";
      return result;
  }
  return result;
}

std::string LocateWords::bracket(const diagnosis::Bracket& bracket) const {
  const diagnosis::Place& first = made_.problem.places[bracket.places.front().place];
  if (first.kind != PlaceKind::joint_side && first.kind != PlaceKind::cable) return place(bracket.places.front()).text;
  const electrical::Segment& wire = made_.problem.network.segments[first.index];
  if (built_.wires[first.index].is_lead) return "the lead of " + node(wire.to) + " with its splice and socket";
  return fmt::format("{} or its splices, between {} and {}", id_of_segment(built_, first.index), node(wire.from),
                     node(wire.to));
}

std::string LocateWords::places(const std::vector<diagnosis::PlaceChance>& places) const {
  std::string text;
  for (const diagnosis::PlaceChance& one : places) {
    if (one.chance < 0.05 && !text.empty()) break;
    const std::string chance = one.chance > 0.99 ? "above 99 %" : fmt::format("{:.0f} %", 100 * one.chance);
    text += fmt::format("{}{} ({})", text.empty() ? "" : ", ", place(one).text, chance);
  }
  return text;
}

LocatedFault LocateWords::located(const Fault& fault, const diagnosis::Explanation& explanation, bool first) const {
  LocatedFault result;
  result.kind = fault.kind;
  const std::size_t at = first ? 0 : 1;
  const diagnosis::PlaceChance where{explanation.places[at], 0};
  const LocatedPlace found = place(where);
  result.id = found.cable.empty() ? found.id : found.cable;
  // More load sits at a place, whatever cable leads there.
  if (fault.kind == FaultKind::added_load) result.id = id_of_node(built_, fault.element);
  if (diagnosis::has_parameter(fault.kind) || fault.kind == FaultKind::wrong_tap ||
      fault.kind == FaultKind::bridged_taps) {
    result.value = fault.parameter;
    if (first && explanation.parameter_high > 0) {
      result.low = explanation.parameter_low;
      result.high = explanation.parameter_high;
    }
  }
  switch (fault.kind) {
    case FaultKind::added_load:
      result.unit = "VA";
      break;
    case FaultKind::wrong_tap:
    case FaultKind::bridged_taps:
      result.unit = "V";
      break;
    case FaultKind::wrong_gauge:
    case FaultKind::low_mains:
      result.unit = "times";
      break;
    default:
      result.unit = result.value ? "ohm" : "";
  }
  return result;
}

std::string LocateWords::fault(const Fault& fault, const diagnosis::Explanation& explanation, bool first) const {
  const std::uint32_t e = fault.element;
  const auto lamp = [&] { return name_first(built_.job->luminaires[e].id, built_.job->luminaires[e].name); };
  const auto output = [&] { return id_of_node(built_, made_.problem.network.outputs[e].node); };
  const bool ranged = first && explanation.parameter_high > 0;
  const double low = explanation.parameter_low;
  const double high = explanation.parameter_high;
  const std::string range = ranged ? between(low, high, 2) : "";
  switch (fault.kind) {
    case FaultKind::sound:
      return "As planned";
    case FaultKind::open:
      return fmt::format("Open: no current passes {} or its splices", segment(e));
    case FaultKind::open_a:
    case FaultKind::open_b:
      return fmt::format("One conductor open in {} or its splices", segment(e));
    case FaultKind::resistive:
      return fmt::format("{}{} too much in {} or its splices", ohms(fault.parameter), range, segment(e));
    case FaultKind::short_span:
      return fmt::format("Short of about {} in {}", ohms(fault.parameter), segment(e));
    case FaultKind::dead_lamp:
      return fmt::format("Lamp {} is dead", lamp());
    case FaultKind::water:
      return fmt::format("Water in {}: it leaks like {:.0f} ohm", lamp(), fault.parameter);
    case FaultKind::short_lamp:
      return fmt::format("Short of about {} inside {}", ohms(fault.parameter), lamp());
    case FaultKind::added_load:
      return fmt::format("About {:.0f} VA{} more load at {} than planned", fault.parameter,
                         ranged ? between(low, high, 0) : "", node(e));
    case FaultKind::wrong_gauge:
      return fmt::format("The run of {} has {:.1f} times the resistance planned: a thinner cable", output(),
                         fault.parameter);
    case FaultKind::wrong_tap:
      return fmt::format("{} hangs on the {:g} V tap", output(), fault.parameter);
    case FaultKind::weak_output:
      return fmt::format("{}{} too much in the winding or lug of {}", ohms(fault.parameter), range, output());
    case FaultKind::tripped:
      return fmt::format("The protection of {} is open", output());
    case FaultKind::bridged_taps:
      return fmt::format("Taps of {} bridged with the {:g} V tap: switch off, it heats", output(), fault.parameter);
    case FaultKind::transformer_dead:
      return fmt::format("Transformer {} gives nothing", built_.job->transformers[e].id);
    case FaultKind::no_mains:
      return "No mains at the outlet: residual-current device or house breaker";
    case FaultKind::control_off:
      return "Clock, photocell or relay keeps it off";
    case FaultKind::low_mains:
      return fmt::format("Mains at {:.0f} % of nominal", 100 * fault.parameter);
    case FaultKind::crossed:
      return fmt::format("Conductors crossed in {}", segment(e));
  }
  return "";
}

LocatedCause LocateWords::cause(const diagnosis::Explanation& explanation) const {
  LocatedCause result;
  result.chance = explanation.chance;
  if (explanation.faults.empty()) {
    result.text = "Nothing is wrong: as planned";
    return result;
  }
  for (std::size_t k = 0; k < explanation.faults.size(); ++k) {
    result.faults.push_back(located(explanation.faults[k], explanation, k == 0));
    std::string text = fault(explanation.faults[k], explanation, k == 0);
    if (k > 0) text = ", and: " + text;
    result.text += text;
  }
  return result;
}

std::string LocateWords::hole(std::uint32_t hole) const {
  const Site& site = made_.sites[hole];
  const std::string ground = site.ground ? std::string(", ") + in_ground_words(*site.ground) : "";
  switch (site.spot.kind) {
    case SpotKind::joint: {
      const job::Joint& joint = built_.job->joints[site.spot.index];
      return "Open joint " + name_first(joint.id, joint.name) + ground;
    }
    case SpotKind::luminaire: {
      const job::Luminaire& lamp = built_.job->luminaires[site.spot.index];
      return (site.digging ? "Open the splices at " : "Look into ") + name_first(lamp.id, lamp.name) + ground;
    }
    case SpotKind::cable:
      return "Dig along cable " + built_.job->cables[site.spot.index].id + ground;
    default:
      break;
  }
  return "At transformer " +
         name_first(built_.job->transformers[site.spot.index].id, built_.job->transformers[site.spot.index].name);
}

std::string LocateWords::probe_place(const Probe& probe) const {
  switch (probe.quantity) {
    case Quantity::node_v:
    case Quantity::loop_ohm:
      return id_of_node(built_, probe.index);
    case Quantity::cable_end_v:
    case Quantity::cable_a:
    case Quantity::cable_net_a:
      return id_of_segment(built_, probe.index);
    case Quantity::output_v:
    case Quantity::open_output_v:
    case Quantity::output_a:
    case Quantity::breaker:
      return id_of_node(built_, made_.problem.network.outputs[probe.index].node);
    case Quantity::mains_v:
      return built_.job->transformers.empty() ? "" : built_.job->transformers.front().id;
    case Quantity::input_va:
      return built_.job->transformers[probe.index].id;
    case Quantity::lamp_state:
      return built_.job->luminaires[probe.index].id;
    case Quantity::lamps_seen:
      return "";
  }
  return "";
}

std::string LocateWords::probe(const Probe& probe) const {
  const std::string where = probe_place(probe);
  switch (probe.quantity) {
    case Quantity::node_v: {
      const bool lamp = built_.spot_of_node(probe.index).kind == SpotKind::luminaire;
      return fmt::format("Volts at {}{}, lamps on", lamp ? "the base of " : "joint ", node(probe.index));
    }
    case Quantity::cable_end_v: {
      const electrical::Segment& wire = made_.problem.network.segments[probe.index];
      return fmt::format("Volts on the conductors of {} beside {}, lamps on", where,
                         node(probe.at_to ? wire.to : wire.from));
    }
    case Quantity::output_v:
      return fmt::format("Volts at output {}, lamps on", where);
    case Quantity::open_output_v:
      return fmt::format("Volts at output {}, its runs lifted", where);
    case Quantity::output_a:
      return fmt::format("Amperes of output {}, clamp round one side", where);
    case Quantity::cable_a:
      return fmt::format("Amperes in {} conductor of {}", probe.conductor_b ? "the other" : "one", where);
    case Quantity::cable_net_a:
      return fmt::format("Amperes with the clamp round both conductors of {}", where);
    case Quantity::mains_v:
      return "Mains volts at the outlet";
    case Quantity::input_va:
      return fmt::format("Amperes from the mains into {}", where);
    case Quantity::loop_ohm:
      return fmt::format("Ohms between both conductors at {}, runs lifted, all off", where);
    case Quantity::lamp_state:
      return fmt::format("Whether {} is lit", where);
    case Quantity::breaker:
      return fmt::format("Whether the protection of {} has tripped", where);
    case Quantity::lamps_seen:
      return "Which lamps are out: look at all of them, lamps on";
  }
  return "";
}

void LocateWords::as_reading(const Probe& probe, NextToRead& next) const {
  next.reads = reading_quantity(probe.quantity);
  if (probe.quantity == Quantity::open_output_v) next.load = job::ReadingLoad::open_circuit;
  if (probe.quantity == Quantity::cable_net_a) next.clamped = job::Clamped::net;
  if (probe.quantity == Quantity::cable_a && probe.conductor_b) next.clamped = job::Clamped::other;
  if (probe.quantity == Quantity::cable_end_v) {
    const electrical::Segment& wire = made_.problem.network.segments[probe.index];
    next.at = id_of_node(built_, probe.at_to ? wire.to : wire.from);
  }
  if (probe.lifted != diagnosis::none) next.lifted = id_of_segment(built_, probe.lifted);
}

std::string LocateWords::lamps_out(const std::vector<std::uint32_t>& out) const {
  constexpr std::size_t named = 4;
  const std::size_t all = built_.job->luminaires.size();
  if (out.empty()) return "All are lit";
  if (out.size() == all) return "All are out";
  std::string names;
  for (std::size_t k = 0; k < std::min(named, out.size()); ++k) {
    names += (k > 0 ? ", " : "") + built_.job->luminaires[out[k]].id;
  }
  if (out.size() > named) names += fmt::format(" and {} more", out.size() - named);
  return names + (out.size() == 1 ? " is out" : " are out");
}

ForetoldOutcome LocateWords::outcome(const Probe& probe, const diagnosis::Outcome& outcome) const {
  if (probe.quantity == Quantity::lamps_seen) {
    return {fmt::format("{}: {}", lamps_out(outcome.out), places(outcome.places)), outcome.chance};
  }
  const bool dark = outcome.low > diagnosis::beside_dark_lamp / 2;
  double low = std::max(0.0, outcome.low - (dark ? diagnosis::beside_dark_lamp : 0));
  double high = std::max(0.0, outcome.high - (dark ? diagnosis::beside_dark_lamp : 0));
  if (probe.quantity == Quantity::mains_v) {
    low *= built_.job->site.mains_v;
    high *= built_.job->site.mains_v;
  }
  const char* unit = unit_of(probe.quantity);
  std::string reads = fmt::format("{:.2f} to {:.2f} {}", low, high, unit);
  if (high < 0.3) reads = fmt::format("Nothing ({:.1f} {} or less)", std::max(0.1, high), unit);
  if (probe.quantity == Quantity::mains_v) reads = fmt::format("{:.0f} to {:.0f} V", low, high);
  if (probe.quantity == Quantity::loop_ohm && high > 500) reads = "No end of ohms";
  if (probe.quantity == Quantity::breaker) reads = high > 0.5 ? "Tripped" : "Holding";
  if (dark) reads += ", lamp dark";
  return {fmt::format("{}: {}", reads, places(outcome.places)), outcome.chance};
}

}  // namespace duskwire::study
