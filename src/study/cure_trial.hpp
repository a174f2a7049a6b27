// SPDX-License-Identifier: Apache-2.0
// Trying a cure on a copy of the job: apply the changes, solve again, and compare what is wrong before and after.
// Internal to the room; one thread.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#include "job/change.hpp"
#include "study/network_builder.hpp"
#include "study/number_troubles.hpp"
#include "study/numbers.hpp"
#include "study/rules.hpp"
#include "study/trouble.hpp"

namespace duskwire::study {

// Kinds that are one and the same trouble to a cure: a lamp that is dark, dim or low is too low.
enum class TroubleFamily : std::uint8_t { lamp_low, lamp_high, output_load, transformer_load, margin, other };
[[nodiscard]] TroubleFamily family_of(TroubleKind kind);

// What stays of a trouble once the job it was found in is gone: enough to find it again in another copy.
struct Mark {
  TroubleKind kind = TroubleKind::unsolved;
  std::string id;      // of the object; empty for margins, which may move to another lamp
  double badness = 0;  // how far beyond the limit: volts at lamps, a share elsewhere
  Severity severity = Severity::error;
};
[[nodiscard]] Mark mark_of(const job::Job& job, const Trouble& trouble);
[[nodiscard]] bool same_matter(const Mark& p, const Mark& q);

// What a job is like after the changes.
struct TrialResult {
  bool possible = false;  // the changes could be applied
  std::vector<Mark> marks;
  std::vector<LampNumbers> lamps;
  std::vector<OutputNumbers> outputs;
  std::vector<std::string> output_ids;  // by index of `outputs`
  std::vector<double> output_limit_a;
  std::vector<TransformerNumbers> transformers;
  std::vector<double> transformer_rating_va;
  double load_margin = 0;  // only where margins were computed
  double length_margin = 0;
  std::uint32_t load_margin_lamp = none;  // that leaves regulation first
  std::uint32_t length_margin_lamp = none;
  std::int64_t price_minor = 0;  // of cable and transformers
};

enum class Verdict : std::uint8_t { no_use = 0, helps = 1, cures = 2 };

class Trials {
 public:
  // `ruleset` may be nothing: then cures are not held against the rules.
  Trials(const Built& built, const Numbers& numbers, const Troubles& troubles, const job::Catalogue& stock,
         const Ruleset* ruleset);

  // Remembers what was tried. Margins are the dearer half and left out where nobody asks for them.
  const TrialResult& quick(const std::vector<job::Change>& changes, bool margins);
  // Everything, the rules too. Not remembered.
  [[nodiscard]] TrialResult full(const std::vector<job::Change>& changes) const;

  // Against the job as it is: the trouble is gone (or at least a third of it) and nothing else is worse.
  [[nodiscard]] Verdict compare(const TrialResult& effect, const Mark& target) const;

  [[nodiscard]] std::uint32_t solves() const { return solves_; }
  [[nodiscard]] const Built& built() const { return built_; }
  [[nodiscard]] const Numbers& numbers() const { return numbers_; }
  [[nodiscard]] const job::Catalogue& stock() const { return stock_; }
  [[nodiscard]] std::int64_t price_minor() const { return price_minor_; }  // of the job as it is

 private:
  [[nodiscard]] TrialResult effect_of(const std::vector<job::Change>& changes, const Scope& scope, bool rules) const;
  void append_rule_marks(const Built& built, const Numbers& numbers, std::vector<Mark>& marks) const;

  const Built& built_;
  const Numbers& numbers_;
  const job::Catalogue& stock_;
  const Ruleset* ruleset_;
  std::vector<Mark> before_;
  std::int64_t price_minor_ = 0;
  std::uint32_t solves_ = 0;
  std::unordered_map<std::string, std::unique_ptr<TrialResult>> remembered_;
};

// Material that a cure may change: cable by its cut length and transformers, at the prices of the job's catalogue.
[[nodiscard]] std::int64_t wiring_price_minor(const job::Job& job, const estimate::EndIndex& ends);

}  // namespace duskwire::study
