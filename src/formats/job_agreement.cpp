// SPDX-License-Identifier: Apache-2.0
#include "formats/job_agreement.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/view_agreement.hpp"

namespace duskwire::formats {
namespace {

// Taps are a volt apart; anything nearer is the same tap written with other digits.
constexpr double same_tap_v = 1e-6;

void check_tap(Context& context, const job::TransformerItem& item, const job::Output& output) {
  const auto is_it = [&](double tap_v) { return std::abs(tap_v - output.tap_v) <= same_tap_v; };
  if (item.taps_v.empty() || std::any_of(item.taps_v.begin(), item.taps_v.end(), is_it)) return;
  const Context::Scope scope(context, "tap_v");
  context.report(Severity::warning, fmt::format("{}", output.tap_v),
                 fmt::format("one of {} V", fmt::join(item.taps_v, ", ")),
                 fmt::format("Output \"{}\" is on a tap of {} V, which \"{}\" does not have (taps {} V): choose one of "
                             "these, or correct the item.",
                             output.id, output.tap_v, item.id, fmt::join(item.taps_v, ", ")));
}

void check_transformer(Context& context, const job::Job& job, const job::Transformer& transformer) {
  const job::TransformerItem* item = job::find_transformer(job.catalogue, transformer.item);
  if (item == nullptr) return;
  const Context::Scope scope(context, "outputs");
  if (transformer.outputs.size() > item->output_count) {
    context.report(Severity::warning, fmt::format("{}", transformer.outputs.size()),
                   fmt::format("at most {} outputs", item->output_count),
                   fmt::format("Transformer \"{}\" uses {} outputs, but \"{}\" has {}: take a larger one or join runs.",
                               transformer.id, transformer.outputs.size(), item->id, item->output_count));
  }
  for (std::size_t i = 0; i < transformer.outputs.size(); ++i) {
    const Context::Scope inner(context, i);
    check_tap(context, *item, transformer.outputs[i]);
  }
}

void check_currency(Context& context, const job::Job& job) {
  const bool has_goods = !job.catalogue.luminaires.empty() || !job.catalogue.transformers.empty() ||
                         !job.catalogue.cables.empty() || !job.catalogue.connectors.empty();
  if (!has_goods || job.catalogue.currency == job.site.currency) return;
  const Context::Scope scope(context, "catalogue");
  const Context::Scope inner(context, "currency");
  context.report(Severity::warning, job.catalogue.currency, job.site.currency,
                 fmt::format("Catalogue prices are in {}, the site's currency is {}: nothing is converted, so set both "
                             "alike.",
                             job.catalogue.currency, job.site.currency));
}

}  // namespace

void check_agreement(Context& context, const job::Job& job) {
  check_currency(context, job);
  check_views(context, job);
  const Context::Scope scope(context, "transformers");
  for (std::size_t i = 0; i < job.transformers.size(); ++i) {
    const Context::Scope inner(context, i);
    check_transformer(context, job, job.transformers[i]);
  }
}

}  // namespace duskwire::formats
