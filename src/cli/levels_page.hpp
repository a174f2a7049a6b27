// SPDX-License-Identifier: Apache-2.0
// Levels as text for people: the verdict, light by place against what is asked, what neighbours get, who sees which
// lamp, the order of brightness.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "job/job.hpp"
#include "study/choose.hpp"
#include "study/levels.hpp"

namespace duskwire::cli {

struct LevelsPage {
  const job::Job& job;
  const study::Levels& levels;
  const study::LevelSets& sets;
};

// `full`: every sight line, every lamp, and what each set of levels asks.
[[nodiscard]] std::string levels_text(const LevelsPage& page, bool full, const TextStyle& style);

// "12 lx" or, in US units, "12 lx (1.1 fc)".
[[nodiscard]] std::string lux(double lx, const TextStyle& style);

[[nodiscard]] std::string choice_text(const study::Choice& choice, const TextStyle& style);

}  // namespace duskwire::cli
