// SPDX-License-Identifier: Apache-2.0
// What a workspace should hold, to be held against what a damaged one serves: an error is right, other data never is.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "store/workspace.hpp"

namespace duskwire::store::testing {

struct Truth {
  std::map<std::string, JobRow> jobs;
  std::map<std::pair<std::string, std::int64_t>, std::string> documents;
  std::map<std::string, std::string> pictures;
  std::string shop;
};

// `pictures`: the hashes to ask for.
[[nodiscard]] Truth truth_of(Workspace& workspace, const std::vector<std::string>& pictures);

// What the workspace serves that is not the truth; empty: only truth and errors. `served` counts what it did serve.
[[nodiscard]] std::string lie_of(Workspace& workspace, const Truth& truth, std::size_t& served);

}  // namespace duskwire::store::testing
