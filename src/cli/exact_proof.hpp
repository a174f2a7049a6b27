// SPDX-License-Identifier: Apache-2.0
// `duskwire route --exact`: how far a small plan is from the best there is, as a measured sentence.
#pragma once

#include <string>

#include "base/result.hpp"
#include "study/route.hpp"

namespace duskwire::cli {

// An error in a build without: what to do about it.
[[nodiscard]] Result<bool> has_exact_solver();

// One paragraph, also where nothing can be proven: then it says why.
[[nodiscard]] std::string exact_proof(const study::Router& router, double seconds);

// The sentence of a proof that took so long.
[[nodiscard]] std::string proof_text(const study::RouteProof& proof, double took_s);

}  // namespace duskwire::cli
