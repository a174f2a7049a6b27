// SPDX-License-Identifier: Apache-2.0
// The rows of tests/reference/fault_table.json, asked from the command: a garden in which a fault is, readings from it,
// and the kind and place that `duskwire locate` must name among its first, or the sentence that says that volts do not
// show it. Readings are `solved` by the electrical solver with the fault put into the network by hand, not by the
// diagnosis, or `given`: figures of the reference run (computed outside the engine: scalar RMS network, copper at 20 C)
// and what a meter shows where there is nothing to solve. Which fault shows how: common practice, no source.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "eight_lamps.hpp"
#include "electrical/solver.hpp"
#include "formats/job_reader.hpp"
#include "program.hpp"
#include "study/network_builder.hpp"

namespace duskwire::cli {
namespace {

using electrical::Conductor;
using electrical::Network;
using ::testing::HasSubstr;
using Json = nlohmann::json;

Json plan_of(const Json& row) {
  const std::string name = row.value("plan", "");
  Json job = eight_lamps();
  if (name == "lead") job["luminaires"][4]["lead_length_m"] = 8;
  if (name == "long") job["cables"][0]["length_m"] = 60;
  if (name == "tap 15") job["transformers"][0]["outputs"][0]["tap_v"] = 15;
  if (name == "small breaker") job["transformers"][0]["outputs"][0]["limit_a"] = 5;
  if (name == "loop")  // back to the lugs that it began at
    job["cables"].push_back({{"id", "C9"}, {"item", "12awg"}, {"from", "J8"}, {"to", "T-A"}, {"length_m", 18}});
  job["visits"] = {{{"date", "2031-05-20"}, {"kind", "service"}, {"answers", row.value("answers", Json::object())}}};
  return job;
}

class Garden {
 public:
  explicit Garden(const job::Job& job)
      : built_(study::build(job)), network_(electrical::network_of(*built_.prepared)), condition_(built_.nominal) {}

  void put(const std::string& fault, const std::string& id, double value) {
    const std::uint32_t node = built_.node_of(id);
    if (fault == "mains") condition_.mains_factor = value;
    if (fault == "lug") network_.outputs[node].r_own_ohm += value;
    if (fault == "emf") network_.outputs[node].emf_v = value;
    if (fault == "cut") segment(id).open_a = segment(id).open_b = true;
    if (fault == "open_a") segment(id).open_a = true;
    if (fault == "ohms") segment(id).contact_a_ohm += value;
    if (fault == "short") short_across_the_middle(id, value);
    if (fault == "thinner") thin(value);
    if (fault == "cut_lead") network_.segments[built_.segment_of_lead[load(id)]].open_a = true;
    if (fault == "dead") network_.loads[load(id)].power_va = 0;
    if (fault == "leak")
      network_.bridges.push_back({network_.loads[load(id)].plus, network_.loads[load(id)].minus, value});
    if (fault == "load") {
      electrical::Load more = network_.loads[load(id)];
      more.power_va = value;
      network_.loads.push_back(more);
    }
  }

  void solve() { solution_ = electrical::solve(network_, condition_).value(); }

  // "F4 volts" as a line of the table of readings.
  [[nodiscard]] std::string line(const std::string& wanted) const {
    const std::size_t blank = wanted.find(' ');
    const std::string place = wanted.substr(0, blank);
    const std::string quantity = wanted.substr(blank + 1);
    const std::uint32_t node = built_.node_of(place);
    if (quantity == "ohms") return fmt::format("{},resistance,{:.2f},ohm\n", place, ohms(node));
    if (quantity == "volts") return fmt::format("{},voltage,{:.2f},V\n", place, std::abs(solution_.node_v[node]));
    return fmt::format("{},current,{:.2f},A\n", place, std::abs(solution_.output_a[node]));
  }

 private:
  // C1 to C9, in the order of the job.
  electrical::Segment& segment(const std::string& id) {
    return network_.segments[built_.segment_of_cable[std::stoul(id.substr(1)) - 1]];
  }

  [[nodiscard]] std::uint32_t load(const std::string& id) const { return built_.node_of(id) - built_.luminaire_base; }

  void short_across_the_middle(const std::string& id, double ohm) {
    const std::uint32_t middle = network_.node_count++;
    electrical::Segment rest = segment(id);
    for (electrical::Segment* half : {&rest, &segment(id)}) {
      half->copper_a_ohm /= 2;
      half->copper_b_ohm /= 2;
    }
    rest.from = segment(id).to = middle;
    network_.segments.push_back(rest);
    network_.bridges.push_back({{middle, Conductor::a}, {middle, Conductor::b}, ohm});
  }

  void thin(double factor) {
    for (const char* id : {"C1", "C2", "C3", "C4", "C5", "C6", "C7", "C8"}) {
      segment(id).copper_a_ohm *= factor;
      segment(id).copper_b_ohm *= factor;
    }
  }

  // With every output lifted and all lamps off: 1 V over the amperes that it drives.
  [[nodiscard]] double ohms(std::uint32_t node) const {
    Network network = network_;
    network.loads.clear();
    network.outputs = {{node, 0, 1, 0, 0}};
    return 1 / electrical::solve(std::move(network)).value().output_a[0];
  }

  study::Built built_;
  Network network_;
  electrical::Condition condition_;
  electrical::Solution solution_;
};

std::string readings_of(const Json& row, const Json& plan) {
  std::string csv = "place,quantity,value,unit,seen,load,clamped\n";
  for (const Json& line : row.value("given", Json::array())) csv += line.get<std::string>() + "\n";
  if (!row.contains("fault")) return csv;
  const formats::ReadJob read = formats::read_job(plan.dump());
  Garden garden(read.job.value());
  for (const Json& fault : row["fault"]) garden.put(fault[0], fault[1], fault.size() > 2 ? fault[2].get<double>() : 0);
  garden.solve();
  const Json along = {"T-A volts", "T-A amperes", "F1 volts", "F4 volts", "F5 volts", "F8 volts"};
  for (const Json& wanted : row["solved"] == "along" ? along : row["solved"]) csv += garden.line(wanted);
  return csv;
}

Json locate(const Workplace& place, const Json& row) {
  const Json job = plan_of(row);
  place.write("job.json", job.dump());
  place.write("readings.csv", readings_of(row, job));
  const Ended run = place.run("duskwire locate job.json --readings readings.csv --json");
  EXPECT_EQ(run.complaint, "");
  return Json::parse(run.text, nullptr, false);
}

bool names(const Json& cause, const Json& row) {
  for (const Json& fault : cause["faults"]) {
    for (const Json& id : row["ids"]) {
      if (fault["kind"] == row["kind"] && fault["id"] == id) return true;
    }
  }
  return false;
}

bool is_among_first(const Json& answer, const Json& row) {
  constexpr std::size_t first = 3;
  for (std::size_t k = 0; k < std::min(first, answer["causes"].size()); ++k) {
    if (names(answer["causes"][k], row)) return true;
  }
  return false;
}

Json rows() { return Json::parse(project_file("tests/reference/fault_table.json")); }

TEST(FaultTable, EachFaultIsNamedAmongTheFirstOrSaidToBeBeyondVolts) {
  const Workplace place;
  std::size_t count = 0;
  for (const Json& row : rows()) {
    SCOPED_TRACE(row["state"]);
    const Json answer = locate(place, row);
    ASSERT_TRUE(answer.is_object());
    const std::string says = row["says"];
    ++count;
    if (row["kind"] != "") {
      EXPECT_TRUE(is_among_first(answer, row)) << answer["causes"].dump(1);
      EXPECT_THAT(answer.dump(), HasSubstr(says));
      EXPECT_NE(answer["causes"][0]["test"], "");
      continue;
    }
    EXPECT_TRUE(answer["verdict"] == "misfit" || answer["causes"].empty() || answer["causes"][0]["faults"].empty())
        << answer["headline"];
    EXPECT_THAT(answer["unseen"].dump() + answer["hidden"].dump(), HasSubstr(says));
  }
  EXPECT_EQ(count, 37U);
}

// The browser's test puts the same readings to the page: it has no network to put a fault into.
TEST(FaultTable, TheReadingsKeptForThePageAreThoseSolved) {
  Json kept = Json::array();
  for (const Json& row : rows()) {
    Json lines = Json::array();
    std::istringstream csv(readings_of(row, plan_of(row)));
    std::string line;
    for (std::getline(csv, line); std::getline(csv, line);) lines.push_back(line);
    kept.push_back({{"state", row["state"]}, {"readings", lines}});
  }
  const std::string text = kept.dump(1) + "\n";
  const std::string name = "tests/reference/fault_table_readings.json";
  if (std::getenv("DUSKWIRE_KEEP") != nullptr) {
    std::ofstream(std::string(DUSKWIRE_SOURCE_DIR) + "/" + name) << text;
    GTEST_SKIP() << "kept anew: " << name;
  }
  EXPECT_EQ(text, project_file(name)) << "wanted? DUSKWIRE_KEEP=1 keeps it";
}

TEST(FaultTable, ThePageTellsTheTestBesideTheCause) {
  const Workplace place;
  const Json all = rows();
  const auto bridged =
      std::find_if(all.begin(), all.end(), [](const Json& row) { return row["kind"] == "bridged_taps"; });
  ASSERT_NE(bridged, all.end());
  (void)locate(place, *bridged);
  const Ended run = place.run("duskwire locate job.json --readings readings.csv");
  EXPECT_EQ(run.code, 1);
  EXPECT_THAT(run.text, HasSubstr("Tell it apart by hand"));
  EXPECT_THAT(run.text, HasSubstr("Clamp the mains side with the runs lifted"));
}

}  // namespace
}  // namespace duskwire::cli
