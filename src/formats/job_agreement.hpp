// SPDX-License-Identifier: Apache-2.0
// Whether the parts of a job fit each other where a reference alone does not tell: taps in use, outputs in use, money.
#pragma once

#include "formats/context.hpp"
#include "job/job.hpp"

namespace duskwire::formats {

// Only warnings: a job may be half way through a change.
void check_agreement(Context& context, const job::Job& job);

}  // namespace duskwire::formats
