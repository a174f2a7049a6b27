// SPDX-License-Identifier: Apache-2.0
// Whether the ids of views agree: within a view each is used once, and what is named is there. A name that leads
// nowhere is a warning only, since a photograph outlives the tree on it.
#pragma once

#include "formats/context.hpp"
#include "job/job.hpp"

namespace duskwire::formats {

void check_views(Context& context, const job::Job& job);

}  // namespace duskwire::formats
