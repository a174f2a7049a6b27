// SPDX-License-Identifier: Apache-2.0
// The network of a quick question, solved in as many conditions as the answer needs. Internal to the room.
#pragma once

#include "study/ask.hpp"

namespace duskwire::study {

// A question without a gap.
struct FullQuestion {
  const Question* question = nullptr;
  std::uint32_t lamps = 0;
  double length_m = 0;
  double tap_v = 0;
  const job::CableItem* cable = nullptr;
};

// Volts over all lamps at both ends of the mains tolerance, and whether every lamp is inside its window and regulated.
[[nodiscard]] Tried try_question(const FullQuestion& full);

// Everything that an answer says of a full question; `asked`, `tried` and `sentence` stay empty.
[[nodiscard]] Answer solve_question(const FullQuestion& full);

}  // namespace duskwire::study
