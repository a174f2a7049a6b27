// SPDX-License-Identifier: Apache-2.0
// Gardens to be wired, made by dice: the same request gives the same job on every platform. Lamps stand where a
// designer would put them, walls have places for transformers, and there is no wiring yet. Used by tests and by the
// bench.
#pragma once

#include <cstdint>

#include "job/job.hpp"

namespace duskwire::sites {

struct LotRequest {
  std::uint32_t lamps = 40;
  std::uint64_t seed = 1;
};

// House, garage, drive, walk, patio, beds, trees, sometimes a pool or a pond, a street in front. Up to fifty lamps are
// one lot, more are an estate of several along streets. `stock` is the stock catalogue: the job copies what it uses.
[[nodiscard]] job::Job lot(const LotRequest& request, const job::Catalogue& stock);

// Lamps at least 2.5 m apart on one level lawn with one transformer at its edge: no obstacle, one kind of ground.
[[nodiscard]] job::Job open_lawn(const LotRequest& request, const job::Catalogue& stock);

}  // namespace duskwire::sites
