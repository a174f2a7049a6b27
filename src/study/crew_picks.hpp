// SPDX-License-Identifier: Apache-2.0
// The pick list: the list of materials dealt out to one bag per zone, one per transformer, and the van. Every line of
// the list of materials is dealt out whole: the bags add up to it.
#pragma once

#include <string>
#include <vector>

#include "estimate/materials.hpp"
#include "job/job.hpp"
#include "study/crew_runs.hpp"

namespace duskwire::study {

enum class BagKind : std::uint8_t { zone = 0, transformer = 1, van = 2 };

struct CrewPick {
  estimate::Category category = estimate::Category::luminaire;
  std::string item;
  std::string title;
  double quantity = 0;
  std::string unit;                // "piece" or "m"
  std::vector<std::string> users;  // luminaires, joints, cable tags; empty in the van
};

struct CrewBag {
  BagKind kind = BagKind::zone;
  std::string name;  // of the zone (may be empty: lamps without one), id of the transformer
  std::vector<CrewPick> picks;
};

// Zones in the order in which the job's luminaires name them, then transformers, then the van. Cable is cut for a zone
// and listed there by its cut length; what is bought over that (waste, rounding up) stays on the reels in the van.
[[nodiscard]] std::vector<CrewBag> crew_bags(const job::Job& job, const job::Catalogue& stock,
                                             const estimate::Materials& materials, const std::vector<CrewRun>& runs);

}  // namespace duskwire::study
