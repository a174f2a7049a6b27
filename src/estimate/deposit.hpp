// SPDX-License-Identifier: Apache-2.0
// The deposit: what the shop asks, limited by a rule that the job names. Rules are data, each with how sure we are of
// it; which one holds for a contract is for the contractor's lawyer to say, never for this program.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "job/offer.hpp"

namespace duskwire::estimate {

// A limit on deposits: a share of the price, an amount, or the lower of the two.
struct DepositRule {
  std::string id;
  std::string title;
  std::optional<double> most_pct;
  std::optional<std::int64_t> most_minor;
  std::string currency;  // of most_minor
  std::string clause;
  std::string status;  // "seen", "from memory", "common practice, no source"
  std::string note;
};

struct Deposit {
  std::int64_t amount_minor = 0;
  std::string rule;    // id; empty: the offer's own wish, without a rule
  std::string title;   // of the rule
  std::string status;  // of the rule
  std::string reason;  // one sentence
};

// Empty where neither the terms nor a rule speak of a deposit.
[[nodiscard]] std::optional<Deposit> deposit_of(const job::Terms& terms, const std::vector<DepositRule>& rules,
                                                std::int64_t total_minor, const std::string& currency,
                                                Problems& problems);

}  // namespace duskwire::estimate
