// SPDX-License-Identifier: Apache-2.0
// The checks that rules name, one function each, and the table of them. A check reads its limits from the rule and
// never has one of its own. Internal to the room.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "study/rule_context.hpp"

namespace duskwire::study {

struct RuleCheck {
  std::string_view name;  // Rule::check
  Findings (*judge)(const RuleContext& context, const Rule& rule);
  std::vector<std::string> values;  // names that the rule must have
  std::vector<std::string> tables;
};

[[nodiscard]] const std::vector<RuleCheck>& rule_checks();

// Outputs and transformers (rule_checks_power.cpp).
[[nodiscard]] Findings check_tap_voltage(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_output_current(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_output_protection(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_output_load(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_output_va(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_transformer_load(const RuleContext& context, const Rule& rule);

// Cables (rule_checks_cable.cpp).
[[nodiscard]] Findings check_ampacity(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_small_wire_protection(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_conductor_size(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_cable_burial(const RuleContext& context, const Rule& rule);

// Loose cable (rule_checks_slack.cpp).
[[nodiscard]] Findings check_slack(const RuleContext& context, const Rule& rule);

// Ground and water (rule_checks_cover.cpp, rule_checks_water.cpp).
[[nodiscard]] Findings check_cover_depth(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_splice_under_surface(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_water_distance(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_transformer_water(const RuleContext& context, const Rule& rule);

// Where the transformer hangs and what feeds it (rule_checks_supply.cpp).
[[nodiscard]] Findings check_transformer_height(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_transformer_listing(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_receptacle_gfci(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_receptacle_cover(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_extension_cord(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_branch_circuit(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_branch_load(const RuleContext& context, const Rule& rule);

// Joints (rule_checks_joint.cpp).
[[nodiscard]] Findings check_connector_fill(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_connector_count(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_connector_sealed(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_connector_held(const RuleContext& context, const Rule& rule);

// Lamps (rule_checks_lamp.cpp).
[[nodiscard]] Findings check_lamp_window(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_voltage_drop(const RuleContext& context, const Rule& rule);
[[nodiscard]] Findings check_mixed_lamps(const RuleContext& context, const Rule& rule);

}  // namespace duskwire::study
