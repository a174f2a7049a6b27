// SPDX-License-Identifier: Apache-2.0
#include "study/cure_trial.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "estimate/money.hpp"
#include "study/report_dress.hpp"

namespace duskwire::study {
namespace {

// A cure may not make another trouble worse by more than this.
constexpr double tolerated_worsening = 0.02;
// A change that takes away at least this share of a trouble is worth telling.
constexpr double least_help = 1.0 / 3;

std::string key_of(const std::vector<job::Change>& changes) {
  std::string key;
  for (const job::Change& change : changes) {
    key += fmt::format("{}\x1f{}\x1f{}\x1f{}\x1f{}\x1e", static_cast<int>(change.kind), change.target, change.text,
                       change.other, change.number);
  }
  return key;
}

double badness_of(const Trouble& trouble) {
  switch (family_of(trouble.kind)) {
    case TroubleFamily::lamp_low:
    case TroubleFamily::margin:
      return trouble.limit - trouble.measured;
    case TroubleFamily::lamp_high:
      return trouble.measured - trouble.limit;
    case TroubleFamily::output_load:
    case TroubleFamily::transformer_load:
      return trouble.limit > 0 ? trouble.measured / trouble.limit - 1 : 1;
    case TroubleFamily::other:
      break;
  }
  const bool is_short = trouble.kind == TroubleKind::far_short && trouble.limit > 0;
  return is_short ? 1 - trouble.measured / trouble.limit : 1;
}

// Findings of rules are marks too, told apart by their id; how far they are beyond their limit does not count.
Mark rule_mark(const Finding& finding) {
  return {TroubleKind::unsolved, finding.id + "\x1f" + finding.subject, 1, finding.severity};
}

}  // namespace

TroubleFamily family_of(TroubleKind kind) {
  switch (kind) {
    case TroubleKind::lamp_off:
    case TroubleKind::lamp_not_regulated:
    case TroubleKind::lamp_low:
      return TroubleFamily::lamp_low;
    case TroubleKind::lamp_over:
    case TroubleKind::lamp_high:
      return TroubleFamily::lamp_high;
    case TroubleKind::output_overload:
    case TroubleKind::output_headroom:
      return TroubleFamily::output_load;
    case TroubleKind::transformer_overload:
    case TroubleKind::transformer_headroom:
      return TroubleFamily::transformer_load;
    case TroubleKind::load_margin:
    case TroubleKind::length_margin:
      return TroubleFamily::margin;
    default:
      return TroubleFamily::other;
  }
}

Mark mark_of(const job::Job& job, const Trouble& trouble) {
  Mark mark{trouble.kind, id_of(job, trouble.spot), badness_of(trouble), severity_of(trouble.kind)};
  if (family_of(trouble.kind) == TroubleFamily::margin) mark.id.clear();
  return mark;
}

bool same_matter(const Mark& p, const Mark& q) {
  const TroubleFamily family = family_of(p.kind);
  const bool by_family = family != TroubleFamily::other && family != TroubleFamily::margin;
  return p.id == q.id && (by_family ? family == family_of(q.kind) : p.kind == q.kind);
}

std::int64_t wiring_price_minor(const job::Job& job, const estimate::EndIndex& ends) {
  std::int64_t sum = 0;
  for (const job::Cable& cable : job.cables) {
    const job::CableItem* item = job::find_cable(job.catalogue, cable.item);
    const auto length = estimate::cable_length(job, ends, cable);
    if (item && length) sum += estimate::amount_minor(length->cut_m(), item->price_minor_per_m).value_or(0);
  }
  for (const job::Transformer& transformer : job.transformers) {
    const job::TransformerItem* item = job::find_transformer(job.catalogue, transformer.item);
    if (item) sum += item->price_minor;
  }
  return sum;
}

Trials::Trials(const Built& built, const Numbers& numbers, const Troubles& troubles, const job::Catalogue& stock,
               const Ruleset* ruleset)
    : built_(built),
      numbers_(numbers),
      stock_(stock),
      ruleset_(ruleset),
      price_minor_(wiring_price_minor(*built.job, built.ends)) {
  for (const Trouble& trouble : troubles) before_.push_back(mark_of(*built.job, trouble));
  append_rule_marks(built, numbers, before_);
}

void Trials::append_rule_marks(const Built& built, const Numbers& numbers, std::vector<Mark>& marks) const {
  if (!ruleset_) return;
  for (const Finding& finding : judge(*built.job, *ruleset_, dress(built, numbers), stock_)) {
    if (finding.severity != Severity::note) marks.push_back(rule_mark(finding));
  }
}

TrialResult Trials::effect_of(const std::vector<job::Change>& changes, const Scope& scope, bool rules) const {
  TrialResult effect;
  const Result<job::Job> changed = job::apply(*built_.job, changes, stock_);
  if (!changed) return effect;
  const job::Job& job = changed.value();
  const Built built = build(job);
  Numbers numbers = analyse(built, scope);
  effect.possible = true;
  for (const Trouble& trouble : built.troubles) effect.marks.push_back(mark_of(job, trouble));
  for (const Trouble& trouble : number_troubles(built, numbers, scope)) effect.marks.push_back(mark_of(job, trouble));
  if (rules) append_rule_marks(built, numbers, effect.marks);
  const electrical::Network& network = electrical::network_of(*built.prepared);
  for (std::uint32_t o = 0; o < network.outputs.size(); ++o) {
    effect.output_ids.push_back(id_of(job, built.spot_of_output(o)));
    effect.output_limit_a.push_back(network.outputs[o].limit_a);
  }
  for (const electrical::Transformer& transformer : network.transformers) {
    effect.transformer_rating_va.push_back(transformer.rating_va);
  }
  effect.load_margin = numbers.load_margin.factor;
  effect.length_margin = numbers.length_margin.factor;
  effect.load_margin_lamp = numbers.load_margin.first_load;
  effect.length_margin_lamp = numbers.length_margin.first_load;
  effect.price_minor = wiring_price_minor(job, built.ends);
  effect.lamps = std::move(numbers.lamps);
  effect.outputs = std::move(numbers.outputs);
  effect.transformers = std::move(numbers.transformers);
  return effect;
}

const TrialResult& Trials::quick(const std::vector<job::Change>& changes, bool margins) {
  std::unique_ptr<TrialResult>& kept = remembered_[key_of(changes) + (margins ? "m" : "")];
  if (!kept) {
    Scope scope;
    scope.margins = margins;
    kept = std::make_unique<TrialResult>(effect_of(changes, scope, false));
    ++solves_;
  }
  return *kept;
}

TrialResult Trials::full(const std::vector<job::Change>& changes) const { return effect_of(changes, {}, true); }

Verdict Trials::compare(const TrialResult& effect, const Mark& target) const {
  if (!effect.possible) return Verdict::no_use;
  const auto find = [](const std::vector<Mark>& marks, const Mark& wanted) {
    return std::find_if(marks.begin(), marks.end(), [&](const Mark& mark) { return same_matter(mark, wanted); });
  };
  // What had no supply, or was shorted, may show warnings of its own once it is alive.
  const bool revives = family_of(target.kind) == TroubleFamily::other && target.severity == Severity::error;
  const Severity tolerated = revives ? Severity::warning : Severity::note;
  for (const Mark& after : effect.marks) {
    if (after.severity <= tolerated || same_matter(after, target)) continue;
    const auto old = find(before_, after);
    if (old == before_.end() || after.severity > old->severity) return Verdict::no_use;
    if (after.badness > old->badness + tolerated_worsening) return Verdict::no_use;
  }
  const auto left = find(effect.marks, target);
  if (left == effect.marks.end()) return Verdict::cures;
  if (left->severity > target.severity) return Verdict::no_use;
  return left->badness <= target.badness * (1 - least_help) ? Verdict::helps : Verdict::no_use;
}

}  // namespace duskwire::study
