// SPDX-License-Identifier: Apache-2.0
// Rule checks of joints: does the connector hold these wires, one for each conductor, sealed and held in the ground.
#include <fmt/format.h>

#include <algorithm>

#include "estimate/connector_choice.hpp"
#include "study/rule_checks.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using estimate::JointWire;

std::uint32_t least_pieces(const job::ConnectorItem& item) { return item.serves_both_conductors ? 1 : 2; }

std::uint32_t pieces_as_fitted(const job::Joint& joint, const job::ConnectorItem& item) {
  return std::max(joint.connector_count.value_or(least_pieces(item)), least_pieces(item));
}

bool sizes_known(const std::vector<JointWire>& wires) {
  return std::all_of(wires.begin(), wires.end(), [](const JointWire& wire) { return wire.area_mm2.has_value(); });
}

struct Sizes {
  double thinnest_mm2 = 0;
  double thickest_mm2 = 0;
};

Sizes sizes_of(const std::vector<JointWire>& wires) {
  const auto [thin, thick] = std::minmax_element(
      wires.begin(), wires.end(), [](const JointWire& p, const JointWire& q) { return *p.area_mm2 < *q.area_mm2; });
  return {*thin->area_mm2, *thick->area_mm2};
}

std::string words(const Sizes& sizes, job::DisplayUnits units) {
  const std::string thin = conductor_words(sizes.thinnest_mm2, units);
  const std::string thick = conductor_words(sizes.thickest_mm2, units);
  return thin == thick ? thin : fmt::format("{} to {}", thin, thick);
}

bool holds(const job::ConnectorItem& item, std::uint32_t pieces, const std::vector<JointWire>& wires) {
  const std::optional<estimate::ConnectorFit> fit = estimate::connector_fit(item, wires);
  return fit && estimate::pieces_for_both(item, *fit) <= pieces;
}

// How few and how many wires of these sizes such pieces hold; 0 and 0: none at all.
struct Capacity {
  std::size_t least = 0;
  std::size_t most = 0;
};

Capacity capacity(const job::ConnectorItem& item, std::uint32_t pieces, const Sizes& sizes) {
  constexpr std::size_t most_tried = 64;
  Capacity capacity;
  std::vector<JointWire> wires = {{sizes.thinnest_mm2, {}, {}}};
  while (wires.size() < most_tried) {
    wires.push_back({sizes.thickest_mm2, {}, {}});
    if (!holds(item, pieces, wires)) continue;
    if (capacity.least == 0) capacity.least = wires.size();
    capacity.most = wires.size();
  }
  return capacity;
}

// The cheapest connector that holds the wires and may lie in the ground, of the stock or else of the job.
std::optional<Cure> other_connector(const RuleContext& context, std::size_t index) {
  const job::Joint& joint = context.job.joints[index];
  const std::vector<JointWire>& wires = context.joint_wires[index];
  std::optional<estimate::ConnectorChoice> choice = estimate::choose_connector(wires, context.stock);
  if (!choice) choice = estimate::choose_connector(wires, context.job.catalogue);
  if (!choice) return std::nullopt;
  Cure cure;
  cure.text =
      fmt::format("Use '{}', {}{}: it holds {}, sealed and mechanically held.", choice->item->title,
                  counted(choice->pieces, "piece"), choice->fit.pigtails_per_conductor > 0 ? " linked by pigtails" : "",
                  counted(wires.size(), "such wire"));
  cure.changes.push_back(change(job::ChangeKind::set_connector, joint.id, choice->item->id));
  if (joint.connector_count.value_or(least_pieces(*choice->item)) != choice->pieces) {
    cure.changes.push_back(change(job::ChangeKind::set_connector_count, joint.id, double(choice->pieces)));
  }
  return cure;
}

void add_cure(Finding& finding, std::optional<Cure> cure) {
  if (cure) finding.cures.push_back(std::move(*cure));
}

// What is wrong with the fill of one joint.
Finding fill_finding(const RuleContext& context, const Rule& rule, std::size_t index, const job::ConnectorItem& item) {
  const job::Joint& joint = context.job.joints[index];
  const std::vector<JointWire>& wires = context.joint_wires[index];
  const Sizes sizes = sizes_of(wires);
  const Capacity room = capacity(item, pieces_as_fitted(joint, item), sizes);
  const std::string brought = fmt::format("Joint {} brings {} of {} together", called(joint.id, joint.name),
                                          counted(wires.size(), "wire"), words(sizes, context.units()));
  const Place place = place_of("joints", index, joint.id);
  Finding finding;
  if (room.most == 0) {
    finding = finding_of(context, rule, place, fmt::format("{}; '{}' does not take these sizes.", brought, item.title));
  } else {
    const bool too_many = wires.size() > room.most;
    const std::size_t limit = too_many ? room.most : room.least;
    finding = finding_of(context, rule, place, {double(wires.size()), double(limit), "wires"},
                         fmt::format("{} in each conductor; '{}' as fitted holds {} {}.", brought, item.title,
                                     too_many ? "at most" : "no fewer than", limit));
  }
  add_cure(finding, other_connector(context, index));
  return finding;
}

// Judges the connector of each buried joint by one yes-or-no property.
Findings check_buried(const RuleContext& context, const Rule& rule, bool job::ConnectorItem::*property,
                      const char* fault) {
  Findings findings;
  for (std::size_t j = 0; j < context.job.joints.size(); ++j) {
    const job::Joint& joint = context.job.joints[j];
    const job::ConnectorItem* item = job::find_connector(context.job.catalogue, joint.connector);
    if (!joint.buried || !item || item->*property) continue;
    Finding finding = finding_of(
        context, rule, place_of("joints", j, joint.id),
        fmt::format("Joint {} is in the ground, but '{}' {}.", called(joint.id, joint.name), item->title, fault));
    add_cure(finding, other_connector(context, j));
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace

Findings check_connector_fill(const RuleContext& context, const Rule& rule) {
  Findings findings;
  std::vector<std::string> not_chosen;
  std::vector<std::string> size_unknown;
  for (std::size_t j = 0; j < context.job.joints.size(); ++j) {
    const job::Joint& joint = context.job.joints[j];
    const std::vector<JointWire>& wires = context.joint_wires[j];
    if (wires.size() < 2) continue;
    const job::ConnectorItem* item = job::find_connector(context.job.catalogue, joint.connector);
    if (!item) {
      not_chosen.push_back(joint.id);
    } else if (!sizes_known(wires)) {
      size_unknown.push_back(joint.id);
    } else if (!holds(*item, pieces_as_fitted(joint, *item), wires)) {
      findings.push_back(fill_finding(context, rule, j, *item));
    }
  }
  if (!not_chosen.empty()) {
    findings.push_back(not_judged(
        context, rule, "/joints",
        fmt::format("No connector is chosen for {}: {}.", counted(not_chosen.size(), "joint"), listed(not_chosen))));
  }
  if (!size_unknown.empty()) {
    findings.push_back(not_judged(context, rule, "/joints",
                                  fmt::format("Wire sizes are not known at {}, so the fill of the connectors could not "
                                              "be judged: {}.",
                                              counted(size_unknown.size(), "joint"), listed(size_unknown))));
  }
  return findings;
}

Findings check_connector_count(const RuleContext& context, const Rule& rule) {
  Findings findings;
  for (std::size_t j = 0; j < context.job.joints.size(); ++j) {
    const job::Joint& joint = context.job.joints[j];
    const job::ConnectorItem* item = job::find_connector(context.job.catalogue, joint.connector);
    if (!item || !joint.connector_count || *joint.connector_count >= least_pieces(*item)) continue;
    const std::uint32_t count = *joint.connector_count;
    Finding finding = finding_of(
        context, rule, place_of("joints", j, joint.id), {double(count), double(least_pieces(*item)), "pieces"},
        fmt::format("Joint {} has {} of '{}' for both conductors; it takes {}, so that the two never touch.",
                    called(joint.id, joint.name), counted(count, "piece"), item->title,
                    item->serves_both_conductors ? "one" : "one for each"));
    const std::optional<estimate::ConnectorFit> fit = estimate::connector_fit(*item, context.joint_wires[j]);
    if (fit) {
      const std::uint32_t pieces = estimate::pieces_for_both(*item, *fit);
      finding.cures.push_back({fmt::format("Fit {}, half of them on each conductor.", counted(pieces, "piece")),
                               {change(job::ChangeKind::set_connector_count, joint.id, double(pieces))}});
    } else {
      add_cure(finding, other_connector(context, j));
    }
    findings.push_back(std::move(finding));
  }
  return findings;
}

Findings check_connector_sealed(const RuleContext& context, const Rule& rule) {
  return check_buried(context, rule, &job::ConnectorItem::sealed, "is not sealed: water gets in and eats the copper");
}

Findings check_connector_held(const RuleContext& context, const Rule& rule) {
  return check_buried(context, rule, &job::ConnectorItem::mechanically_held,
                      "does not hold its wires mechanically: the joint works loose");
}

}  // namespace duskwire::study
