// SPDX-License-Identifier: Apache-2.0
// Trouble: an electrical finding before it is put into words: what kind, where, how much against which limit. Cheap to
// make and to compare, so that a cure can be tried many times and dressed once. Internal to the room.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "job/job.hpp"

namespace duskwire::study {

// Says "no index" wherever one of another list is kept.
inline constexpr std::uint32_t none = 0xffffffffu;

enum class SpotKind : std::uint8_t {
  job = 0,
  luminaire = 1,
  transformer = 2,
  output = 3,
  cable = 4,
  joint = 5,
  luminaire_item = 6,
  transformer_item = 7,
  cable_item = 8,
  connector_item = 9,
};

// A thing of the job by its place in the document.
struct Spot {
  SpotKind kind = SpotKind::job;
  std::uint32_t index = 0;
  std::uint32_t output = 0;  // of the transformer `index`

  bool operator==(const Spot&) const = default;
};

[[nodiscard]] std::string id_of(const job::Job& job, const Spot& spot);
[[nodiscard]] std::string pointer_of(const Spot& spot);  // JSON pointer

enum class TroubleKind : std::uint8_t {
  // Of the description: the network is built as well as it can be without the thing.
  duplicate_id,
  bad_value,
  unknown_item,
  unknown_joint,
  dangling_cable,
  cable_on_itself,
  length_missing,
  length_zero,
  lead_size_missing,
  tap_not_offered,
  too_many_outputs,
  no_lamps,
  output_unused,
  cables_at_lamp,
  lamp_fed_twice,
  // Of the shape.
  island,
  lamp_no_supply,
  outputs_joined,
  crossed_loop,
  // Of the numbers.
  unsolved,
  lamp_off,
  lamp_not_regulated,
  lamp_over,
  lamp_low,
  lamp_high,
  output_overload,
  output_headroom,
  transformer_overload,
  transformer_headroom,
  far_short,
  load_margin,
  length_margin,
};

struct Trouble {
  TroubleKind kind = TroubleKind::unsolved;
  Spot spot;
  double measured = 0;
  double limit = 0;
  std::string detail;          // what the words need besides: an id, a field
  std::uint32_t other = none;  // a node, a corner or a lamp, by kind
};

using Troubles = std::vector<Trouble>;

// Stable id of the finding and how bad it is.
[[nodiscard]] const char* finding_id(TroubleKind kind);
[[nodiscard]] Severity severity_of(TroubleKind kind);
// True if the wiring can be changed so that it goes away.
[[nodiscard]] bool is_electrical(TroubleKind kind);

}  // namespace duskwire::study
