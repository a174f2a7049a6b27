// SPDX-License-Identifier: Apache-2.0
// A job's programme as rules of the almanac, which lamps each switches, and what is odd about it. Internal to the room.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "almanac/programme.hpp"
#include "job/job.hpp"
#include "study/finding.hpp"

namespace duskwire::study {

inline constexpr std::uint32_t no_transformer = UINT32_MAX;

struct TimedProgramme {
  std::vector<almanac::ProgrammeRule> rules;         // by entry of the job
  std::vector<std::vector<std::uint32_t>> lamps;     // by entry: luminaires that it switches
  std::vector<std::vector<std::uint32_t>> rules_of;  // by luminaire: entries that switch it
  Findings findings;
};

// `transformer_of`: by luminaire, its transformer in the job, or no_transformer.
[[nodiscard]] TimedProgramme timed_programme(const job::Job& job, const std::vector<std::uint32_t>& transformer_of);

// "from sunset + 15 min to 23:00, fri and sat, 29 Nov to 6 Jan, at 40 %".
[[nodiscard]] std::string entry_words(const job::ProgrammeEntry& entry);

// A finding about an entry or another part of the job.
[[nodiscard]] Finding times_finding(const char* id, Severity severity, std::string subject, std::string pointer,
                                    std::string message);

}  // namespace duskwire::study
