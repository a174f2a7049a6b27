// SPDX-License-Identifier: Apache-2.0
// What readings leave open: the test by hand that tells one kind of fault from its neighbours, and the faults that no
// reading taken so far could show. Internal to the room.
#pragma once

#include <string>
#include <vector>

#include "study/locate.hpp"
#include "study/network_builder.hpp"

namespace duskwire::study {

// Empty where nothing is wrong.
[[nodiscard]] std::string separating_test(diagnosis::FaultKind kind);

// Whether all that was read agrees with the plan, as far as it goes.
[[nodiscard]] bool planned_is_likeliest(const Located& located);

// By what was read, seen and told; `visit` may be null.
[[nodiscard]] std::vector<Unseen> unseen(const Built& built, const std::vector<job::Reading>& readings,
                                         const job::Visit* visit, const Located& located);

}  // namespace duskwire::study
