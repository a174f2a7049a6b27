// SPDX-License-Identifier: Apache-2.0
// A small report made by hand, for the tests of the pages: the numbers only have to be told apart.
#pragma once

#include "cli/check_page.hpp"

namespace duskwire::cli::sample {

inline job::Job job() {
  job::Job job;
  job.title = "Test garden";
  for (const auto& [id, name] :
       {std::pair{"L1", "Gate"}, {"L2", "Oak, from the far side of the lawn"}, {"L3", "Shed"}}) {
    job::Luminaire lamp;
    lamp.id = id;
    lamp.name = name;
    job.luminaires.push_back(lamp);
  }
  job::Transformer transformer;
  transformer.id = "T1";
  transformer.name = "Garage wall";
  job.transformers.push_back(transformer);
  return job;
}

inline study::LampReport lamp(const std::string& id, double low_v, double now_v, double high_v, double distance_m) {
  study::LampReport lamp;
  lamp.id = id;
  lamp.nominal_v = now_v;
  lamp.worst_low_v = low_v;
  lamp.worst_high_v = high_v;
  lamp.window_min_v = 10;
  lamp.window_max_v = 15;
  lamp.current_a = 0.5;
  lamp.state = electrical::LampState::regulated;
  lamp.worst_state = electrical::LampState::regulated;
  lamp.light = 1;
  lamp.output = "T1-A";
  lamp.distance_m = distance_m;
  return lamp;
}

inline study::Finding finding() {
  study::Finding finding;
  finding.id = "lamp-window";
  finding.severity = Severity::error;
  finding.subject = "L2";
  finding.message = "L2 falls to 9.62 V at worst, below the 10 V that its maker asks for.";
  finding.measured = 9.62;
  finding.limit = 10;
  finding.unit = "V";
  finding.provenance = {"window of the item", "", "computed", ""};
  finding.cures = {{"Set output T1-A to its 14 V tap: L2 then sees 10.71 V at worst.", {}},
                   {"Pull 10 AWG instead of 12 AWG from T1-A to J1.", {}}};
  return finding;
}

inline study::Report report() {
  study::Report report;
  report.lamps = {lamp("L2", 9.62, 10.4, 11.3, 40), lamp("L1", 11.2, 12.1, 13.0, 12), lamp("L3", 11.0, 11.9, 12.8, 20)};
  study::OutputReport output;
  output.id = "T1-A";
  output.transformer = "T1";
  output.tap_v = 13;
  output.terminal_v = 12.85;
  output.current_a = 3.59;
  output.worst_current_a = 3.9;
  output.limit_a = 25;
  output.load_share = 0.156;
  output.lowest_lamp_v = 9.62;
  output.highest_lamp_v = 13.0;
  output.lamp_count = 3;
  output.far_short_a = 19.8;
  output.far_short_at = "L2";
  report.outputs = {output};
  study::TransformerReport unit;
  unit.id = "T1";
  unit.lamp_va = 42;
  unit.worst_load_va = 48.1;
  unit.rating_va = 150;
  unit.headroom_va = 101.9;
  unit.load_share = 0.32;
  report.transformers = {unit};
  report.margin = {1.34, false, "L2", 1.51, false, "L2"};
  report.findings = {finding()};
  report.lamp_va = 42;
  return report;
}

inline study::Ruleset ruleset() {
  study::Ruleset ruleset;
  ruleset.id = "us";
  ruleset.title = "United States";
  return ruleset;
}

}  // namespace duskwire::cli::sample
