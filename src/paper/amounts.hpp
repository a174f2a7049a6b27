// SPDX-License-Identifier: Apache-2.0
// Money and days as papers print them; other quantities: study/wording.hpp.
#pragma once

#include <cstdint>
#include <string>

namespace duskwire::paper {

// "1,265.30 USD"
[[nodiscard]] std::string money_words(std::int64_t minor, const std::string& currency);

// An ISO date so many days on, or so many years (parts of a year as months). Empty where the date is none.
[[nodiscard]] std::string days_on(const std::string& date, int days);
[[nodiscard]] std::string years_on(const std::string& date, double years);

}  // namespace duskwire::paper
