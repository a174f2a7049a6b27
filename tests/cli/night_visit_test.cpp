// SPDX-License-Identifier: Apache-2.0
// The night visit, from the command: two uplights are swapped for smaller lamps and two path lights are added at the
// far hub. Volts to 0.03 and amperes to 0.02 of the acceptance story (computed outside the engine: scalar RMS network,
// copper at 20 C); prices worked out by hand from those of the job, marked up by 1.6.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace duskwire::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::json;

Json light(const char* id, double power_va, int price_minor) {
  return {{"id", id},
          {"title", id},
          {"kind", "bullet"},
          {"lamp", "regulated_led"},
          {"power_w", power_va},
          {"power_va", power_va},
          {"window_min_v", 10},
          {"window_max_v", 15},
          {"v_regulation_min", 9},
          {"v_cut_off", 7},
          {"lead_length_m", 0},
          {"price_minor", price_minor}};
}

// T, 30 m of 12 AWG to S1, 15 m more to S2; leads of 14 AWG.
Json site() {
  Json job = Json::parse(R"({"format": "duskwire-job", "version": 1, "id": "site", "title": "Two splices",
    "site": {"mains_v": 120, "mains_hz": 60, "ruleset": "us", "units": "metric", "currency": "USD",
      "corners": {"mains_tolerance_pct": 5, "cable_nominal_c": 20, "cable_cold_c": 20, "cable_hot_c": 20,
        "length_tolerance_pct": 0, "few_lamps": false}},
    "practice": {"slack_at_luminaire_m": 0, "slack_at_splice_m": 0, "slack_at_transformer_m": 0, "waste_pct": 0},
    "catalogue": {"currency": "USD",
      "transformers": [{"id": "unit", "title": "Transformer of 300 VA", "rating_va": 300, "output_count": 1,
        "output_limit_a": 25, "taps_v": [12, 13, 14, 15], "r_own_ohm": 0, "r_shared_ohm": 0, "price_minor": 26000}],
      "cables": [{"id": "12awg", "title": "Cable 12 AWG", "area_mm2": 3.3088, "gauge_awg": 12,
        "ohm_per_m_20c": 0.005211, "direct_burial": true, "price_minor_per_m": 160},
        {"id": "14awg", "title": "Cable 14 AWG", "area_mm2": 2.0809, "gauge_awg": 14, "ohm_per_m_20c": 0.008286,
        "direct_burial": true, "price_minor_per_m": 110}],
      "connectors": [{"id": "hub", "title": "Hub", "sealed": true, "mechanically_held": true, "contact_ohm": 0,
        "price_minor": 350, "fills": [{"area_min_mm2": 0.5, "area_max_mm2": 6, "count_min": 1, "count_max": 10}]}]},
    "transformers": [{"id": "T", "item": "unit", "position": [0, 0], "outputs": [{"id": "T-A", "tap_v": 13}]}],
    "joints": [{"id": "S1", "kind": "hub", "connector": "hub", "position": [3, 1]},
      {"id": "S2", "kind": "hub", "connector": "hub", "position": [7, 1]}],
    "cables": [{"id": "C1", "item": "12awg", "from": "T-A", "to": "S1", "length_m": 30, "depth_m": 0.2},
      {"id": "C2", "item": "12awg", "from": "S1", "to": "S2", "length_m": 15, "depth_m": 0.2}], "luminaires": []})");
  job["catalogue"]["luminaires"] = {light("uplight", 6, 9500), light("path", 3, 8000), light("wash", 9, 11000),
                                    light("smaller", 4, 9000)};
  return job;
}

void add(Json& job, const std::string& id, const char* item, const char* joint, double length_m) {
  const double east_m = static_cast<double>(job["luminaires"].size());
  job["luminaires"].push_back({{"id", id}, {"item", item}, {"position", {east_m, 2, 0.2}}});
  job["cables"].push_back(
      {{"id", "lead-" + id}, {"item", "14awg"}, {"from", joint}, {"to", id}, {"length_m", length_m}, {"depth_m", 0.2}});
}

Json before() {
  Json job = site();
  for (const char* id : {"F1", "F2", "F3", "F4"}) add(job, id, "uplight", "S1", 8);
  for (const char* id : {"F5", "F6", "F7"}) add(job, id, "path", "S2", 5);
  add(job, "F8", "wash", "S2", 10);
  return job;
}

Json after() {
  Json job = before();
  job["luminaires"][0]["item"] = job["luminaires"][1]["item"] = "smaller";
  for (const char* id : {"F9", "F10"}) add(job, id, "path", "S2", 7);
  return job;
}

const Json& named(const Json& list, const std::string& id) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const Json& one) { return one["id"] == id; });
  EXPECT_NE(found, list.end()) << id;
  return found == list.end() ? list.front() : *found;
}

class NightVisit : public ::testing::Test {
 protected:
  NightVisit() {
    place_.write("before.json", before().dump());
    place_.write("after.json", after().dump());
  }

  [[nodiscard]] Json answer(const std::string& line) const {
    const Ended run = place_.run("duskwire " + line + " --json");
    EXPECT_EQ(run.complaint, "");
    return Json::parse(run.text);
  }

  Workplace place_;
};

TEST_F(NightVisit, VoltsAndAmperesFollowTheSwap) {
  const Json planned = answer("check before.json");
  EXPECT_NEAR(planned["outputs"][0]["current_a"].get<double>(), 3.59, 0.02);
  const Json report = answer("check after.json");
  EXPECT_NEAR(report["outputs"][0]["current_a"].get<double>(), 3.80, 0.02);
  EXPECT_NEAR(named(report["cables"], "C1")["to_v"].get<double>(), 11.81, 0.03);
  EXPECT_NEAR(named(report["cables"], "C2")["to_v"].get<double>(), 11.48, 0.03);
  const Json& lamps = report["lamps"];
  const auto worst = std::min_element(lamps.begin(), lamps.end(), [](const Json& x, const Json& y) {
    return x["nominal_v"].get<double>() < y["nominal_v"].get<double>();
  });
  EXPECT_EQ((*worst)["id"], "F8");
  EXPECT_NEAR((*worst)["nominal_v"].get<double>(), 11.35, 0.03);
}

TEST_F(NightVisit, TheTapStays) {
  for (const char* job : {"before.json", "after.json"}) {
    const Json advice = answer(std::string("advise ") + job);
    EXPECT_EQ(advice["taps"][0]["present_tap_v"], 13) << job;
    EXPECT_EQ(advice["taps"][0]["chosen_tap_v"], 13) << job;
  }
}

TEST_F(NightVisit, ThePriceMovesByWhatWasSwappedAndAdded) {
  const Json moved = answer("price after.json --against before.json")["moved"];
  // Material: two of 90.00 for two of 95.00, two of 80.00, 14 m at 1.10, each times 1.6.
  EXPECT_EQ(named(moved["lines"], "luminaire/uplight")["moved_minor"], -30400);
  EXPECT_EQ(named(moved["lines"], "luminaire/smaller")["moved_minor"], 28800);
  EXPECT_EQ(named(moved["lines"], "luminaire/path")["moved_minor"], 25600);
  EXPECT_EQ(named(moved["lines"], "cable/14awg")["moved_minor"], 2464);
  int sum = 0;
  for (const Json& line : moved["lines"]) sum += line["moved_minor"].get<int>();
  EXPECT_EQ(moved["moved_minor"], sum);
}

TEST_F(NightVisit, TheListOfPartsHasTheNewLamps) {
  const std::string text = place_.run("duskwire materials after.json").text;
  EXPECT_THAT(text, testing::ContainsRegex("smaller +2 +90.00"));
  EXPECT_THAT(text, testing::ContainsRegex("path +5 +80.00"));
  EXPECT_THAT(text, testing::ContainsRegex("Cable 14 AWG +71.0 m"));
}

TEST_F(NightVisit, MapAndCrewsListsShowThem) {
  for (const std::string job : {"before", "after"}) {
    const Ended run = place_.run("duskwire papers " + job + ".json --output " + job + " --date 2026-11-26");
    EXPECT_NE(run.code, 2) << run.complaint;
  }
  for (const char* file : {"plan.dxf", "cut-list.csv", "crew-readings.csv"}) {
    EXPECT_THAT(place_.read(std::string("after/") + file), HasSubstr("F10")) << file;
    EXPECT_THAT(place_.read(std::string("before/") + file), Not(HasSubstr("F10"))) << file;
  }
}

}  // namespace
}  // namespace duskwire::cli
