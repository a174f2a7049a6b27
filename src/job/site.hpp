// SPDX-License-Identifier: Apache-2.0
// Where the job is, whose it is, by which rules and habits it is worked.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "job/extra.hpp"

namespace duskwire::job {

// What a spade meets here.
enum class Soil : std::uint8_t { sand = 0, loam = 1, clay = 2, stony = 3, rock = 4 };

enum class DisplayUnits : std::uint8_t { metric = 0, us = 1 };

// The conditions that "worst" is taken over.
struct Corners {
  double mains_tolerance_pct = 5;  // +- of nominal mains
  double cable_nominal_c = 20;
  double cable_cold_c = 0;
  double cable_hot_c = 40;
  double length_tolerance_pct = 5;  // +- of cable length: routes are paced, not surveyed
  bool few_lamps = true;            // also judge each lamp alone on (highest volts)
  Extra extra;

  bool operator==(const Corners&) const = default;
};

struct Site {
  std::optional<double> latitude_deg;   // north positive
  std::optional<double> longitude_deg;  // east positive
  std::string time_zone;                // IANA name
  std::string address;
  double mains_v = 120;
  double mains_hz = 60;
  std::string ruleset = "us";
  DisplayUnits units = DisplayUnits::us;
  std::string currency = "USD";  // ISO 4217
  std::optional<Soil> soil;      // absent: not known
  Corners corners;
  Extra extra;

  bool operator==(const Site&) const = default;
};

struct Wish {
  std::string text;  // the client's own words
  Extra extra;

  bool operator==(const Wish&) const = default;
};

struct Client {
  std::string name;
  std::string contact;
  std::vector<Wish> wishes;
  std::string notes;
  Extra extra;

  bool operator==(const Client&) const = default;
};

// How this shop works: lengths of slack, waste, loading. Values of the trade by default (common practice, no source).
struct Practice {
  double slack_at_luminaire_m = 0.6;
  double slack_at_splice_m = 0.3;  // each cable end
  double slack_at_transformer_m = 1.0;
  double waste_pct = 10;
  double transformer_load_pct = 80;  // highest share of rating to be used
  double output_load_pct = 80;       // of each output's limit
  double staple_spacing_m = 3;
  Extra extra;

  bool operator==(const Practice&) const = default;
};

}  // namespace duskwire::job
