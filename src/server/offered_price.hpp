// SPDX-License-Identifier: Apache-2.0
// What of a price is shown to a client: amounts to pay by group, never costs, hours or margins.
#pragma once

#include "estimate/price.hpp"
#include "job/job.hpp"
#include "paper/proposal_paper.hpp"

namespace duskwire::server {

// Nothing where the job is not priced: no line, or a total of nothing.
[[nodiscard]] std::optional<paper::OfferedPrice> offered_price(const estimate::Price& price, const job::Job& job);

}  // namespace duskwire::server
