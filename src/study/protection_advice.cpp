// SPDX-License-Identifier: Apache-2.0
// Will the protective device of an output see a short at its far end, and which one would?
#include <fmt/format.h>

#include "study/advice_parts.hpp"
#include "study/cure_candidates.hpp"
#include "study/number_troubles.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

// The largest smaller size that still carries the load and that the far short exceeds.
std::optional<double> smaller_size_a(const ProtectionAdvice& advice, double allowed) {
  std::optional<double> found;
  for (const double size_a : breaker_sizes_a) {
    if (size_a < advice.limit_a && breaker_fits(size_a, advice.worst_current_a, allowed, advice.far_short_a)) {
      found = size_a;
    }
  }
  return found;
}

std::string reason_for(const ProtectionAdvice& advice, const std::string& corner) {
  if (advice.limit_a <= 0) return fmt::format("Output {} has no protective device that is known.", advice.output);
  const WordedPair amps = worded_apart(advice.far_short_a, advice.limit_a, ampere_unit);
  const std::string seen =
      fmt::format("a short at {}, the farthest, draws {} ({})", advice.far_short_at, amps.measured, corner);
  if (advice.trips) return fmt::format("The {} device opens: {}.", amps.limit, seen);
  const std::string warning = fmt::format("The {} device may never open: {}", amps.limit, seen);
  if (advice.suggested_limit_a) {
    return fmt::format("{}. One of {} carries the load of {} and opens.", warning,
                       worded(*advice.suggested_limit_a, ampere_unit), worded(advice.worst_current_a, ampere_unit));
  }
  return fmt::format(
      "{}. No smaller size carries the load of {} with its reserve: shorten the run or take thicker "
      "cable.",
      warning, worded(advice.worst_current_a, ampere_unit));
}

}  // namespace

std::vector<ProtectionAdvice> advise_protection(const Built& built, const Numbers& numbers) {
  std::vector<ProtectionAdvice> all;
  const double allowed = load_shares(built.job->practice).output;
  const electrical::Network& network = electrical::network_of(*built.prepared);
  for (std::uint32_t o = 0; o < built.outputs.size(); ++o) {
    const OutputNumbers& output = numbers.outputs[o];
    if (output.far_short_node == none) continue;
    ProtectionAdvice advice;
    advice.output = id_of(*built.job, built.spot_of_output(o));
    advice.limit_a = network.outputs[o].limit_a;
    advice.worst_current_a = output.worst_current_a;
    advice.far_short_a = output.far_short_a;
    advice.far_short_at = id_of(*built.job, built.spot_of_node(output.far_short_node));
    advice.trips = advice.limit_a > 0 && advice.far_short_a >= advice.limit_a;
    if (!advice.trips && advice.limit_a > 0) advice.suggested_limit_a = smaller_size_a(advice, allowed);
    advice.reason = reason_for(advice, corner_words(built.weakest, built.corners.front()));
    if (advice.suggested_limit_a) {
      advice.changes = {{job::ChangeKind::set_output_limit, advice.output, "", "", *advice.suggested_limit_a}};
    }
    all.push_back(std::move(advice));
  }
  return all;
}

}  // namespace duskwire::study
