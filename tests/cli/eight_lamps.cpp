// SPDX-License-Identifier: Apache-2.0
#include "eight_lamps.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

namespace duskwire::cli {

using Json = nlohmann::json;

Json eight_lamps() {
  Json job = Json::parse(R"({"format": "duskwire-job", "version": 1, "id": "eight", "site": {"mains_v": 120,
    "mains_hz": 60, "ruleset": "us", "units": "metric", "currency": "USD", "corners": {"mains_tolerance_pct": 5,
    "cable_nominal_c": 20, "cable_cold_c": 20, "cable_hot_c": 20, "length_tolerance_pct": 0, "few_lamps": false}},
    "practice": {"slack_at_luminaire_m": 0, "slack_at_splice_m": 0, "slack_at_transformer_m": 0},
    "catalogue": {"currency": "USD",
      "luminaires": [{"id": "four", "title": "Light of 4 VA", "kind": "bullet", "lamp": "regulated_led", "power_w": 4,
        "power_va": 4, "window_min_v": 10, "window_max_v": 15, "v_regulation_min": 10, "v_cut_off": 7,
        "lead_area_mm2": 2.0809}],
      "transformers": [{"id": "unit", "title": "Transformer of 300 VA", "rating_va": 300, "output_count": 2,
        "output_limit_a": 25, "taps_v": [12, 13, 14, 15], "r_own_ohm": 0, "r_shared_ohm": 0}],
      "cables": [{"id": "12awg", "title": "Cable 12 AWG", "area_mm2": 3.3088, "gauge_awg": 12,
        "ohm_per_m_20c": 0.005211, "direct_burial": true}],
      "connectors": [{"id": "hub", "title": "Hub", "sealed": true, "mechanically_held": true, "contact_ohm": 0,
        "fills": [{"area_min_mm2": 0.5, "area_max_mm2": 6, "count_min": 1, "count_max": 10}]}]},
    "transformers": [{"id": "T", "item": "unit",
      "outputs": [{"id": "T-A", "tap_v": 13}, {"id": "T-B", "tap_v": 13}]}],
    "luminaires": [], "cables": [], "joints": [], "visits": []})");
  const auto add = [&](const std::string& cable, const std::string& from, const std::string& joint,
                       const std::string& lamp, double length_m) {
    job["cables"].push_back({{"id", cable}, {"item", "12awg"}, {"from", from}, {"to", joint}, {"length_m", length_m}});
    job["joints"].push_back({{"id", joint}, {"kind", "in_line"}, {"connector", "hub"}});
    job["luminaires"].push_back({{"id", lamp}, {"item", "four"}, {"joint", joint}, {"lead_length_m", 0}});
  };
  for (int k = 1; k <= 8; ++k) {
    add(fmt::format("C{}", k), k == 1 ? "T-A" : fmt::format("J{}", k - 1), fmt::format("J{}", k), fmt::format("F{}", k),
        k == 1 ? 18 : 4.5);
  }
  add("D1", "T-B", "H1", "G1", 18);
  add("D2", "H1", "H2", "G2", 4.5);
  return job;
}

}  // namespace duskwire::cli
