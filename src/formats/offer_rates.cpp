// SPDX-License-Identifier: Apache-2.0
#include "formats/offer_rates.hpp"

#include "formats/context.hpp"
#include "formats/parts.hpp"

namespace duskwire::formats {

std::optional<std::int64_t> offered_labour_minor_per_h(const job::Job& job) {
  if (job.offer.json.empty()) return std::nullopt;
  const ParsedText parsed = parse_text(job.offer.json);
  if (!parsed.tree) return std::nullopt;
  Context context;
  Offer offer;
  read_part(context, *parsed.tree, offer);
  return has_errors(context.take()) ? std::nullopt : offer.rates.labour_cost_minor_per_h;
}

}  // namespace duskwire::formats
