// SPDX-License-Identifier: Apache-2.0
#include "formats/report_json.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "formats/advice_json.hpp"
#include "formats/answer_json.hpp"
#include "formats/problems_json.hpp"

namespace duskwire::formats {
namespace {

study::Report report() {
  study::Report report;
  report.lamps.resize(1);
  report.lamps[0].id = "F1";
  report.lamps[0].nominal_v = 11.25;
  report.lamps[0].state = electrical::LampState::regulated;
  report.lamps[0].worst_state = electrical::LampState::dim;
  report.margin.load_factor = 1.5;
  study::Finding finding;
  finding.id = "lamp-window";
  finding.severity = Severity::warning;
  finding.measured = 9.5;
  finding.provenance.status = "computed";
  finding.cures = {{"Tap 14", {{job::ChangeKind::set_tap, "T1-A", "", "", 14}}}};
  report.findings = {finding};
  report.lamp_va = 42;
  return report;
}

TEST(ReportJson, KeysAreTheNamesOfTheFields) {
  const Json json = report_json(report());
  EXPECT_EQ(json["lamps"][0]["id"], "F1");
  EXPECT_EQ(json["lamps"][0]["nominal_v"], 11.25);
  EXPECT_EQ(json["lamps"][0]["state"], "regulated");
  EXPECT_EQ(json["lamps"][0]["worst_state"], "dim");
  EXPECT_EQ(json["margin"]["load_factor"], 1.5);
  EXPECT_EQ(json["margin"]["load_beyond_cap"], false);
  EXPECT_EQ(json["lamp_va"], 42.0);
  EXPECT_EQ(json["sound"], false);
  for (const char* part : {"cables", "outputs", "transformers", "corners", "shorts"}) {
    EXPECT_EQ(json[part], Json::array()) << part;
  }
}

TEST(ReportJson, AFindingBringsItsSourceAndItsCures) {
  const Json finding = report_json(report())["findings"][0];
  EXPECT_EQ(finding["severity"], "warning");
  EXPECT_EQ(finding["measured"], 9.5);
  EXPECT_FALSE(finding.contains("limit"));  // absent, not 0
  EXPECT_EQ(finding["provenance"]["status"], "computed");
  EXPECT_EQ(finding["provenance"]["clause"], "");
  EXPECT_EQ(finding["cures"][0]["text"], "Tap 14");
  EXPECT_EQ(finding["cures"][0]["changes"][0]["kind"], "set_tap");
  EXPECT_EQ(finding["cures"][0]["changes"][0]["number"], 14.0);
}

TEST(ReportJson, WhatIsNotFiniteIsNull) {
  study::Report odd = report();
  odd.margin.load_factor = std::numeric_limits<double>::infinity();
  const Json json = Json::parse(compact_text(report_json(odd)));
  EXPECT_TRUE(json["margin"]["load_factor"].is_null());
}

TEST(ReportJson, TextIsTheSameWithAndWithoutATree) {
  study::Report odd = report();
  odd.lamps[0].id = "a \"quoted\" \\ line\nbreak \t \x01 \x7F \xC3\xA9 \xFF end";
  odd.lamps[0].nominal_v = -0.0;
  odd.margin.load_factor = std::numeric_limits<double>::infinity();
  odd.margin.length_factor = 0.1 + 0.2;
  odd.lamps.push_back({});
  odd.outputs.resize(1);
  odd.outputs[0].lamp_count = 7;
  odd.findings.push_back({});
  odd.sound = true;
  std::string text;
  append_report(text, odd);
  EXPECT_EQ(text, compact_text(report_json(odd)));
}

TEST(ReportJson, AdviceIsWritten) {
  study::Advice advice;
  advice.taps.resize(1);
  advice.taps[0].output = "T1-A";
  advice.taps[0].taps.resize(2);
  advice.taps[0].taps[1].tap_v = 14;
  advice.taps[0].taps[1].chosen = true;
  advice.transformers.resize(1);
  advice.transformers[0].need.taps_v = {12, 14};
  advice.protection.resize(1);
  advice.protection[0].suggested_limit_a = 10;
  const Json json = advice_json(advice);
  EXPECT_EQ(json["taps"][0]["output"], "T1-A");
  EXPECT_FALSE(json["taps"][0].contains("chosen_tap_v"));
  EXPECT_EQ(json["taps"][0]["taps"][1]["chosen"], true);
  EXPECT_EQ(json["transformers"][0]["need"]["taps_v"], Json::parse("[12.0,14.0]"));
  EXPECT_EQ(json["protection"][0]["suggested_limit_a"], 10.0);
}

TEST(ReportJson, AnAnswerIsWrittenWithItsCable) {
  study::Answer answer;
  answer.asked = study::Asked::cable;
  answer.cable.id = "12awg-2";
  answer.cable.area_mm2 = 3.3;
  answer.tried.resize(1);
  answer.tried[0].name = "14 AWG";
  const Json json = answer_json(answer);
  EXPECT_EQ(json["asked"], "cable");
  EXPECT_EQ(json["cable"]["id"], "12awg-2");
  EXPECT_EQ(json["cable"]["area_mm2"], 3.3);
  EXPECT_EQ(json["tried"][0]["name"], "14 AWG");
  EXPECT_EQ(json["last_state"], "off");
}

TEST(ReportJson, ProblemsAreWritten) {
  const Json json = problems_json({{Severity::note, "/a", "1", "2", "three"}, {Severity::error, "", "", "", ""}});
  EXPECT_EQ(compact_text(json[0]),
            R"({"severity":"note","pointer":"/a","value":"1","expected":"2","message":"three"})");
  EXPECT_EQ(json[1]["severity"], "error");
  EXPECT_EQ(compact_text(problems_json({})), "[]");
}

}  // namespace
}  // namespace duskwire::formats
