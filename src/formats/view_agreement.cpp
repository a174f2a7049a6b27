// SPDX-License-Identifier: Apache-2.0
#include "formats/view_agreement.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>

namespace duskwire::formats {
namespace {

template <class List>
bool has_id(const List& list, const std::string& id) {
  return std::any_of(list.begin(), list.end(), [&](const auto& each) { return each.id == id; });
}

void check_id(Context& context, std::set<std::string>& seen, const job::View& view, const std::string& id) {
  if (id.empty() || seen.insert(id).second) return;
  const Context::Scope scope(context, "id");
  context.report(Severity::error, id, "an id used once in the view",
                 fmt::format("In view \"{}\" the id \"{}\" is used twice: give each surface, tree, mask and measure an "
                             "id of its own.",
                             view.id, id));
}

void check_name(Context& context, const char* key, const std::string& id, bool is_there, const char* kind,
                const std::string& owner) {
  if (id.empty() || is_there) return;
  const Context::Scope scope(context, key);
  context.report(
      Severity::warning, id, fmt::format("the id of a {}", kind),
      fmt::format("{} names the {} \"{}\", which is not there: correct the id or leave it out.", owner, kind, id));
}

template <class List, class Check>
void for_each(Context& context, const char* key, const List& list, const Check& check) {
  const Context::Scope scope(context, key);
  for (std::size_t i = 0; i < list.size(); ++i) {
    const Context::Scope inner(context, i);
    check(list[i]);
  }
}

void check_view(Context& context, const job::Job& job, const job::View& view) {
  check_name(context, "view_point", view.view_point, has_id(job.plan.view_points, view.view_point), "view point",
             fmt::format("View \"{}\"", view.id));
  std::set<std::string> seen;
  const auto check = [&](const auto& each) { check_id(context, seen, view, each.id); };
  for_each(context, "surfaces", view.surfaces, check);
  for_each(context, "masks", view.masks, check);
  for_each(context, "trees", view.trees, [&](const job::PictureTree& tree) {
    check(tree);
    check_name(context, "tree", tree.tree, has_id(job.plan.trees, tree.tree), "tree",
               fmt::format("\"{}\" in view \"{}\"", tree.id, view.id));
  });
  for_each(context, "measures", view.measures, [&](const job::PictureMeasure& measure) {
    check(measure);
    check_name(context, "surface", measure.surface, has_id(view.surfaces, measure.surface), "surface",
               fmt::format("Measure \"{}\" in view \"{}\"", measure.id, view.id));
  });
}

}  // namespace

void check_views(Context& context, const job::Job& job) {
  for_each(context, "views", job.views, [&](const job::View& view) { check_view(context, job, view); });
}

}  // namespace duskwire::formats
