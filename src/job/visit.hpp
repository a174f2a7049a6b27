// SPDX-License-Identifier: Apache-2.0
// A visit to the site: what was found, and what was measured where. What it names by id may be gone by now.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "job/extra.hpp"

namespace duskwire::job {

// What the lamps were doing meanwhile: volts without load prove little.
enum class ReadingLoad : std::uint8_t { loaded = 0, open_circuit = 1 };

// Of the current of a cable: in one of its conductors, in the other, or a clamp round both.
enum class Clamped : std::uint8_t { one = 0, other = 1, net = 2 };

// What the eye sees instead of a number: a lamp's state, or that of an output's protective device.
enum class Seen : std::uint8_t { measured = 0, lit = 1, dim = 2, dark = 3, flickering = 4, tripped = 5, holding = 6 };

struct Reading {
  std::string place;     // id of an output, joint, luminaire, cable, transformer or receptacle
  std::string quantity;  // a name of docs/job-format.md
  std::optional<double> value;
  std::string unit;
  Seen seen = Seen::measured;
  ReadingLoad load = ReadingLoad::loaded;
  Clamped clamped = Clamped::one;
  std::string at;      // volts of a cable's own conductors: the joint, luminaire or output beside which they were read
  std::string lifted;  // cable that was off its transformer meanwhile
  std::string time;
  std::string note;
  Extra extra;

  bool operator==(const Reading&) const = default;
};

enum class VisitKind : std::uint8_t {
  survey = 0,
  installation = 1,
  commissioning = 2,
  night_visit = 3,
  hand_over = 4,
  care = 5,
  service = 6,
  other = 7,
};

// What the owner and the garden tell; each shifts what is likely.
struct Answers {
  std::optional<double> age_years;  // since the wiring was laid
  bool new_work = false;
  bool rained = false;
  bool storm = false;
  bool digging = false;               // digging, planting or edging since last seen good, place not known
  std::vector<std::string> dug_near;  // luminaires, joints or cables where that was
  Extra extra;

  bool operator==(const Answers&) const = default;
};

enum class LogKind : std::uint8_t { facts = 0, reading = 1, strike = 2, sign = 3, backfill = 4 };

// An entry of a visit's log. Entries are added and never changed: another device knows one by its hash, so what it
// says is kept as it was written.
struct LogEntry {
  std::string id;
  std::string visit;         // the visit's id
  std::string device;        // that wrote it
  std::uint32_t number = 1;  // of that device in that visit, without gaps
  std::string at;            // ISO 8601, UTC
  LogKind kind = LogKind::facts;
  std::string facts;    // a JSON object: keys of the visit as said then, null for one that is said no longer
  std::string reading;  // a JSON object: a Reading
  std::string strikes;  // id of an entry that counts no longer
  std::string signed_by;
  std::optional<std::uint32_t> covers;  // entries that were there when it was signed
  std::vector<std::string> without;     // joints that were covered without a record
  std::string why;                      // of a strike or of covering without a record
  Extra extra;

  bool operator==(const LogEntry&) const = default;
};

struct Visit {
  std::string id;    // where it has a log
  std::string date;  // ISO 8601 date or time
  VisitKind kind = VisitKind::other;
  std::string by;
  std::string meter;
  std::optional<double> meter_accuracy_pct;  // of a reading in volts
  std::optional<double> clamp_accuracy_pct;  // of a reading in amperes
  std::string weather;
  std::string complaint;  // in the owner's words
  Answers answers;
  std::vector<Reading> readings;
  std::vector<std::string> pictures;  // content hashes or file names
  std::string notes;
  std::string signed_off;  // by whom, when
  std::vector<LogEntry> log;
  Extra extra;

  bool operator==(const Visit&) const = default;
};

}  // namespace duskwire::job
