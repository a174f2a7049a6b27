// SPDX-License-Identifier: Apache-2.0
// FaultProblem: a network as planned, the places where it may be at fault, and what was read. Free of any job: the
// caller keeps names and refers to things by index. All numbers SI; efforts in minutes.
#pragma once

#include <cstdint>
#include <vector>

#include "diagnosis/probe.hpp"
#include "electrical/network.hpp"

namespace duskwire::diagnosis {

inline constexpr std::uint32_t none = 0xffffffffu;

enum class PlaceKind : std::uint8_t {
  joint_side = 0,   // one cable's conductors in a joint (or at an output's lugs, or in a lamp's socket)
  cable = 1,        // between its two ends
  lamp = 2,         // the lamp itself: driver, bulb, housing
  output = 3,       // tap, winding and protective device of one output
  transformer = 4,  // what all its outputs share
  supply = 5,       // outlet, residual-current device, clock
};

struct Place {
  PlaceKind kind = PlaceKind::joint_side;
  std::uint32_t index = 0;  // segment (joint_side, cable), load, output or transformer
  bool at_to = false;       // joint_side: at the segment's `to`
  std::uint32_t hole = 0;   // places that one digging or one visit lays open share it
  double weight = 1;        // against other places of its kind
  bool dug_near = false;    // somebody dug or planted here since it was last seen good
};

// What opening a hole or visiting a place takes.
struct Hole {
  double effort_min = 0;
};

struct SpanPlaces {  // by segment
  std::uint32_t from_side = none;
  std::uint32_t cable = none;
  std::uint32_t to_side = none;
  bool is_lead = false;         // a lamp's own lead
  std::uint32_t output = none;  // that feeds it
};

struct OutputChoices {              // by output
  std::vector<double> other_tap_v;  // taps that it might hang on by mistake
};

// What was told about the garden; each answer shifts the prior chances.
struct History {
  double age_years = 0;
  bool new_work = false;  // laid or changed just now: nobody has seen it right yet
  bool rained = false;
  bool storm = false;     // lightning
  bool digging = false;   // digging, planting or edging since last seen good, place not known
  bool complaint = true;  // somebody saw something wrong; false: a routine reading
};

// One standard deviation of what the plan does not know.
struct Spread {
  double mains = 0.02;          // of nominal, shifts all readings together
  double copper_common = 0.02;  // temperature and the paced lengths, all cables together
  double length = 0.04;         // each cable on its own
  double load_common = 0.015;   // all lamps together
  double load = 0.03;           // each lamp on its own
  double wrong_reading = 0.02;  // chance that a reading is misread, at another place or of another unit
};

struct FaultProblem {
  electrical::Network network;
  electrical::Condition nominal;
  std::vector<SpanPlaces> spans;              // by segment
  std::vector<std::uint32_t> output_of_node;  // that feeds it; none: nothing does
  std::vector<std::uint32_t> lamp_place;
  std::vector<std::uint32_t> output_place;
  std::vector<std::uint32_t> transformer_place;
  std::uint32_t supply_place = none;
  std::vector<OutputChoices> choices;
  std::vector<Place> places;
  std::vector<Hole> holes;
  History history;
  Spread spread;
  std::vector<Observation> observations;
  std::vector<Candidate> candidates;
};

}  // namespace duskwire::diagnosis
