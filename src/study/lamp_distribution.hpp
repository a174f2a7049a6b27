// SPDX-License-Identifier: Apache-2.0
// The light of a catalogue item as a distribution: its intensity file where it has a readable one, else the beam that
// its shape, beam angle and lumens make.
#pragma once

#include "base/problem.hpp"
#include "job/catalogue.hpp"
#include "light/distribution.hpp"

namespace duskwire::study {

// Always of type C, in candela at full light; dark where the item has no lumens. How it is turned: lit_lamps.hpp.
[[nodiscard]] light::Distribution distribution_of(const job::LuminaireItem& item);

// The shape that `by_kind` stands for; any other is itself.
[[nodiscard]] job::BeamShape shape_of(const job::LuminaireItem& item);

// Full beam that is used: the item's own, or what is usual for its kind where it has none (common practice, no source).
[[nodiscard]] double beam_used_deg(const job::LuminaireItem& item);

// What is wrong with the item's light or assumed about it. Pointers name the item's own fields ("/beam_deg").
[[nodiscard]] Problems light_findings(const job::LuminaireItem& item);

}  // namespace duskwire::study
