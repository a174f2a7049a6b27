// SPDX-License-Identifier: Apache-2.0
// The options of an offer, each priced as the job with its lights: as drawn, not wired anew.
#pragma once

#include "estimate/price.hpp"

namespace duskwire::estimate {

// Adds the options, the base and what the client has taken to the price of the whole job.
void price_options(const job::Job& job, const job::Catalogue& stock, const PriceOptions& options, Price& price);

}  // namespace duskwire::estimate
