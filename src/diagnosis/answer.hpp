// SPDX-License-Identifier: Apache-2.0
// Answer: what is likely at fault, where to look first, what to read next, and whether the readings fit at all.
#pragma once

#include <cstdint>
#include <vector>

#include "diagnosis/fault.hpp"

namespace duskwire::diagnosis {

struct Explanation {
  std::vector<Fault> faults;          // empty: sound; parameters as fitted
  std::vector<std::uint32_t> places;  // of each fault
  double chance = 0;
  double parameter_low = 0;  // of the first fault: 68 % of the posterior lies between
  double parameter_high = 0;
};

struct PlaceChance {
  std::uint32_t place = none;
  double chance = 0;  // that a fault sits here
};

// What no reading above ground tells apart: a cable with its splices at both ends, a lamp, an output, a transformer,
// the supply.
struct Bracket {
  double chance = 0;
  std::vector<PlaceChance> places;  // most likely first
};

struct HoleChance {
  std::uint32_t hole = none;
  double chance = 0;
  double effort_min = 0;
  std::vector<PlaceChance> places;  // most likely first
};

struct Outcome {   // of a reading yet to be taken
  double low = 0;  // values of the reading between which it points to `places`
  double high = 0;
  double chance = 0;
  std::vector<PlaceChance> places;  // after such a reading, most likely first, three at most
  std::vector<std::uint32_t> out;   // lamps_seen: the loads that are dark then
};

// Added to `low` and `high` of an outcome in which the lamp beside the reading is dark.
inline constexpr double beside_dark_lamp = 50;

struct NextReading {
  std::uint32_t candidate = none;
  double information_bit = 0;  // expected, about the place
  double effort_min = 0;
  double merit = 0;  // bits per minute
  std::vector<Outcome> outcomes;
};

// A reading beside what the plan says.
struct Compared {
  std::uint32_t observation = none;
  double predicted = 0;        // by the plan as drawn
  double predicted_sigma = 0;  // of plan and meter together
  double explained = 0;        // by the most likely explanation
  bool in_tolerance = true;    // within two standard deviations of the plan
  bool wrong_likely = false;   // the most likely explanation does not reach it: read again
};

enum class Verdict : std::uint8_t {
  sound = 0,     // as planned, within tolerance
  located = 1,   // one bracket is likelier than 80 %
  narrowed = 2,  // more to be read
  misfit = 3,    // no explanation fits
  no_readings = 4,
};

struct Answer {
  Verdict verdict = Verdict::no_readings;
  std::vector<Explanation> explanations;  // most likely first
  std::vector<PlaceChance> places;        // most likely first
  std::vector<Bracket> brackets;          // most likely first
  std::vector<HoleChance> dig_order;      // by chance over effort
  std::vector<NextReading> next;          // best first
  std::vector<NextReading> half_split;    // what the plain procedure would read: one entry, or none
  std::vector<Compared> compared;         // by observation
  std::vector<std::uint32_t> blind;       // segments that may be cut without any of the candidates showing it
  double misfit_share = 1;                // how often readings agree no better than these by chance alone
};

// What diagnose() spends its time on can be left out: next, half_split and blind are then empty.
enum class Depth : std::uint8_t { ranking = 0, whole = 1 };

// Deterministic; the problem must be sound (electrical::validate) and its indices in range.
[[nodiscard]] Answer diagnose(const FaultProblem& problem, Depth depth = Depth::whole);

}  // namespace duskwire::diagnosis
