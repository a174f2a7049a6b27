// SPDX-License-Identifier: Apache-2.0
// Computed cures: for a trouble, the changes that were tried on a copy of the job and take it away without making
// anything else worse, cheapest first. How they are searched: docs/algorithms/advice.md. Internal to the room.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "study/cure_candidates.hpp"
#include "study/cure_trial.hpp"
#include "study/finding.hpp"

namespace duskwire::study {

// Most networks that one trouble may have solved.
inline constexpr std::uint32_t most_solves_per_trouble = 60;
// Of all troubles of one job together.
inline constexpr std::uint32_t most_solves_per_job = 600;
inline constexpr std::size_t most_cures = 3;

class CureSearch {
 public:
  explicit CureSearch(Trials& trials) : trials_(trials), candidates_(trials) {}

  // Best first: those that take the trouble away, by price; where there is none, the one that helps most. Empty where
  // nothing that was tried helps.
  [[nodiscard]] std::vector<Cure> cures_for(const Trouble& trouble);

 private:
  struct Option {
    Candidate candidate;
    Verdict verdict = Verdict::no_use;
    std::int64_t price_minor = 0;  // over the job as it is
    double badness_left = 0;
  };
  struct Hunt {  // one trouble
    const Trouble& trouble;
    Mark target;
    bool margins = false;
    std::uint32_t solves_at_start = 0;
    bool cured = false;
    std::vector<Option> options;
  };

  void hunt(Hunt& hunt);
  void hunt_low(Hunt& hunt, std::uint32_t node);
  void hunt_thicker(Hunt& hunt, std::uint32_t node);
  void hunt_taps_together(Hunt& hunt, std::uint32_t output);
  void hunt_other(Hunt& hunt);
  // What the candidate would do; try_one also keeps it as an option.
  [[nodiscard]] Verdict probe(const Hunt& hunt, const Candidate& candidate);
  Verdict try_one(Hunt& hunt, const Candidate& candidate);
  void try_all(Hunt& hunt, const Candidates& candidates);
  void try_until_cured(Hunt& hunt, const Candidates& candidates);
  [[nodiscard]] bool spent(const Hunt& hunt) const;
  [[nodiscard]] std::vector<Cure> choose(Hunt& hunt);
  [[nodiscard]] std::uint32_t output_of(const Trouble& trouble) const;

  Trials& trials_;
  CureCandidates candidates_;
  // What cured one lamp of an output is tried first on the next.
  std::map<std::pair<TroubleFamily, std::uint32_t>, Candidates> found_;
};

}  // namespace duskwire::study
