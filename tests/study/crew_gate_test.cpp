// SPDX-License-Identifier: Apache-2.0
#include "study/crew_gate.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

job::Job supplied() {
  job::Job job = tests::two_splice_site();
  job::Receptacle outlet;
  outlet.id = "outlet";
  outlet.gfci = outlet.in_use_cover = true;
  job.plan.receptacles = {outlet};
  job.transformers[0].receptacle = "outlet";
  return job;
}

const GateLine* line_of(const CrewGate& gate, const std::string& id) {
  const auto found =
      std::find_if(gate.lines.begin(), gate.lines.end(), [&](const GateLine& line) { return line.id == id; });
  return found == gate.lines.end() ? nullptr : &*found;
}

CrewGate gate_of(const job::Job& job) { return crew_gate(job, {}, {}); }

TEST(CrewGate, AsksForMarksBeforeAnythingElse) {
  const CrewGate gate = gate_of(supplied());
  ASSERT_GE(gate.lines.size(), 6u);
  EXPECT_EQ(gate.lines[0].id, "public-marks");
  EXPECT_EQ(gate.lines[1].id, "private-lines");
  for (const char* id : {"electrician", "permits", "scope"}) EXPECT_NE(line_of(gate, id), nullptr) << id;
  EXPECT_FALSE(is_blocked(gate));
}

TEST(CrewGate, IsBlockedByASupplyThatIsNotThere) {
  job::Job job = supplied();
  EXPECT_EQ(line_of(gate_of(job), "receptacle/T")->state, GateState::to_confirm);
  job.plan.receptacles[0].gfci = false;
  EXPECT_EQ(line_of(gate_of(job), "receptacle/T")->state, GateState::blocked);
  job.plan.receptacles[0].gfci = true;
  job.plan.receptacles[0].in_use_cover = false;
  EXPECT_EQ(line_of(gate_of(job), "receptacle/T")->state, GateState::blocked);
  job.transformers[0].mounting = job::Mounting::indoors;
  EXPECT_EQ(line_of(gate_of(job), "receptacle/T")->state, GateState::to_confirm) << "no rain indoors";
  job.transformers[0].receptacle = "elsewhere";
  EXPECT_TRUE(is_blocked(gate_of(job)));
}

TEST(CrewGate, IsBlockedByAnErrorOfThePlan) {
  Report report;
  Finding note;
  note.severity = Severity::note;
  Finding error;
  error.severity = Severity::error;
  error.message = "F5 sees too little.";
  report.findings = {error, note};
  const CrewGate gate = crew_gate(supplied(), report, {});
  const auto blocked = std::count_if(gate.lines.begin(), gate.lines.end(),
                                     [](const GateLine& line) { return line.state == GateState::blocked; });
  EXPECT_EQ(blocked, 1);
}

TEST(CrewGate, NamesTheLampsThatNeedALadder) {
  CrewAim aim;
  aim.id = "D1";
  aim.on_ladder = true;
  const auto cautions = crew_gate(supplied(), {}, {aim}).cautions;
  EXPECT_EQ(cautions.size(), gate_of(supplied()).cautions.size() + 1);
  EXPECT_EQ(cautions.back().substr(0, 3), "D1:");
}

}  // namespace
}  // namespace duskwire::study
