// SPDX-License-Identifier: Apache-2.0
// The plan of a job as a drawing for other programs: DXF in metres, x east and y north as the site's frame has them,
// one layer for each thing of the trade, lights as blocks. Layers: docs/guide.md.
#pragma once

#include <string>

#include "job/job.hpp"

namespace duskwire::formats {

[[nodiscard]] std::string plan_dxf(const job::Job& job);

}  // namespace duskwire::formats
