// SPDX-License-Identifier: Apache-2.0
// How a catalogue luminaire spreads its light: the table that every verb of the light works with.
#pragma once

#include "job/catalogue.hpp"
#include "light/distribution.hpp"

namespace duskwire::study {

// Absolute candela at full light. gamma = 0 is the aim of a luminaire that is aimed, straight down for one that stands
// upright, with C = 0 towards its azimuth (lit_lamps.hpp says which is which). Dark where the item has no lumens.
[[nodiscard]] light::Distribution distribution_of(const job::LuminaireItem& item);

}  // namespace duskwire::study
