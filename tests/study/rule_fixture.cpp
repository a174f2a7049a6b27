// SPDX-License-Identifier: Apache-2.0
#include "study/rule_fixture.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "base/units.hpp"

namespace duskwire::study::rule_testing {
namespace {

job::CableItem cable_item(const std::string& id, double gauge_awg, double ampacity_a, std::int64_t price_minor_per_m) {
  job::CableItem item;
  item.id = id;
  item.title = "Cable " + id;
  item.gauge_awg = gauge_awg;
  item.area_mm2 = units::area_mm2_from_awg(gauge_awg);
  item.ohm_per_m_20c = 0.01724 / item.area_mm2;
  item.ampacity_a = ampacity_a;
  item.price_minor_per_m = price_minor_per_m;
  return item;
}

job::LuminaireItem luminaire_item(const std::string& id, job::LampKind lamp) {
  job::LuminaireItem item;
  item.id = id;
  item.title = id;
  item.lamp = lamp;
  item.window_min_v = 10;
  item.window_max_v = 15;
  item.lead_area_mm2 = units::area_mm2_from_awg(18);
  return item;
}

job::ConnectorItem connector_item(const std::string& id, std::uint32_t count_max, std::int64_t price_minor) {
  job::ConnectorItem item;
  item.id = id;
  item.title = id;
  item.fills = {{0.75, 3.5, 2, count_max, {}}};
  item.sealed = item.mechanically_held = true;
  item.price_minor = price_minor;
  return item;
}

job::Catalogue goods() {
  job::Catalogue goods;
  goods.luminaires = {luminaire_item("led", job::LampKind::regulated_led),
                      luminaire_item("halogen", job::LampKind::filament),
                      luminaire_item("pool-light", job::LampKind::regulated_led)};
  goods.luminaires[2].underwater_listed = true;
  job::TransformerItem transformer;
  transformer.id = transformer.title = "transformer-300va";
  transformer.rating_va = 300;
  transformer.taps_v = {12, 13, 14, 15};
  goods.transformers = {transformer};
  goods.cables = {cable_item("14awg-2", 14, 15, 110), cable_item("12awg-2", 12, 20, 160)};
  goods.connectors = {connector_item("gel-2", 2, 100), connector_item("gel-3", 3, 150),
                      connector_item("gel-5", 5, 300)};
  return goods;
}

job::Job sound_job() {
  job::Job job;
  job.id = "garden";
  job.catalogue = goods();
  job.site.units = job::DisplayUnits::metric;
  job.plan.areas = {square("lawn", job::GroundKind::lawn, 0, 0, 20)};
  job.plan.receptacles = {{"R1", {0, 5}, true, true, 20, {}}};
  job::Transformer transformer;
  transformer.id = "T1";
  transformer.item = "transformer-300va";
  transformer.position = geometry::Point2{0, 5};
  transformer.receptacle = "R1";
  transformer.outputs = {{"A", 12, std::nullopt, {}}};
  job.transformers = {transformer};
  job::Cable cable;
  cable.item = "12awg-2";
  cable.depth_m = 0.2;
  cable.id = "C1", cable.from = "A", cable.to = "J1", cable.path = {{0, 5}, {5, 5}};
  job.cables.push_back(cable);
  cable.id = "C2", cable.from = "J1", cable.to = "F2", cable.path = {{5, 5}, {7, 5}};
  job.cables.push_back(cable);
  job::Luminaire luminaire;
  luminaire.item = "led";
  luminaire.id = "F1", luminaire.joint = "J1", luminaire.position = geometry::Point3{5, 6, 0};
  job.luminaires.push_back(luminaire);
  luminaire.id = "F2", luminaire.joint = "", luminaire.position = geometry::Point3{7, 5, 0};
  job.luminaires.push_back(luminaire);
  job::Joint joint;
  joint.id = "J1";
  joint.position = geometry::Point2{5, 5};
  joint.connector = "gel-3";
  job.joints = {joint};
  return job;
}

Report sound_report() {
  Report report;
  for (const char* id : {"F1", "F2"}) {
    LampReport lamp;
    lamp.id = id;
    lamp.output = "A";
    lamp.nominal_v = 11.8, lamp.worst_low_v = 11.1, lamp.worst_high_v = 12.6;
    lamp.window_min_v = 10, lamp.window_max_v = 15;
    report.lamps.push_back(lamp);
  }
  for (const char* id : {"C1", "C2"}) {
    CableReport cable;
    cable.id = id;
    cable.output = "A";
    cable.worst_current_a = 5;
    report.cables.push_back(cable);
  }
  OutputReport output;
  output.id = "A", output.transformer = "T1", output.tap_v = 12, output.terminal_v = 11.95, output.limit_a = 25;
  output.worst_current_a = 5;
  report.outputs = {output};
  TransformerReport transformer;
  transformer.id = "T1", transformer.rating_va = 300, transformer.worst_load_va = 60, transformer.lamp_va = 55;
  report.transformers = {transformer};
  return report;
}

}  // namespace

job::Area square(const std::string& id, job::GroundKind kind, double x_m, double y_m, double side_m) {
  job::Area area;
  area.id = id;
  area.kind = kind;
  area.outline = {{x_m, y_m}, {x_m + side_m, y_m}, {x_m + side_m, y_m + side_m}, {x_m, y_m + side_m}};
  return area;
}

Garden garden() { return {sound_job(), sound_report(), goods()}; }

Rule rule_of(const std::string& check, const Values& values, const Tables& tables) {
  Rule rule;
  rule.id = "the-rule";
  rule.check = check;
  rule.values = values;
  rule.tables = tables;
  rule.provenance.status = "common practice, no source";
  return rule;
}

Findings judge_by(const Garden& garden, const Rule& rule) {
  Ruleset ruleset;
  ruleset.id = "set";
  ruleset.rules = {rule};
  return judge(garden.job, ruleset, garden.report, garden.stock);
}

Findings breaches(const Garden& garden, const Rule& rule) {
  Findings findings = judge_by(garden, rule);
  std::erase_if(findings, [](const Finding& finding) { return finding.severity == Severity::note; });
  return findings;
}

int breaches_after_cure(const Garden& garden, const Rule& rule) {
  const Findings before = breaches(garden, rule);
  if (before.empty() || before[0].cures.empty() || before[0].cures[0].changes.empty()) {
    ADD_FAILURE() << "no cure to apply";
    return -1;
  }
  const Result<job::Job> cured = job::apply(garden.job, before[0].cures[0].changes, garden.stock);
  if (!cured) {
    ADD_FAILURE() << cured.error().message;
    return -1;
  }
  Garden after = garden;
  after.job = cured.value();
  return static_cast<int>(breaches(after, rule).size());
}

}  // namespace duskwire::study::rule_testing
