// SPDX-License-Identifier: Apache-2.0
// Locate: what the readings of a visit say about a garden that does not do what its plan says: which fault is likely,
// where to dig first, what to read next. SI numbers beside sentences in the job's units.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "diagnosis/answer.hpp"
#include "job/job.hpp"
#include "study/tape_offsets.hpp"

namespace duskwire::study {

struct LocateOptions {
  std::optional<std::uint32_t> visit;  // by index; left out: the last one that has readings
  std::vector<job::Reading> readings;  // beside those of the visit, as from a file
  bool readings_alone = false;         // the visit's own readings are left out
  bool ranking_alone = false;          // nothing is said of what to read next
};

// A spot that may be at fault.
struct LocatedPlace {
  std::string id;     // of the joint, luminaire, cable, output or transformer; empty: the supply
  std::string cable;  // a splice: the cable whose conductors it joins there
  diagnosis::PlaceKind kind = diagnosis::PlaceKind::cable;
  std::string text;  // "the splice of C5 in F4"
  double chance = 0;
};

// What readings above ground do not tell apart.
struct LocatedBracket {
  std::string text;  // "C5 with its splices at F4 and F5"
  double chance = 0;
  std::vector<LocatedPlace> places;  // most likely first
};

struct DigSpot {
  std::string id;
  std::string text;  // "open F4, in a bed"
  double chance = 0;
  double effort_min = 0;
  bool digging = false;
  std::optional<double> depth_m;
  std::optional<TapeOffsets> offsets;
  std::vector<std::string> pictures;  // of the open trench, by content hash
  std::vector<LocatedPlace> places;
  std::vector<std::string> cautions;
};

struct LocatedFault {
  diagnosis::FaultKind kind = diagnosis::FaultKind::sound;
  std::string id;               // of what it sits in
  std::optional<double> value;  // fitted
  std::optional<double> low;    // 68 % of the chance lies between
  std::optional<double> high;
  std::string unit;
};

struct LocatedCause {
  std::string text;  // "0.5 ohm too much (0.46 to 0.55) in C5 or its splices at F4 and F5"
  double chance = 0;
  std::vector<LocatedFault> faults;  // one or two; none: as planned
  std::string test;                  // by hand, that tells it from its neighbours; of two faults the first one's
};

struct ForetoldOutcome {
  std::string text;  // "12.6 to 12.8 V: then the splice of C5 in F5 (72 %)"
  double chance = 0;
};

struct NextToRead {
  std::string place;     // empty: of all lamps at one look
  std::string quantity;  // its unit
  std::string text;      // "Volts at the base of F6, lamps on"
  // How a job's reading says the same.
  std::string reads;  // its quantity: "voltage", "current" ...
  job::ReadingLoad load = job::ReadingLoad::loaded;
  job::Clamped clamped = job::Clamped::one;
  std::string at;      // the end beside which a cable's own conductors are read
  std::string lifted;  // the cable to take off its transformer meanwhile
  double information_bit = 0;
  double effort_min = 0;
  std::vector<ForetoldOutcome> outcomes;
  std::vector<std::string> cautions;
};

struct ComparedReading {
  std::string place;
  std::string quantity;
  std::string unit;
  double measured = 0;
  double predicted = 0;
  double difference = 0;  // measured less predicted
  double tolerance = 0;   // two standard deviations of plan and meter
  double explained = 0;   // by the likeliest cause
  bool in_tolerance = true;
  bool read_again = false;  // no cause explains it beside the others
};

struct UnusedReading {
  std::string place;
  std::string quantity;
  std::string why;
};

// Faults that no reading here could show.
enum class UnseenKind : std::uint8_t {
  wrong_hours = 0,
  thermal_cut_out = 1,
  water_dry_now = 2,
  leak_to_soil = 3,
  surge = 4,
  heat_or_water = 5,
  over_voltage = 6,
  flicker = 7,
  across_outputs = 8,
};

struct Unseen {
  UnseenKind kind = UnseenKind::wrong_hours;
  std::string text;
  std::string test;  // that shows it
};

struct Drift {
  std::string place;
  std::string quantity;
  std::string unit;
  std::string since;  // date of the earlier visit
  double was = 0;
  double is = 0;
  double change = 0;
  std::optional<double> output_change;  // of the volts of the output that feeds it, where both visits read them
  std::string text;
};

struct RunRoom {
  std::string output;
  double room_va = 0;  // more load at the place of its lowest lamp before something gives
  std::string limited_by;
};

struct Located {
  diagnosis::Verdict verdict = diagnosis::Verdict::no_readings;
  std::string headline;
  std::string visit;  // date of the visit that the readings are of
  std::vector<LocatedCause> causes;
  std::vector<LocatedBracket> brackets;
  std::vector<DigSpot> dig_order;
  std::vector<NextToRead> next;
  std::optional<NextToRead> half_split;
  std::vector<ComparedReading> compared;
  std::vector<UnusedReading> unused;
  std::vector<std::string> checks;  // where nothing fits: what to look at
  std::vector<std::string> hidden;  // cuts that no reading would show, with the test that would
  std::vector<Unseen> unseen;       // by what was read, seen and told
  std::vector<Drift> drift;
  std::vector<RunRoom> room;
  std::vector<std::string> cautions;  // that hold throughout
  std::vector<std::string> rests_on;  // what the chances assume
};

[[nodiscard]] Located locate(const job::Job& job, const LocateOptions& options = {});

// The readings beside the plan alone, no fault weighed: `visit`, `compared`, `unused` and `drift` of the answer.
[[nodiscard]] Located readings_beside_plan(const job::Job& job, const LocateOptions& options = {});

}  // namespace duskwire::study
