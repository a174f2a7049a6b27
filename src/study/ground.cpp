// SPDX-License-Identifier: Apache-2.0
#include "study/ground.hpp"

#include <array>

namespace duskwire::study {
namespace {

using job::GroundKind;

struct GroundName {
  std::string_view key;
  std::string_view words;
};

constexpr std::array<GroundName, 14> names = {{
    {"bed", "a bed"},
    {"lawn", "the lawn"},
    {"gravel", "gravel"},
    {"paving", "paving"},
    {"drive", "a drive"},
    {"street", "a street"},
    {"building", "a building"},
    {"deck", "a deck"},
    {"wall", "a wall"},
    {"steps", "steps"},
    {"water", "open water"},
    {"pool", "a pool"},
    {"root_zone", "a root zone"},
    {"forbidden", "a zone where nobody digs"},
}};

const GroundName& name_of(GroundKind kind) { return names.at(static_cast<std::size_t>(kind)); }

}  // namespace

std::string_view ground_key(GroundKind kind) { return name_of(kind).key; }
std::string_view ground_words(GroundKind kind) { return name_of(kind).words; }

GroundAlong ground_along(const job::PlanGround& ground, const geometry::Polyline& route) {
  GroundAlong along;
  for (const job::GroundStretch& stretch : ground.along(route)) {
    (stretch.kind ? along.length_m[*stretch.kind] : along.unknown_m) += stretch.length_m;
  }
  return along;
}

}  // namespace duskwire::study
