// SPDX-License-Identifier: Apache-2.0
// What a cure gives, in words. Internal to the room.
#pragma once

#include <cstdint>
#include <string>

#include "study/cure_trial.hpp"
#include "study/network_builder.hpp"
#include "study/trouble.hpp"

namespace duskwire::study {

// "F8 sees 11.85 V at worst (window 10 to 15 V)".
[[nodiscard]] std::string effect_words(const Built& built, const Trouble& trouble, const TrialResult& effect);

// "10 to 15 V", "from 10 V"; with one end as it is worded elsewhere in the sentence.
[[nodiscard]] std::string window_words(const Lamp& lamp, std::string low = {}, std::string high = {});

// "about 31 USD more material", "about 12 USD less material"; "" where the price stays.
[[nodiscard]] std::string price_words(std::int64_t more_minor, const std::string& currency);

}  // namespace duskwire::study
