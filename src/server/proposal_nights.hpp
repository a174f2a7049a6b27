// SPDX-License-Identifier: Apache-2.0
// The pictures that a proposal opens with: each calibrated view of the job by night.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "paper/document.hpp"
#include "server/papers.hpp"

namespace duskwire::server {

struct ProposalNights {
  std::vector<paper::Picture> pictures;
  std::vector<std::string> remarks;  // for each view that cannot be shown: why, and what cures it
};

// Errors: unavailable, where it was ended.
[[nodiscard]] Result<ProposalNights> proposal_nights(const PapersOrder& order, const PapersProgress& progress);

}  // namespace duskwire::server
