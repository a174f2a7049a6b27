// SPDX-License-Identifier: Apache-2.0
#include "study/rule_checks.hpp"

namespace duskwire::study {

const std::vector<RuleCheck>& rule_checks() {
  static const std::vector<RuleCheck> checks = {
      {"tap-voltage", check_tap_voltage, {"limit_v"}, {}},
      {"output-current", check_output_current, {"limit_a"}, {}},
      {"output-protection", check_output_protection, {"limit_a"}, {}},
      {"output-load", check_output_load, {}, {}},
      {"output-va", check_output_va, {"limit_va"}, {}},
      {"transformer-load", check_transformer_load, {}, {}},
      {"ampacity", check_ampacity, {"share_pct"}, {"ampacity_a"}},
      {"small-wire-protection", check_small_wire_protection, {}, {"limit_a"}},
      {"conductor-size", check_conductor_size, {"area_mm2", "short_area_mm2", "short_length_m"}, {}},
      {"cable-burial", check_cable_burial, {}, {}},
      {"slack", check_slack, {}, {"slack_m"}},
      {"cover-depth", check_cover_depth, {}, {"cover_m"}},
      {"splice-under-surface", check_splice_under_surface, {}, {"surface"}},
      {"water-distance", check_water_distance, {"contact_limit_v"}, {"distance_m"}},
      {"transformer-water", check_transformer_water, {}, {"distance_m"}},
      {"transformer-height", check_transformer_height, {"height_m"}, {}},
      {"transformer-listing", check_transformer_listing, {}, {}},
      {"receptacle-gfci", check_receptacle_gfci, {}, {}},
      {"receptacle-cover", check_receptacle_cover, {}, {}},
      {"extension-cord", check_extension_cord, {}, {}},
      {"branch-circuit", check_branch_circuit, {"limit_a"}, {}},
      {"branch-load", check_branch_load, {"share_pct"}, {}},
      {"connector-fill", check_connector_fill, {}, {}},
      {"connector-count", check_connector_count, {}, {}},
      {"connector-sealed", check_connector_sealed, {}, {}},
      {"connector-held", check_connector_held, {}, {}},
      {"lamp-window", check_lamp_window, {}, {}},
      {"voltage-drop", check_voltage_drop, {"drop_pct"}, {}},
      {"mixed-lamps", check_mixed_lamps, {}, {}},
  };
  return checks;
}

}  // namespace duskwire::study
