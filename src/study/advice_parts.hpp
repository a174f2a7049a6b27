// SPDX-License-Identifier: Apache-2.0
// The three pieces of advice, each by itself. Internal to the room.
#pragma once

#include <vector>

#include "study/advise.hpp"
#include "study/network_builder.hpp"
#include "study/numbers.hpp"

namespace duskwire::study {

// Taps of all outputs with lamps, each judged with the others on the taps advised for them.
[[nodiscard]] std::vector<TapAdvice> advise_taps(const job::Job& job);

[[nodiscard]] std::vector<TransformerAdvice> advise_transformers(const Built& built, const Numbers& numbers,
                                                                 const job::Catalogue& stock);

[[nodiscard]] std::vector<ProtectionAdvice> advise_protection(const Built& built, const Numbers& numbers);

}  // namespace duskwire::study
