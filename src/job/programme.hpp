// SPDX-License-Identifier: Apache-2.0
// The switching programme within a job: what is on from when to when, by the clock and by the sun.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "job/extra.hpp"

namespace duskwire::job {

enum class SwitchBase : std::uint8_t { clock = 0, sunset = 1, sunrise = 2 };

struct SwitchRule {
  SwitchBase at = SwitchBase::clock;
  std::string time;                  // HH:MM, where `at` is clock
  std::optional<double> offset_min;  // where `at` is the sun; negative before; absent: none
  Extra extra;

  bool operator==(const SwitchRule&) const = default;
};

struct ProgrammeEntry {
  std::string id;
  std::string name;
  std::vector<std::string> zones;         // of luminaires; empty: all
  std::vector<std::string> transformers;  // empty: all
  std::vector<std::string> days;          // mon ... sun; empty: every day
  std::string from_day;                   // MM-DD, first day of its season; empty: the whole year
  std::string to_day;
  SwitchRule on;
  SwitchRule off;
  double dim_pct = 100;
  Extra extra;

  bool operator==(const ProgrammeEntry&) const = default;
};

}  // namespace duskwire::job
