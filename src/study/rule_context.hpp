// SPDX-License-Identifier: Apache-2.0
// What every rule check works with: the job, its solved report, look-ups built once, and the making of findings.
// Internal to the room.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "estimate/cable_length.hpp"
#include "estimate/joint_wires.hpp"
#include "job/job.hpp"
#include "job/plan_ground.hpp"
#include "study/report.hpp"
#include "study/rules.hpp"

namespace duskwire::study {

struct OutputPlace {
  const job::Transformer* transformer = nullptr;
  const job::Output* output = nullptr;
  const job::TransformerItem* item = nullptr;  // nothing: not in the job's catalogue
  std::string pointer;
};

// References live as long as the call of judge().
struct RuleContext {
  RuleContext(const job::Job& job, const Ruleset& ruleset, const Report& report, const job::Catalogue& stock);

  const job::Job& job;
  const Ruleset& ruleset;
  const Report& report;
  const job::Catalogue& stock;
  job::PlanGround ground;
  estimate::EndIndex ends;
  std::vector<std::vector<estimate::JointWire>> joint_wires;  // index by index as job.joints
  std::unordered_map<std::string_view, OutputPlace> outputs;
  std::unordered_map<std::string_view, const LampReport*> lamp_reports;
  std::unordered_map<std::string_view, const CableReport*> cable_reports;

  [[nodiscard]] job::DisplayUnits units() const { return job.site.units; }
  // Nothing for an id that is no output of the job.
  [[nodiscard]] const OutputPlace* output(std::string_view id) const;
  // The outputs in the order of the job.
  [[nodiscard]] std::vector<const OutputPlace*> outputs_in_order() const;
};

// The protective device of an output as fitted: its own, else the item's; nothing where neither is known.
[[nodiscard]] std::optional<double> device_limit_a(const OutputPlace& place);

struct Place {
  std::string subject;
  std::string pointer;
};
[[nodiscard]] Place place_of(const char* collection, std::size_t index, const std::string& id);

struct Measure {
  double measured = 0;
  double limit = 0;
  const char* unit = "";
};

[[nodiscard]] Finding finding_of(const RuleContext& context, const Rule& rule, Place place, std::string message);
[[nodiscard]] Finding finding_of(const RuleContext& context, const Rule& rule, Place place, const Measure& measure,
                                 std::string message);
// A note that the rule could not be judged for some objects, and what to add to the job.
[[nodiscard]] Finding not_judged(const RuleContext& context, const Rule& rule, const std::string& pointer,
                                 std::string message);

[[nodiscard]] std::optional<double> optional_value(const Rule& rule, const std::string& name);
// Precondition: the rule has it (rules that lack what their check needs are not judged at all).
[[nodiscard]] double value(const Rule& rule, const std::string& name);
[[nodiscard]] const std::map<std::string, double>& table(const Rule& rule, const std::string& name);

// Beyond the limit by more than rounding of the last bits.
[[nodiscard]] bool exceeds(double measured, double limit);

[[nodiscard]] job::Change change(job::ChangeKind kind, const std::string& target, double number);
[[nodiscard]] job::Change change(job::ChangeKind kind, const std::string& target, const std::string& text);

}  // namespace duskwire::study
