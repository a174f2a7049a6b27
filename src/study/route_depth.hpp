// SPDX-License-Identifier: Apache-2.0
// How deep a planned cable is laid: what the ruleset asks for over each ground it crosses, habits of good work too.
// Internal to the room.
#pragma once

#include "job/job.hpp"
#include "study/rules.hpp"

namespace duskwire::study {

class RouteDepths {
 public:
  explicit RouteDepths(const Ruleset& ruleset) : ruleset_(ruleset) {}
  // By the plan given, whose areas are those of the job. In its sleeve a cable has the sleeve's depth.
  [[nodiscard]] double cover_for(const job::Cable& cable, const job::Plan& plan) const;

 private:
  const Ruleset& ruleset_;
};

}  // namespace duskwire::study
