// SPDX-License-Identifier: Apache-2.0
// All tests: common practice, no source.
#include "study/locate_unseen.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace duskwire::study {
namespace {

using diagnosis::FaultKind;
using diagnosis::Verdict;

// A meter that is off by its class must not make a run lie across two outputs.
constexpr double beyond_any_tap = 1.2;

struct LampVolts {
  std::string id;
  double value_v = 0;
  double window_max_v = 0;
  double highest_tap_v = 0;
};

std::vector<LampVolts> lamp_volts(const Built& built, const std::vector<job::Reading>& readings) {
  std::vector<LampVolts> found;
  for (const job::Reading& reading : readings) {
    if (reading.quantity != "voltage" || !reading.value || reading.load == job::ReadingLoad::open_circuit) continue;
    const std::uint32_t node = built.node_of(reading.place);
    if (node == none || built.spot_of_node(node).kind != SpotKind::luminaire) continue;
    LampVolts lamp{reading.place, *reading.value, built.lamps[node - built.luminaire_base].window_max_v, 0};
    const std::uint32_t output = built.supply[node].output;
    if (output != none) {
      const job::Transformer& transformer = built.job->transformers[built.outputs[output].transformer];
      for (const job::Output& one : transformer.outputs) lamp.highest_tap_v = std::max(lamp.highest_tap_v, one.tap_v);
      const job::TransformerItem* item = job::find_transformer(built.job->catalogue, transformer.item);
      if (item) {
        for (const double tap_v : item->taps_v) lamp.highest_tap_v = std::max(lamp.highest_tap_v, tap_v);
      }
    }
    found.push_back(std::move(lamp));
  }
  return found;
}

void too_many_volts(const Built& built, const std::vector<job::Reading>& readings, std::vector<Unseen>& out) {
  std::vector<std::string> over;
  std::vector<std::string> across;
  for (const LampVolts& lamp : lamp_volts(built, readings)) {
    const std::string words = fmt::format("{} reads {:.2f} V", lamp.id, lamp.value_v);
    if (lamp.highest_tap_v > 0 && lamp.value_v > beyond_any_tap * lamp.highest_tap_v) {
      across.push_back(fmt::format("{}, no tap gives more than {:g} V", words, lamp.highest_tap_v));
    } else if (lamp.window_max_v > 0 && lamp.value_v > lamp.window_max_v) {
      over.push_back(fmt::format("{}, its window ends at {:g} V", words, lamp.window_max_v));
    }
  }
  if (!across.empty()) {
    out.push_back({UnseenKind::across_outputs,
                   fmt::format("A run across two outputs or two windings: {}.", fmt::join(across, "; ")),
                   "Open the protection of one output: each run must be all live or all dead. Read the tags at the "
                   "lugs."});
  }
  if (!over.empty()) {
    out.push_back({UnseenKind::over_voltage,
                   fmt::format("Too many volts, and lamps that die early: {}.", fmt::join(over, "; ")),
                   "Read the first lamp with few lamps on and the mains high, ask whether lamps were changed for "
                   "smaller ones, then take a lower tap."});
  }
}

void flicker(const std::vector<job::Reading>& readings, std::vector<Unseen>& out) {
  std::vector<std::string> ids;
  for (const job::Reading& reading : readings) {
    if (reading.seen == job::Seen::flickering) ids.push_back(reading.place);
  }
  if (ids.empty()) return;
  out.push_back(
      {UnseenKind::flicker,
       fmt::format("Why {} flicker{}: a loose joint, a driver, or a transformer that wants more load; a meter "
                   "shows the mean of it.",
                   fmt::join(ids, ", "), ids.size() == 1 ? "s" : ""),
       "Amperes that jump while a joint is moved with the clamp on: that joint. One lamp pulses evenly: swap "
       "it. All pulse together: add load."});
}

void died_early(const job::Visit* visit, const Located& located, std::vector<Unseen>& out) {
  const bool storm = visit && visit->answers.storm;
  const bool dead = std::any_of(located.causes.begin(), located.causes.end(), [](const LocatedCause& cause) {
    return std::any_of(cause.faults.begin(), cause.faults.end(),
                       [](const LocatedFault& fault) { return fault.kind == FaultKind::dead_lamp; });
  });
  if (storm) {
    out.push_back({UnseenKind::surge, "What a surge has weakened: survivors of a storm fail over weeks.",
                   "Put the dates of the failures beside the storm, look for burn marks and half-lit lamps, ask what "
                   "the house lost."});
  }
  if (dead) {
    out.push_back({UnseenKind::heat_or_water, "Why a lamp died: age, heat, water, poor drainage or too many volts.",
                   "Open one of each kind and each place: the same marks in all of one kind or place tell."});
  }
}

// What stays possible where all agrees with the plan.
void behind_good_volts(std::vector<Unseen>& out) {
  out.push_back(
      {UnseenKind::wrong_hours, "Wrong hours: the volts are right and the clock is not, or a photocell sees the lamps.",
       "Read time, date, zone and place off the clock; shade the photocell and see whether the lamps cycle."});
  out.push_back({UnseenKind::thermal_cut_out,
                 "A thermal cut-out that opens after ten minutes or more and is back when the transformer is cold.",
                 "Wait with all lamps on; feel the case, and hold the amperes against the rating."});
  out.push_back({UnseenKind::water_dry_now, "Water in a fixture that is dry now.",
                 "Open it and look for drip lines and green contacts; test the insulation at its lead with the driver "
                 "off, or read the amperes again when all is wet."});
  out.push_back({UnseenKind::leak_to_soil,
                 "A nick in the jacket: one leak to the soil changes nothing until there is a second, or until the "
                 "copper has rotted through.",
                 "Test the insulation of the cable against the soil, lamps and transformer off, 250 V at most: 1 "
                 "megohm or more is sound."});
}

}  // namespace

std::string separating_test(FaultKind kind) {
  switch (kind) {
    case FaultKind::sound:
      return {};
    case FaultKind::open:
      return "Volts on both sides of the last good splice, lamps on, with a test lamp of 5 W or more: a plain meter "
             "shows ghost volts. At the transformer tug the cable and read its tag. A locator's tone dies at a cut.";
    case FaultKind::open_a:
    case FaultKind::open_b:
      return "Clamp round the whole cable of a leg: anything but 0 A means one conductor is open. Then volts from "
             "splice to splice beside the plan.";
    case FaultKind::resistive:
      return "Measured less planned drop over the amperes through it is its ohms. Volts without load look right. It is "
             "warm, and worse when wet.";
    case FaultKind::short_span:
      return "Lift the runs and read ohms from both ends: the fault's own ohms cancel, the rest is distance. On new "
             "work open the middle joint and see which half clears: both strands of one cable joined, or crossed.";
    case FaultKind::dead_lamp:
      return "Full volts at its base: swap in a lamp known to be good, the amperes step by its VA over its volts.";
    case FaultKind::water:
      return "Open it: drip line, green contacts. Dry it, read the amperes again, test the insulation at its lead with "
             "the driver off.";
    case FaultKind::short_lamp:
      return "Take fixtures off half by half until it holds.";
    case FaultKind::added_load:
      return "Hold the amperes against the log and count the lamps: something hangs there that the plan does not show.";
    case FaultKind::wrong_gauge:
      return "Two readings along the run fit the gauge; the print on the jacket tells it.";
    case FaultKind::wrong_tap:
      return "Volts of the tap with the lamps on, and which lug each run is in: all runs of a tap shift together.";
    case FaultKind::weak_output:
      return "Millivolts across the lug with the lamps on and a look for heat marks; then the tap with its runs "
             "lifted.";
    case FaultKind::tripped:
      return "Lift all its runs, reset, and add them back one at a time with the clamp on.";
    case FaultKind::bridged_taps:
      return "Clamp the mains side with the runs lifted: it still draws much, the two taps read alike. Look for "
             "strands "
             "of one run in two lugs.";
    case FaultKind::transformer_dead:
      return "Mains in, and volts from tap to common with the runs lifted: none. Feel the case: a thermal cut-out is "
             "back when cold.";
    case FaultKind::no_mains:
      return "A lamp or a meter in the outlet; look for the residual-current device upstream, it may be indoors.";
    case FaultKind::control_off:
      return "Switch on by hand, cover the photocell, bypass the relay: one of them brings the lamps.";
    case FaultKind::low_mains:
      return "Mains volts at the outlet beside the volts of each tap, lamps on: all runs shift together.";
    case FaultKind::crossed:
      return "Lift one end: it clears, and either end alone runs fine. Before a loop is closed read 0 V between like "
             "strands; about full volts means crossed.";
  }
  return {};
}

bool planned_is_likeliest(const Located& located) {
  return located.verdict != Verdict::misfit && !located.causes.empty() && located.causes.front().faults.empty();
}

std::vector<Unseen> unseen(const Built& built, const std::vector<job::Reading>& readings, const job::Visit* visit,
                           const Located& located) {
  std::vector<Unseen> out;
  if (readings.empty()) return out;
  too_many_volts(built, readings, out);
  flicker(readings, out);
  died_early(visit, located, out);
  if (located.verdict == Verdict::sound || planned_is_likeliest(located)) behind_good_volts(out);
  return out;
}

}  // namespace duskwire::study
