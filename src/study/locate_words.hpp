// SPDX-License-Identifier: Apache-2.0
// The sentences of locate: places, faults, readings and outcomes as a contractor says them. Internal to the room.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "study/locate.hpp"
#include "study/locate_problem.hpp"

namespace duskwire::study {

class LocateWords {
 public:
  LocateWords(const Built& built, const LocateProblem& made) : built_(built), made_(made) {}

  [[nodiscard]] std::string node(std::uint32_t node) const;        // "Oak, left (F4)"
  [[nodiscard]] std::string segment(std::uint32_t segment) const;  // "C5, between F4 and F5" or "the lead of F5"
  [[nodiscard]] LocatedPlace place(const diagnosis::PlaceChance& chance) const;
  [[nodiscard]] std::string bracket(const diagnosis::Bracket& bracket) const;
  [[nodiscard]] LocatedCause cause(const diagnosis::Explanation& explanation) const;
  [[nodiscard]] std::string hole(std::uint32_t hole) const;  // "open F4, in a bed"
  [[nodiscard]] std::string probe(const diagnosis::Probe& probe) const;
  [[nodiscard]] std::string probe_place(const diagnosis::Probe& probe) const;
  void as_reading(const diagnosis::Probe& probe, NextToRead& next) const;  // the fields of a job's reading
  [[nodiscard]] ForetoldOutcome outcome(const diagnosis::Probe& probe, const diagnosis::Outcome& outcome) const;

 private:
  [[nodiscard]] std::string fault(const diagnosis::Fault& fault, const diagnosis::Explanation& explanation,
                                  bool first) const;
  [[nodiscard]] LocatedFault located(const diagnosis::Fault& fault, const diagnosis::Explanation& explanation,
                                     bool first) const;
  [[nodiscard]] std::string lamps_out(const std::vector<std::uint32_t>& out) const;
  [[nodiscard]] std::string places(const std::vector<diagnosis::PlaceChance>& places) const;

  const Built& built_;
  const LocateProblem& made_;
};

[[nodiscard]] const char* unit_of(diagnosis::Quantity quantity);
[[nodiscard]] const char* in_ground_words(job::GroundKind ground);  // "in a bed"

}  // namespace duskwire::study
