// SPDX-License-Identifier: Apache-2.0
// "Do not start until": what must be true before the first spade goes in, with what the job knows of it, and the
// cautions that go with the work. Common practice, no source, unless a line names one.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "study/crew_aim.hpp"
#include "study/report.hpp"

namespace duskwire::study {

enum class GateState : std::uint8_t {
  to_confirm = 0,  // somebody has to look and sign
  blocked = 1,     // the job itself says that it is not so
};

struct GateLine {
  std::string id;  // "public-marks"
  GateState state = GateState::to_confirm;
  std::string text;
  std::string detail;  // what the job says of it; may be empty
};

struct CrewGate {
  std::vector<GateLine> lines;
  std::vector<std::string> cautions;
};

[[nodiscard]] CrewGate crew_gate(const job::Job& job, const Report& report, const std::vector<CrewAim>& aims);

[[nodiscard]] bool is_blocked(const CrewGate& gate);

}  // namespace duskwire::study
