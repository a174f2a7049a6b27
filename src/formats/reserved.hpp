// SPDX-License-Identifier: Apache-2.0
// The reserved parts of a job (programme, offer, visits) as plain values, to check their shape. The job keeps
// their text whole; only an hour's cost in the offer is computed with yet (offer_rates.hpp).
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "job/extra.hpp"

namespace duskwire::formats {

enum class SwitchBase : std::uint8_t { clock = 0, sunset = 1, sunrise = 2 };

struct SwitchRule {
  SwitchBase at = SwitchBase::clock;
  std::string time;       // where `at` is clock
  double offset_min = 0;  // where `at` is the sun
  job::Extra extra;
};

struct ProgrammeEntry {
  std::string id;
  std::string name;
  std::vector<std::string> zones;         // empty: all
  std::vector<std::string> transformers;  // empty: all
  std::vector<std::string> days;          // empty: every day
  std::string from_day;
  std::string to_day;
  SwitchRule on;
  SwitchRule off;
  double dim_pct = 100;
  job::Extra extra;
};

struct Rates {
  std::optional<std::int64_t> labour_price_minor_per_h;
  std::optional<std::int64_t> labour_cost_minor_per_h;
  std::optional<std::int64_t> trip_price_minor;
  job::Extra extra;
};

struct Margins {
  std::optional<double> material_markup_pct;
  std::optional<double> margin_floor_pct;
  std::optional<double> contingency_pct;
  std::optional<double> tax_pct;
  job::Extra extra;
};

struct Warranty {
  std::string subject;
  double years = 0;
  job::Extra extra;
};

struct Terms {
  std::optional<double> deposit_pct;
  std::optional<std::int64_t> deposit_cap_minor;
  std::optional<double> valid_days;
  std::vector<std::string> exclusions;
  std::vector<Warranty> warranties;
  std::string text;
  job::Extra extra;
};

struct OfferOption {
  std::string id;
  std::string title;
  std::string text;
  std::vector<std::string> luminaires;
  bool chosen = false;
  job::Extra extra;
};

struct Offer {
  std::string number;
  std::string date;
  Rates rates;
  Margins margins;
  Terms terms;
  std::vector<OfferOption> options;
  job::Extra extra;
};

struct Reading {
  std::string place;
  std::string quantity;
  double value = 0;
  std::string unit;
  std::string note;
  job::Extra extra;
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
  std::string date;
  VisitKind kind = VisitKind::other;
  std::string by;
  std::string meter;
  std::string weather;
  std::vector<Reading> readings;
  std::vector<std::string> pictures;
  std::string notes;
  job::Extra extra;
};

}  // namespace duskwire::formats
