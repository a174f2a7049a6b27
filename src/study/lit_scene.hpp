// SPDX-License-Identifier: Apache-2.0
// A job as a scene of light: its lamps, what stands in the way of light, and the crowns that let part of it through.
// Buildings, walls, decks and steps are solids upright over their outlines; a tree is a trunk up to its crown and an
// ellipsoid of foliage. The ground itself is no solid: light below grade is nobody's.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "light/scene.hpp"
#include "study/finding.hpp"
#include "study/lit_lamps.hpp"

namespace duskwire::study {

// Whose a triangle is: TriangleMesh::thing is an index into LitJob::things.
struct SolidThing {
  enum class Kind : std::uint8_t { area = 0, trunk = 1 };
  Kind kind = Kind::area;
  std::uint32_t index = 0;  // into Plan::areas or Plan::trees
};

struct LitJob {
  light::Scene scene;          // scene.lamps[i] is lamps[i]; crowns[i] stands for crown_trees[i]
  std::vector<LitLamp> lamps;  // with the places that the scene has, outside of solids
  std::vector<SolidThing> things;
  std::vector<std::uint32_t> crown_trees;  // index into Plan::trees
  Findings findings;
};

// The job must outlive the answer.
[[nodiscard]] LitJob lit_scene(const job::Job& job, const LitOptions& options = {});

// Of an area over grade as the scene takes it: a building without a height is taken as one storey.
[[nodiscard]] double solid_height_m(const job::Area& area);

}  // namespace duskwire::study
