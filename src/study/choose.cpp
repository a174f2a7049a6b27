// SPDX-License-Identifier: Apache-2.0
#include "study/choose.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/decimal.hpp"
#include "study/choose_parts.hpp"

namespace duskwire::study {
namespace {

const job::Area* find_area(const job::Plan& plan, const std::string& id) {
  const auto found =
      std::find_if(plan.areas.begin(), plan.areas.end(), [&](const auto& area) { return area.id == id; });
  return found == plan.areas.end() ? nullptr : &*found;
}

Result<Choice> for_tree(const ChooseContext& context) {
  const std::string& id = context.request.tree;
  for (const job::Tree& tree : context.job.plan.trees) {
    if (tree.id != id) continue;
    if (tree.crown_width_m > 0 && tree.height_m > tree.crown_base_m) return choose_for_tree(context, tree);
    return Error{ErrorCode::invalid,
                 fmt::format("Tree \"{}\" has no crown to light: set its height, crown width and crown base.", id)};
  }
  return Error{ErrorCode::not_found, fmt::format("The plan has no tree \"{}\".", id)};
}

Result<Choice> for_area(const ChooseContext& context) {
  const std::string& id = context.request.area;
  const job::Area* area = find_area(context.job.plan, id);
  if (area == nullptr) return Error{ErrorCode::not_found, fmt::format("The plan has no area \"{}\".", id)};
  if (area->kind == job::GroundKind::steps) return choose_for_steps(context, *area);
  const std::optional<geometry::Strip> strip = geometry::strip_of(area->outline);
  if (strip) return choose_for_walk(context, *area, *strip);
  return Error{
      ErrorCode::unsupported,
      fmt::format("\"{}\" is neither steps nor longer than it is wide, as a walk is. Name a tree, a walk, steps "
                  "or a face.",
                  id)};
}

Result<Choice> for_face(const ChooseContext& context) {
  const std::string& name = context.request.face;
  const std::size_t slash = name.rfind('/');
  const std::string id = name.substr(0, slash);
  const job::Area* area = find_area(context.job.plan, id);
  const bool upright =
      area != nullptr && (area->kind == job::GroundKind::building || area->kind == job::GroundKind::wall);
  if (slash == std::string::npos || !upright) {
    return Error{
        ErrorCode::not_found,
        fmt::format("The plan has no face \"{}\": name a building or wall and its edge, as in house/0.", name)};
  }
  const LeadingNumber edge = leading_number(std::string_view(name).substr(slash + 1));
  const bool whole = edge.length == name.size() - slash - 1 && edge.length > 0 && edge.value >= 0;
  if (!whole || edge.value >= static_cast<double>(area->outline.size())) {
    return Error{ErrorCode::not_found,
                 fmt::format("\"{}\" has the edges 0 to {}.", id, std::max<std::size_t>(area->outline.size(), 1) - 1)};
  }
  return choose_for_face(context, *area, static_cast<std::size_t>(edge.value));
}

}  // namespace

Result<Choice> choose(const job::Job& job, const ChooseRequest& request, const job::Catalogue& stock,
                      const LevelSets& sets) {
  const int named = int(!request.tree.empty()) + int(!request.area.empty()) + int(!request.face.empty());
  if (named != 1) {
    return Error{ErrorCode::invalid, "Name one thing to light: a tree, an area (a walk or steps) or a face."};
  }
  std::string set = request.targets.empty() ? job.light.targets : request.targets;
  if (set.empty()) set = "garden";
  const ChooseContext context{job, request, stock, find_set(sets, set)};
  if (!request.item.empty() && candidates(context, {}).empty()) {
    return Error{ErrorCode::not_found, fmt::format("No article \"{}\" gives light.", request.item)};
  }
  if (!request.tree.empty()) return for_tree(context);
  return request.area.empty() ? for_face(context) : for_area(context);
}

}  // namespace duskwire::study
