// SPDX-License-Identifier: Apache-2.0
#include "cli/exact_proof.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>

#include "cli/cbc.hpp"

namespace duskwire::cli {

Result<bool> has_exact_solver() {
#if DUSKWIRE_EXACT
  return true;
#else
  return Error{ErrorCode::unsupported,
               "--exact: this build has no exact solver. Install CBC (Debian: coinor-cbc) and build with "
               "-DDUSKWIRE_EXACT=ON, or leave --exact out."};
#endif
}

std::string proof_text(const study::RouteProof& proof, double took_s) {
  // Rounded up: what is claimed holds.
  const double dearer_pct = std::max(0.0, 100 * (proof.cost_minor / proof.bound_minor - 1));
  const double claimed_pct = std::ceil(dearer_pct * 10 - 1e-9) / 10;
  std::string text = fmt::format(
      "At most {:.1f} % dearer than the cheapest wiring with one transformer over {} points and {} ways: the plan's "
      "own "
      "trenches and straight ones between its points, and two places where three trenches meet best. CBC {} in {:.0f} "
      "s.",
      claimed_pct, proof.points, proof.ways,
      proof.proven ? "proved it" : "proved that much, and with more time might prove more,", took_s);
  return text + " Lamps, mounts and rounding up are not in it.";
}

std::string exact_proof(const study::Router& router, double seconds) {
  using Clock = std::chrono::steady_clock;
  const Clock::time_point begun = Clock::now();
  const auto took_s = [&] { return std::chrono::duration<double>(Clock::now() - begun).count(); };
  const auto solver = [&](const wiring::LinearProgram& program, const wiring::SolveOptions& options) {
    wiring::SolveOptions limited = options;
    limited.seconds = seconds - took_s();
    limited.by_the_clock = true;
    return limited.seconds > 0 ? solve_with_cbc(program, limited) : std::nullopt;
  };
  const Result<study::RouteProof> proof = router.proof(solver);
  if (!proof) return fmt::format("No proof of how good it is: {}.", proof.error().message);
  return proof_text(proof.value(), took_s());
}

}  // namespace duskwire::cli
