// SPDX-License-Identifier: Apache-2.0
// The shapes of the requests in requests.hpp.
#pragma once

#include "formats/enum_names.hpp"
#include "formats/requests.hpp"
#include "formats/shape.hpp"
#include "formats/shape_catalogue.hpp"
#include "formats/shape_site.hpp"

namespace duskwire::formats {

constexpr auto names(Of<study::Spread>) { return std::array{"chain", "end", "hub", "tee"}; }

constexpr const char* type_name(Of<CheckRequest>) { return "check request"; }
constexpr const char* type_name(Of<study::Question>) { return "question"; }
constexpr const char* type_name(Of<StartRequest>) { return "start request"; }
constexpr const char* type_name(Of<study::RoutePins>) { return "pins"; }
constexpr const char* type_name(Of<estimate::InstallRates>) { return "install rates"; }
constexpr const char* type_name(Of<study::RouteRequest>) { return "route request"; }

template <class Visitor>
void describe(Of<CheckRequest>, Visitor& v) {
  using T = CheckRequest;
  v.field("cures", &T::cures, Flag{}, optional, "Whether to search for cures of what is found");
  v.field("ruleset", &T::ruleset, Text{longest_id}, optional, "Id of the rules to judge by");
}

template <class Visitor>
void describe(Of<study::Question>, Visitor& v) {
  using T = study::Question;
  v.field("lamps", &T::lamps, Number{1, study::most_asked_lamps, ""}, optional, "How many lamps");
  v.field("length_m", &T::length_m, Number{0, study::most_asked_length_m, "m", true}, optional,
          "Along the cable to the farthest lamp");
  v.field("tap_v", &T::tap_v, Number{0, 60, "V", true}, optional, "No-load volts");
  v.field("cable", &T::cable, Part{}, optional, "The cable as a catalogue item");
  v.field("lamp_w", &T::lamp_w, Number{0, 2000, "W", true}, optional, "Real power of one lamp");
  v.field("power_factor", &T::power_factor, Number{0.05, 1, ""}, optional, "Watts over volt-amperes");
  v.field("spread", &T::spread, OneOf{}, optional, "Where the lamps are along the cable");
  v.field("source_ohm", &T::source_ohm, Number{0, 10, "ohm"}, optional, "Winding behind the tap");
  v.field("window_min_v", &T::window_min_v, Number{0, 60, "V", true}, optional, "Lowest volts that a lamp should see");
  v.field("window_max_v", &T::window_max_v, Number{0, 60, "V", true}, optional, "Highest volts that a lamp should see");
  v.field("cut_off_v", &T::cut_off_v, Number{0, 60, "V"}, optional, "Dark below");
  v.field("mains_tolerance_pct", &T::mains_tolerance_pct, Number{0, 30, "%"}, optional, "Mains up and down");
  v.field("cable_c", &T::cable_c, Number{-40, 150, "C"}, optional, "Temperature of the cable");
  v.field("lead_length_m", &T::lead_length_m, Number{0, 100, "m"}, optional, "Hub: the lead of each lamp");
  v.field("lead_ohm_per_m_20c", &T::lead_ohm_per_m_20c, Number{0, 10, "ohm/m", true}, optional,
          "Hub: resistance of one conductor of the lead");
  v.field("taps_v", &T::taps_v, Numbers{{0, 60, "V", true}, 1, 24, true}, optional, "Taps to choose from");
}

template <class Visitor>
void describe(Of<StartRequest>, Visitor& v) {
  using T = StartRequest;
  constexpr std::uint32_t longest_table = 4'000'000;
  v.field("title", &T::title, Text{200}, optional, "Name of the job");
  v.field("created", &T::created, Text{40, Form::date_or_time}, optional, "Today");
  v.field("site", &T::site, Part{}, optional, "Where it is and by which rules");
  v.field("lamps_csv", &T::lamps_csv, Text{longest_table}, required, "The table of lamps");
}

// Ids of a request are not looked up here: the planner names those that the job does not have.
inline constexpr Texts pinned_ids{{longest_id, Form::name}, 20'000};

template <class Visitor>
void describe(Of<study::RoutePins>, Visitor& v) {
  using T = study::RoutePins;
  v.field("kept_cables", &T::kept_cables, pinned_ids, optional, "Cables that stay as they are");
  v.field("forbidden_trenches", &T::forbidden_trenches, pinned_ids, optional,
          "Cables along whose way of today nothing is dug");
  v.field("own_outputs", &T::own_outputs, pinned_ids, optional, "Luminaires that get an output each");
  v.field("kept_transformers", &T::kept_transformers, pinned_ids, optional,
          "Transformers that keep their item and place");
}

template <class Visitor>
void describe(Of<estimate::InstallRates>, Visitor& v) {
  using T = estimate::InstallRates;
  v.field("labour_minor_per_h", &T::labour_minor_per_h, Number{0, most_labour_minor_per_h, "minor units per hour"},
          optional, "An hour's cost to the shop");
}

template <class Visitor>
void describe(Of<study::RouteRequest>, Visitor& v) {
  using T = study::RouteRequest;
  v.field("pins", &T::pins, Part{}, optional, "What is held fast");
  v.field("no_hub", &T::no_hub, Flag{}, optional, "No joint of more than three wires per conductor");
  v.field("splice_every_lead", &T::splice_every_lead, Flag{}, optional,
          "A cable never ends in a luminaire that has a lead of its own");
  v.field("reserve_pct", &T::reserve_pct, Number{0, most_reserve_pct, "%"}, optional,
          "Room for lamps added later: all loads grow by so much");
  v.field("most_cable_types", &T::most_cable_types, Number{0, most_cable_types, ""}, optional,
          "Different cables at most; 0: as many as pay");
  v.field("seed", &T::seed, Number{0, most_whole, ""}, optional, "Another number searches another way");
  v.field("most_steps", &T::most_steps, Number{0, most_whole, ""}, optional, "Steps at most; 0: until told to stop");
  v.field("rates", &T::rates, Part{}, optional, "What an hour costs");
}

}  // namespace duskwire::formats
