// SPDX-License-Identifier: Apache-2.0
// Catalogue items as plain values: generic goods of the trade with what each engine needs of them. A job carries its
// own copy of every item it uses; the stock catalogue and a shop's file have the same shape. Prices are integer minor
// units of the catalogue's currency. Ranges: docs/job-format.md.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "job/beam_shape.hpp"
#include "job/extra.hpp"

namespace duskwire::job {

enum class LampKind : std::uint8_t { regulated_led = 0, filament = 1, resistive = 2, constant_current_led = 3 };

enum class LuminaireKind : std::uint8_t {
  path = 0,
  bullet = 1,
  wall_wash = 2,
  well = 3,
  tree_downlight = 4,
  step = 5,
  strip = 6,
  bollard = 7,
  underwater = 8,
  retrofit_lamp = 9,
  halogen_lamp = 10,
};

struct LuminaireItem {
  std::string id;  // key within the catalogue, e.g. "bullet-6w-36"
  std::string title;
  LuminaireKind kind = LuminaireKind::path;
  LampKind lamp = LampKind::regulated_led;
  double power_w = 0;
  double power_va = 0;  // apparent power, >= power_w
  double rated_v = 12;
  double window_min_v = 0;      // the makers' window: the lamp should see no less ...
  double window_max_v = 0;      // ... and no more
  double v_cut_off = 0;         // LED kinds: dark below
  double v_regulation_min = 0;  // LED kinds: full light from here up
  double flux_lm = 0;
  double beam_deg = 0;  // full angle at half intensity; 360 for a ring
  BeamShape beam_shape = BeamShape::by_kind;
  std::string intensity_file;  // text of an LM-63 or EULUMDAT file, which then says how the light goes
  double colour_temperature_k = 2700;
  double mounting_height_m = 0;  // usual height of the light centre over grade
  double lead_length_m = 0;      // the lead it comes with
  double lead_area_mm2 = 0;
  std::int64_t price_minor = 0;
  double labour_min = 0;
  bool underwater_listed = false;
  Extra extra;

  bool operator==(const LuminaireItem&) const = default;
};

struct TransformerItem {
  std::string id;
  std::string title;
  double rating_va = 0;
  std::uint32_t output_count = 1;  // secondary circuits ("commons"), each with its own protection
  double output_limit_a = 25;
  std::vector<double> taps_v;  // no-load volts at nominal mains, ascending
  double r_own_ohm = 0;        // winding and lugs of one output
  double r_shared_ohm = 0;     // regulation in common
  double efficiency = 0.85;    // at full load, 0..1
  double core_loss_w = 0;
  bool outdoor_listed = true;
  bool pool_listed = false;
  std::int64_t price_minor = 0;
  double labour_min = 0;
  Extra extra;

  bool operator==(const TransformerItem&) const = default;
};

struct CableItem {
  std::string id;  // "12awg-2", "2.5mm2-2"
  std::string title;
  double area_mm2 = 0;
  std::optional<double> gauge_awg;  // set where it is sold by gauge
  double ohm_per_m_20c = 0;         // one conductor
  double ampacity_a = 0;            // the limit to be used where a ruleset has none
  double outer_diameter_mm = 0;
  bool direct_burial = true;
  double sold_step_m = 1;  // orders are rounded up to this
  std::int64_t price_minor_per_m = 0;
  double labour_min_per_m = 0;
  Extra extra;

  bool operator==(const CableItem&) const = default;
};

// How many conductors of which size a connector holds: `count_min..count_max` wires, each within the area range.
struct ConnectorFill {
  double area_min_mm2 = 0;
  double area_max_mm2 = 0;
  std::uint32_t count_min = 2;
  std::uint32_t count_max = 2;
  Extra extra;

  bool operator==(const ConnectorFill&) const = default;
};

struct ConnectorItem {
  std::string id;
  std::string title;
  std::vector<ConnectorFill> fills;
  bool sealed = false;  // listed for direct burial or wet places
  bool mechanically_held = false;
  bool serves_both_conductors = false;  // a hub box: one piece holds A and B apart from each other
  double contact_ohm = 0;               // per wire, when good
  std::int64_t price_minor = 0;
  double labour_min = 0;
  Extra extra;

  bool operator==(const ConnectorItem&) const = default;
};

enum class ControlKind : std::uint8_t {
  astronomic_timer = 0,
  mechanical_timer = 1,
  photocell = 2,
  surge = 3,
  other = 4
};

struct ControlItem {
  std::string id;
  std::string title;
  ControlKind kind = ControlKind::astronomic_timer;
  std::int64_t price_minor = 0;
  double labour_min = 0;
  Extra extra;

  bool operator==(const ControlItem&) const = default;
};

enum class SundryKind : std::uint8_t {
  stake = 0,
  staple = 1,
  sleeve = 2,
  tag = 3,
  post_mount = 4,
  tree_mount = 5,
  drainage = 6,
  other = 7
};

struct SundryItem {
  std::string id;
  std::string title;
  SundryKind kind = SundryKind::other;
  std::string unit = "piece";  // "piece" or "m"
  std::int64_t price_minor = 0;
  double labour_min = 0;
  Extra extra;

  bool operator==(const SundryItem&) const = default;
};

struct Catalogue {
  std::string currency = "USD";  // ISO 4217
  std::vector<LuminaireItem> luminaires;
  std::vector<TransformerItem> transformers;
  std::vector<CableItem> cables;
  std::vector<ConnectorItem> connectors;
  std::vector<ControlItem> controls;
  std::vector<SundryItem> sundries;
  Extra extra;

  bool operator==(const Catalogue&) const = default;
};

// The item of that id, or nullptr.
[[nodiscard]] const LuminaireItem* find_luminaire(const Catalogue& catalogue, const std::string& id);
[[nodiscard]] const TransformerItem* find_transformer(const Catalogue& catalogue, const std::string& id);
[[nodiscard]] const CableItem* find_cable(const Catalogue& catalogue, const std::string& id);
[[nodiscard]] const ConnectorItem* find_connector(const Catalogue& catalogue, const std::string& id);

}  // namespace duskwire::job
