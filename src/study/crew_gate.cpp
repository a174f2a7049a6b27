// SPDX-License-Identifier: Apache-2.0
#include "study/crew_gate.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "study/wording.hpp"

namespace duskwire::study {
namespace {

GateLine to_confirm(std::string id, std::string text, std::string detail = {}) {
  return {std::move(id), GateState::to_confirm, std::move(text), std::move(detail)};
}

GateLine blocked(std::string id, std::string text, std::string detail) {
  return {std::move(id), GateState::blocked, std::move(text), std::move(detail)};
}

const job::Receptacle* find_receptacle(const job::Plan& plan, const std::string& id) {
  const auto found = std::find_if(plan.receptacles.begin(), plan.receptacles.end(),
                                  [&](const job::Receptacle& receptacle) { return receptacle.id == id; });
  return found == plan.receptacles.end() ? nullptr : &*found;
}

GateLine supply_line(const job::Job& job, const job::Transformer& transformer) {
  const std::string id = "receptacle/" + transformer.id;
  const std::string name = called(transformer.id, transformer.name);
  const std::string text = fmt::format("Supply of {} is there, protected and tested.", name);
  const job::Receptacle* receptacle = find_receptacle(job.plan, transformer.receptacle);
  if (transformer.extension_cord) {
    return blocked(id, text, "The job has it on an extension cord. An outlet has to be set beside it first.");
  }
  if (!receptacle) return blocked(id, text, "The plan names no receptacle for it.");
  if (!receptacle->gfci) {
    return blocked(id, text,
                   fmt::format("{} has no residual-current protection. An electrician fits it first.", receptacle->id));
  }
  const bool wet_plug = transformer.mounting != job::Mounting::indoors && !receptacle->in_use_cover;
  if (wet_plug) {
    return blocked(id, text, fmt::format("{} has no cover that closes over a plug.", receptacle->id));
  }
  return to_confirm(id, text,
                    fmt::format("{}: residual-current protected{} by the plan. Press its test button: it must trip.",
                                receptacle->id, receptacle->in_use_cover ? ", cover closes over the plug" : ""));
}

std::string height_words(const std::vector<CrewAim>& aims) {
  std::vector<std::string> high;
  for (const CrewAim& aim : aims) {
    if (aim.on_ladder) high.push_back(aim.id);
  }
  return high.empty() ? std::string() : listed(high);
}

void add_sleeves(const job::Job& job, CrewGate& gate) {
  if (job.plan.sleeves.empty()) return;
  std::vector<std::string> laid;
  std::vector<std::string> missing;
  for (const job::Sleeve& sleeve : job.plan.sleeves) {
    (sleeve.laid.value_or(false) ? laid : missing).push_back(sleeve.id);
  }
  std::string detail;
  if (!laid.empty()) detail = fmt::format("In the ground: {}. ", listed(laid));
  if (!missing.empty()) detail += fmt::format("Still to be laid, unless it is found: {}.", listed(missing));
  gate.lines.push_back(
      to_confirm("sleeves", "Sleeves are in the ground, open at both ends, and found.", std::move(detail)));
}

void add_findings(const Report& report, CrewGate& gate) {
  for (const Finding& finding : report.findings) {
    if (finding.severity != Severity::error) continue;
    gate.lines.push_back(blocked("finding/" + finding.id + "/" + finding.subject,
                                 "An error of the plan is cured in the office first.", finding.message));
  }
}

std::vector<std::string> cautions_of(const job::Job& job, const std::string& high) {
  const bool us = job.site.units == job::DisplayUnits::us;
  std::vector<std::string> cautions = {
      fmt::format("Dig by hand within {} of any mark. Stop where a mark and the ground disagree.",
                  us ? "24 in" : "600 mm"),
      "Do not cut roots under a crown: go round, or dig by hand and pull the cable below them.",
      fmt::format("{:g} V work is for a licensed electrician. Local code and the maker's instructions win over this "
                  "paper.",
                  job.site.mains_v),
      "Low volts can still start a fire. A warm cable or lug means stop. Never fit a larger breaker, never join two "
      "outputs or taps.",
      "Switch off and unplug before a joint is opened. Read live volts at dry, open places only.",
      "A residual-current device that keeps tripping is a finding, not a nuisance. Never swap it for a plain outlet.",
      "Twist or crimp tight first, then seal. Never bury a joint without its record: picture, two tape offsets, depth.",
      "Keep cable, joints and transformers out of the pool zone unless the plan shows pool-listed goods there.",
  };
  if (!high.empty()) {
    cautions.push_back(
        fmt::format("{}: ladder work for trained people. Look for power lines near the tree first.", high));
  }
  return cautions;
}

}  // namespace

CrewGate crew_gate(const job::Job& job, const Report& report, const std::vector<CrewAim>& aims) {
  CrewGate gate;
  gate.lines.push_back(to_confirm("public-marks",
                                  "Public utility lines: located, waited for, marks seen on the ground.",
                                  "Ticket number and the date from which digging is allowed:"));
  gate.lines.push_back(
      to_confirm("private-lines",
                 "Private lines marked: irrigation, gas to a grill or a heater, pet fence, drains, old lighting. The "
                 "public service does not mark these.",
                 job.client.notes.empty() ? std::string() : "The job's notes: " + job.client.notes));
  for (const job::Transformer& transformer : job.transformers) gate.lines.push_back(supply_line(job, transformer));
  gate.lines.push_back(
      to_confirm("electrician", fmt::format("The electrician's part is done and tested: outlets, hard wiring, "
                                            "breakers, all of it at {:g} V.",
                                            job.site.mains_v)));
  gate.lines.push_back(to_confirm("permits", "Permit and licence: asked for at the local authority, paper on site.",
                                  "Some places want one for low-voltage work too."));
  add_sleeves(job, gate);
  add_findings(report, gate);
  gate.lines.push_back(to_confirm("scope", "The owner has signed this scope, and knows when water and power go off."));
  gate.cautions = cautions_of(job, height_words(aims));
  return gate;
}

bool is_blocked(const CrewGate& gate) {
  return std::any_of(gate.lines.begin(), gate.lines.end(),
                     [](const GateLine& line) { return line.state == GateState::blocked; });
}

}  // namespace duskwire::study
