// SPDX-License-Identifier: Apache-2.0
// The owner's pack: what stays with the house. A map to show to gardeners, when the lights go on, what care they need,
// until when what is warranted, what a meter read, and how a light is added.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "paper/document.hpp"
#include "paper/paper_wish.hpp"
#include "study/crew_joints.hpp"
#include "study/report.hpp"

namespace duskwire::paper {

// One month of the timer card, as local clock times.
struct TimerMonth {
  std::string month;  // "January"
  std::string sunset;
  std::vector<std::string> spans;  // of each entry: "19:28 to 23:00"; a dash where it does not run that month
};

struct TimerCard {
  std::string programme;             // in words, one line for each entry
  std::vector<std::string> entries;  // their names
  std::vector<TimerMonth> months;
  std::string remark;  // zone, clock changes, polar days
  double burn_h_per_year = 0;
  double energy_kwh_per_year = 0;
};

struct OwnerParts {
  study::Report report;                  // what is expected
  std::vector<study::CrewJoint> joints;  // with tape offsets
  std::optional<TimerCard> timer;
};

[[nodiscard]] Document owner_paper(const PaperWish& wish, const job::Job& job, const OwnerParts& parts);

// Parts of it, in their own file.
[[nodiscard]] Blocks care_blocks();
[[nodiscard]] Blocks warranty_blocks(const job::Job& job);
[[nodiscard]] Blocks readings_blocks(const job::Job& job, const study::Report& report);
[[nodiscard]] Blocks adding_blocks(const job::Job& job, const study::Report& report);

}  // namespace duskwire::paper
