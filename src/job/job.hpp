// SPDX-License-Identifier: Apache-2.0
// The job: everything that one garden needs over its life, as plain values. `formats` reads and writes it, `study`
// translates it for the engines. Luminaires, outputs and joints share one space of ids, since a cable ends at any of
// them.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "geometry/point.hpp"
#include "job/catalogue.hpp"
#include "job/extra.hpp"
#include "job/light_plan.hpp"
#include "job/offer.hpp"
#include "job/plan.hpp"
#include "job/programme.hpp"
#include "job/site.hpp"
#include "job/view.hpp"
#include "job/visit.hpp"

namespace duskwire::job {

inline constexpr int format_version = 1;

struct Luminaire {
  std::string id;
  std::string name;
  std::string item;  // LuminaireItem
  std::optional<geometry::Point3> position;
  double azimuth_deg = 0;  // aim: clockwise from north
  double tilt_deg = 0;     // aim: 0 level, 90 up, -90 down
  double dim_pct = 100;
  std::optional<double> shield_cut_off_deg;  // a shield hides the lamp from eyes farther than this off its axis
  std::string zone;
  std::string joint;                    // joint where its own lead is spliced; empty if a cable ends at the luminaire
  std::optional<double> lead_length_m;  // where its own lead is not as long as the item's
  std::optional<double> slack_m;        // loose cable at this fixture where it differs from the practice
  Extra extra;

  bool operator==(const Luminaire&) const = default;
};

struct Output {
  std::string id;                 // unique in the job: a cable starts at it
  double tap_v = 0;               // one of the item's taps
  std::optional<double> limit_a;  // where a smaller protective device is fitted
  Extra extra;

  bool operator==(const Output&) const = default;
};

enum class Mounting : std::uint8_t { wall = 0, post = 1, indoors = 2 };

struct Transformer {
  std::string id;
  std::string name;
  std::string item;  // TransformerItem
  std::optional<geometry::Point2> position;
  double mounting_height_m = 0.3;  // lower edge over grade
  Mounting mounting = Mounting::wall;
  std::string receptacle;  // id in the plan; empty: not known
  bool extension_cord = false;
  std::vector<std::string> controls;  // ControlItem ids
  std::vector<Output> outputs;
  Extra extra;

  bool operator==(const Transformer&) const = default;
};

struct Cable {
  std::string id;
  std::string item;  // CableItem
  std::string from;  // id of an output, joint or luminaire
  std::string to;
  geometry::Polyline path;             // route on the plan, ends included; may be empty
  std::optional<double> length_m;      // one way, without slack; where absent the path's length
  std::optional<double> slack_from_m;  // where it differs from the practice
  std::optional<double> slack_to_m;
  std::optional<double> depth_m;     // cover over the cable
  std::optional<GroundKind> ground;  // what it lies under where the plan does not tell
  std::string sleeve;                // id in the plan
  bool crossed = false;              // conductors swapped at `to` (seen on site)
  Extra extra;

  bool operator==(const Cable&) const = default;
};

enum class JointKind : std::uint8_t { in_line = 0, branch = 1, hub = 2, end_of_run = 3 };

struct AsBuilt {
  std::string fixed_point_1;  // ids in the plan
  std::string fixed_point_2;
  std::optional<double> offset_1_m;
  std::optional<double> offset_2_m;
  std::optional<double> depth_m;
  std::vector<std::string> pictures;  // content hashes
  std::string recorded;               // ISO 8601 date or time
  bool done = false;
  Extra extra;

  bool operator==(const AsBuilt&) const = default;
};

struct Joint {
  std::string id;
  std::string name;
  JointKind kind = JointKind::in_line;
  std::optional<geometry::Point2> position;
  std::string connector;                         // ConnectorItem; empty: not chosen yet
  std::optional<std::uint32_t> connector_count;  // pieces as fitted; where absent one per conductor
  bool buried = true;                            // in the ground, not inside a fixture or an enclosure
  std::optional<AsBuilt> as_built;
  Extra extra;

  bool operator==(const Joint&) const = default;
};

struct Job {
  std::string id;
  std::string title;
  std::string created;  // ISO 8601 date
  Site site;
  Client client;
  Practice practice;
  Catalogue catalogue;
  Plan plan;
  LightPlan light;
  std::vector<Luminaire> luminaires;
  std::vector<Transformer> transformers;
  std::vector<Cable> cables;
  std::vector<Joint> joints;
  std::vector<View> views;  // photographs
  std::vector<ProgrammeEntry> programme;
  std::optional<Offer> offer;
  std::vector<Visit> visits;
  Extra extra;

  bool operator==(const Job&) const = default;
};

}  // namespace duskwire::job
