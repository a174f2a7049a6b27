// SPDX-License-Identifier: Apache-2.0
#include "study/cures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "study/cure_changes.hpp"
#include "study/cure_text.hpp"

namespace duskwire::study {
namespace {

// Longest stretch of a path that is considered for thicker cable at once.
constexpr std::size_t most_path_cables = 40;

}  // namespace

bool CureSearch::spent(const Hunt& hunt) const {
  return trials_.solves() >= most_solves_per_job || trials_.solves() - hunt.solves_at_start >= most_solves_per_trouble;
}

Verdict CureSearch::probe(const Hunt& hunt, const Candidate& candidate) {
  if (candidate.changes.empty() || spent(hunt)) return Verdict::no_use;
  return trials_.compare(trials_.quick(candidate.changes, hunt.margins), hunt.target);
}

Verdict CureSearch::try_one(Hunt& hunt, const Candidate& candidate) {
  const Verdict verdict = probe(hunt, candidate);
  if (verdict == Verdict::no_use) return verdict;
  const TrialResult& effect = trials_.quick(candidate.changes, hunt.margins);
  Option option{candidate, verdict, effect.price_minor - trials_.price_minor(), 0};
  for (const Mark& mark : effect.marks) {
    if (same_matter(mark, hunt.target)) option.badness_left = mark.badness;
  }
  hunt.options.push_back(std::move(option));
  return verdict;
}

void CureSearch::try_all(Hunt& hunt, const Candidates& candidates) {
  for (const Candidate& candidate : candidates) try_one(hunt, candidate);
}

void CureSearch::try_until_cured(Hunt& hunt, const Candidates& candidates) {
  for (const Candidate& candidate : candidates) {
    if (try_one(hunt, candidate) == Verdict::cures) return;
  }
}

// The cables with the most to win, as few of them as it takes: found by halving, since one more thicker cable never
// lowers a lamp.
void CureSearch::hunt_thicker(Hunt& hunt, std::uint32_t node) {
  std::vector<std::uint32_t> path = candidates_.path_cables(node);
  if (path.size() > most_path_cables) path.resize(most_path_cables);
  const auto first = [&](std::size_t count) {
    return std::vector<std::uint32_t>(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(count));
  };
  for (const int steps : {1, 2}) {
    if (path.empty() || try_one(hunt, candidates_.thicker(first(1), steps)) == Verdict::cures) continue;
    std::size_t too_few = 1;
    std::size_t enough = path.size();
    if (enough > 1 && probe(hunt, candidates_.thicker(path, steps)) == Verdict::cures) {
      while (enough - too_few > 1) {
        const std::size_t middle = (enough + too_few) / 2;
        (probe(hunt, candidates_.thicker(first(middle), steps)) == Verdict::cures ? enough : too_few) = middle;
      }
    }
    if (enough > 1) try_one(hunt, candidates_.thicker(first(enough), steps));
  }
}

// The margin is that of the weakest lamp anywhere: once its output is raised, another output may have the weakest. Each
// is raised in turn until the reserve is there.
void CureSearch::hunt_taps_together(Hunt& hunt, std::uint32_t output) {
  const Built& built = trials_.built();
  Candidate together;
  std::vector<bool> raised(built.outputs.size(), false);
  while (output != none && !raised[output]) {
    raised[output] = true;
    const Candidates taps = candidates_.other_taps(output, true);
    if (taps.empty()) return;
    together.action += (together.action.empty() ? "" : ", ") + taps.front().action;
    together.changes.push_back(taps.front().changes.front());
    if (try_one(hunt, together) == Verdict::cures || spent(hunt)) return;
    const TrialResult& effect = trials_.quick(together.changes, hunt.margins);
    const bool load = hunt.trouble.kind == TroubleKind::load_margin;
    const std::uint32_t lamp = load ? effect.load_margin_lamp : effect.length_margin_lamp;
    if (!effect.possible || lamp >= built.lamps.size()) return;
    output = built.supply[built.node_of_luminaire(lamp)].output;
  }
}

void CureSearch::hunt_low(Hunt& hunt, std::uint32_t node) {
  const std::uint32_t output = trials_.built().supply[node].output;
  if (output == none) return;
  try_until_cured(hunt, candidates_.other_taps(output, true));
  if (hunt.margins) hunt_taps_together(hunt, output);
  hunt_thicker(hunt, node);
  try_all(hunt, candidates_.home_runs(node));
  if (node >= trials_.built().luminaire_base) {
    try_all(hunt, candidates_.other_joints(node - trials_.built().luminaire_base));
  }
}

std::uint32_t CureSearch::output_of(const Trouble& trouble) const {
  const Built& built = trials_.built();
  if (trouble.spot.kind == SpotKind::output) return built.first_output[trouble.spot.index] + trouble.spot.output;
  if (trouble.spot.kind == SpotKind::luminaire) {
    return built.supply[built.node_of_luminaire(trouble.spot.index)].output;
  }
  return none;
}

void CureSearch::hunt(Hunt& hunt) {
  const Trouble& trouble = hunt.trouble;
  const std::uint32_t output = output_of(trouble);
  switch (family_of(trouble.kind)) {
    case TroubleFamily::lamp_low:
    case TroubleFamily::margin:
      hunt_low(hunt, trials_.built().node_of_luminaire(trouble.spot.index));
      break;
    case TroubleFamily::lamp_high:
      if (output == none) break;
      try_until_cured(hunt, candidates_.other_taps(output, false));
      try_all(hunt, candidates_.other_outputs(output));
      break;
    case TroubleFamily::output_load:
      try_all(hunt, candidates_.other_outputs(output));
      try_until_cured(hunt, candidates_.other_taps(output, true));
      try_all(hunt, candidates_.added_outputs(output));
      break;
    case TroubleFamily::transformer_load: {
      const double share = load_shares(trials_.built().job->practice).transformer;
      try_all(hunt, candidates_.larger_transformers(trouble.spot.index, trouble.measured / share));
      break;
    }
    case TroubleFamily::other:
      hunt_other(hunt);
  }
}

void CureSearch::hunt_other(Hunt& hunt) {
  const Trouble& trouble = hunt.trouble;
  const Built& built = trials_.built();
  const job::Job& job = *built.job;
  const bool is_cable = trouble.spot.kind == SpotKind::cable;
  const std::string id = id_of(job, trouble.spot);
  switch (trouble.kind) {
    case TroubleKind::far_short:
      try_until_cured(hunt, candidates_.smaller_breakers(output_of(trouble)));
      hunt_thicker(hunt, trouble.other);
      break;
    case TroubleKind::island:
      if (is_cable) try_all(hunt, candidates_.links(built.node_of(job.cables[trouble.spot.index].from)));
      if (!is_cable) try_all(hunt, candidates_.links(built.node_of_luminaire(trouble.spot.index)));
      break;
    case TroubleKind::lamp_no_supply:
      try_until_cured(hunt, candidates_.other_joints(trouble.spot.index));
      try_all(hunt, candidates_.links(built.node_of_luminaire(trouble.spot.index)));
      break;
    case TroubleKind::crossed_loop:
      if (!is_cable) break;
      try_one(hunt,
              {fmt::format("Swap the two conductors of {} at one end", id),
               {number_change(job::ChangeKind::set_crossed, id, job.cables[trouble.spot.index].crossed ? 0 : 1)}});
      break;
    case TroubleKind::outputs_joined:
      if (is_cable) {
        try_one(hunt, {fmt::format("Take out {}", id), {number_change(job::ChangeKind::remove_cable, id, 0)}});
      }
      break;
    case TroubleKind::tap_not_offered:
      try_until_cured(hunt, candidates_.other_taps(output_of(trouble), false));
      try_until_cured(hunt, candidates_.other_taps(output_of(trouble), true));
      break;
    case TroubleKind::too_many_outputs:
      try_all(hunt, candidates_.larger_transformers(trouble.spot.index, 0));
      break;
    case TroubleKind::lamp_fed_twice:
      for (const job::Cable& cable : job.cables) {
        if (cable.from != id && cable.to != id) continue;
        try_one(hunt,
                {fmt::format("Take out {}", cable.id), {number_change(job::ChangeKind::remove_cable, cable.id, 0)}});
      }
      break;
    default:
      break;
  }
}

std::vector<Cure> CureSearch::choose(Hunt& hunt) {
  std::stable_sort(hunt.options.begin(), hunt.options.end(), [](const Option& p, const Option& q) {
    if (p.verdict != q.verdict) return p.verdict > q.verdict;
    const double p_left = p.verdict == Verdict::helps ? p.badness_left : 0;
    const double q_left = q.verdict == Verdict::helps ? q.badness_left : 0;
    return std::tuple(p_left, p.price_minor, p.candidate.changes.size()) <
           std::tuple(q_left, q.price_minor, q.candidate.changes.size());
  });
  std::vector<Cure> cures;
  const Built& built = trials_.built();
  for (const Option& option : hunt.options) {
    if (cures.size() == most_cures || (option.verdict == Verdict::helps && !cures.empty())) break;
    const TrialResult effect = trials_.full(option.candidate.changes);
    if (trials_.compare(effect, hunt.target) != option.verdict) continue;
    std::string text = option.verdict == Verdict::helps ? "Not enough alone, but it helps: " : "";
    text += option.candidate.action + ": " + effect_words(built, hunt.trouble, effect);
    const std::string price = price_words(option.price_minor, built.job->catalogue.currency);
    if (!price.empty()) text += ", " + price;
    cures.push_back({text + ".", option.candidate.changes});
    if (option.verdict == Verdict::cures) {
      hunt.cured = true;
      found_[{family_of(hunt.trouble.kind), output_of(hunt.trouble)}].push_back(option.candidate);
    }
  }
  return cures;
}

std::vector<Cure> CureSearch::cures_for(const Trouble& trouble) {
  Hunt now{trouble,
           mark_of(*trials_.built().job, trouble),
           family_of(trouble.kind) == TroubleFamily::margin,
           trials_.solves(),
           false,
           {}};
  if (trouble.spot.kind == SpotKind::luminaire && family_of(trouble.kind) != TroubleFamily::other) {
    const auto known = found_.find({family_of(trouble.kind), output_of(trouble)});
    if (known != found_.end()) {
      const Candidates earlier = known->second;
      known->second.clear();
      try_all(now, earlier);
      std::vector<Cure> cures = choose(now);
      if (now.cured) return cures;
      now.options.clear();
    }
  }
  hunt(now);
  return choose(now);
}

}  // namespace duskwire::study
