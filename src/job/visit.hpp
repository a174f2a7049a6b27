// SPDX-License-Identifier: Apache-2.0
// A visit to the site: what was found, and what was measured where. What it names by id may be gone by now.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "job/extra.hpp"

namespace duskwire::job {

struct Reading {
  std::string place;     // id of an output, joint, luminaire, cable, transformer or receptacle
  std::string quantity;  // a name of docs/job-format.md
  double value = 0;
  std::string unit;
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

struct Visit {
  std::string date;  // ISO 8601 date or time
  VisitKind kind = VisitKind::other;
  std::string by;
  std::string meter;
  std::string weather;
  std::vector<Reading> readings;
  std::vector<std::string> pictures;  // content hashes or file names
  std::string notes;
  Extra extra;

  bool operator==(const Visit&) const = default;
};

}  // namespace duskwire::job
