// SPDX-License-Identifier: Apache-2.0
// The proposal: what a client reads and signs. First what the garden will look like and what each light does, then what
// it costs and on which terms.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "job/job.hpp"
#include "paper/document.hpp"
#include "paper/paper_wish.hpp"
#include "study/crew_aim.hpp"

namespace duskwire::paper {

struct OfferedOption {
  std::string title;
  std::string text;
  std::string kind;  // "with the above", "instead"
  std::int64_t total_minor = 0;
  bool chosen = false;
  std::vector<std::string> luminaires;
};

// Amounts as a client sees them; empty parts: not known yet.
struct OfferedPrice {
  std::string currency;
  std::vector<std::pair<std::string, std::int64_t>> groups;  // "Lights", "Work", ...: they sum to the net
  std::int64_t net_minor = 0;
  std::string tax_name;
  std::int64_t tax_minor = 0;
  std::int64_t total_minor = 0;
  std::int64_t deposit_minor = 0;
  std::string deposit_rule;
  std::vector<OfferedOption> options;
};

struct ProposalParts {
  std::vector<Picture> nights;  // as rendered by who asks; none: the plan stands first
  std::optional<OfferedPrice> price;
  std::vector<study::CrewAim> aims;  // of the job
};

[[nodiscard]] Document proposal_paper(const PaperWish& wish, const job::Job& job, const ProposalParts& parts);

// Parts of it, each in its own file.
[[nodiscard]] Blocks price_blocks(const PaperWish& wish, const job::Job& job, const std::optional<OfferedPrice>& price);
[[nodiscard]] Blocks terms_blocks(const PaperWish& wish, const job::Job& job, const std::optional<OfferedPrice>& price);

}  // namespace duskwire::paper
