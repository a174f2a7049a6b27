// SPDX-License-Identifier: Apache-2.0
#include "cli/names.hpp"

namespace duskwire::cli {

Names::Names(const job::Job& job) {
  for (const auto& luminaire : job.luminaires) names_[luminaire.id] = luminaire.name;
  for (const auto& transformer : job.transformers) names_[transformer.id] = transformer.name;
  for (const auto& joint : job.joints) names_[joint.id] = joint.name;
  for (const auto& area : job.plan.areas) names_.try_emplace(area.id, area.name);
  for (const auto& tree : job.plan.trees) names_.try_emplace(tree.id, tree.name);
  for (const auto& eye : job.plan.view_points) names_.try_emplace(eye.id, eye.name);
  for (const auto& cable : job.cables) names_[cable.id] = "from " + cable.from + " to " + cable.to;
}

std::string Names::name(const std::string& id) const {
  const auto found = names_.find(id);
  return found == names_.end() ? "" : found->second;
}

std::string Names::called(const std::string& id) const {
  const std::string given = name(id);
  return given.empty() ? id : id + " (" + given + ")";
}

}  // namespace duskwire::cli
