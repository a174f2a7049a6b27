// SPDX-License-Identifier: Apache-2.0
#include "estimate/sundries.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "estimate/cutting.hpp"
#include "estimate/ground_stretches.hpp"

namespace duskwire::estimate {
namespace {

const char* sundry_text(job::SundryKind kind) {
  switch (kind) {
    case job::SundryKind::stake:
      return "stake";
    case job::SundryKind::staple:
      return "staple";
    case job::SundryKind::sleeve:
      return "sleeve";
    case job::SundryKind::tag:
      return "tag";
    case job::SundryKind::post_mount:
      return "post mount";
    case job::SundryKind::tree_mount:
      return "tree mount";
    case job::SundryKind::drainage:
      return "drainage";
    case job::SundryKind::other:
      return "sundry";
  }
  return "";
}

// The item to take, or nothing and a problem.
Picked<job::SundryItem> cheapest_or_report(job::SundryKind kind, const std::string& note, const Stockroom& stockroom,
                                           LineBook& book) {
  const auto picked = stockroom.cheapest(kind);
  if (!picked) {
    book.problem(Severity::warning, "/catalogue/sundries", "", fmt::format("an item of kind {}", sundry_text(kind)),
                 fmt::format("Not counted, since the catalogue has no {}: {}.", sundry_text(kind), note));
  }
  return picked;
}

bool takes_staples(const std::optional<job::GroundKind>& ground) {
  if (!ground) return true;
  switch (*ground) {
    case job::GroundKind::bed:
    case job::GroundKind::lawn:
    case job::GroundKind::gravel:
    case job::GroundKind::root_zone:
    case job::GroundKind::forbidden:
      return true;
    default:
      return false;
  }
}

double length_of_path_m(const geometry::Polyline& path) {
  job::Cable along;
  along.path = path;
  return route_length_m(along).value_or(0);
}

// One staple per begun spacing of each cable's length in soil.
double staples_for(const std::vector<job::GroundStretch>& stretches, double spacing_m) {
  double soil_m = 0;
  for (const job::GroundStretch& stretch : stretches) {
    if (takes_staples(stretch.kind)) soil_m += stretch.length_m;
  }
  return rounded_up_m(soil_m, spacing_m) / spacing_m;
}

struct SleeveNeed {
  std::vector<double> lengths_m;       // one per piece of sleeve
  std::set<std::string> plan_ids;      // of the plan, each counted once
  std::vector<std::string> crossings;  // cables without one
};

const job::Sleeve* find_sleeve(const job::Plan& plan, const std::string& id) {
  const auto found = std::find_if(plan.sleeves.begin(), plan.sleeves.end(),
                                  [&](const job::Sleeve& sleeve) { return sleeve.id == id; });
  return found == plan.sleeves.end() ? nullptr : &*found;
}

void add_sleeves(const job::Job& job, std::size_t index, const std::vector<job::GroundStretch>& stretches,
                 const std::vector<std::string>& laid, LineBook& book, SleeveNeed& need) {
  const job::Cable& cable = job.cables[index];
  if (const job::Sleeve* sleeve = cable.sleeve.empty() ? nullptr : find_sleeve(job.plan, cable.sleeve)) {
    if (sleeve->laid.value_or(false) || std::find(laid.begin(), laid.end(), sleeve->id) != laid.end()) return;
    if (need.plan_ids.insert(sleeve->id).second) need.lengths_m.push_back(length_of_path_m(sleeve->path));
    return;
  }
  if (!cable.sleeve.empty()) {
    book.problem(Severity::warning, fmt::format("/cables/{}/sleeve", index), cable.sleeve, "id of a sleeve in the plan",
                 fmt::format("Cable {} names sleeve \"{}\", which the plan does not have.", cable.id, cable.sleeve));
  }
  for (const job::GroundStretch& stretch : stretches) {
    if (!stretch.kind || !is_hard(*stretch.kind)) continue;
    need.lengths_m.push_back(stretch.length_m + 2 * sleeve_overhang_m);
    if (need.crossings.empty() || need.crossings.back() != cable.id) need.crossings.push_back(cable.id);
  }
}

void buy_sleeves(const SleeveNeed& need, const Stockroom& stockroom, LineBook& book) {
  if (need.lengths_m.empty()) return;
  std::vector<std::string> parts;
  if (!need.plan_ids.empty()) {
    parts.push_back(fmt::format("on the plan: {}, strike those already laid",
                                name_list({need.plan_ids.begin(), need.plan_ids.end()})));
  }
  if (!need.crossings.empty()) parts.push_back(fmt::format("where {} cross paving", name_list(need.crossings)));
  const std::string note = fmt::format("{}", fmt::join(parts, "; "));
  const auto picked = cheapest_or_report(job::SundryKind::sleeve, note, stockroom, book);
  if (!picked) return;
  const bool by_metre = picked.item->unit == "m";
  double quantity = static_cast<double>(need.lengths_m.size());
  if (by_metre) {
    quantity = 0;
    for (const double length_m : need.lengths_m) quantity += length_m;
    quantity = rounded_up_m(quantity, 1);
  }
  book.add(Category::sundry, picked, quantity, by_metre ? "m" : "piece", note);
}

std::size_t tagged_ends(const job::Cable& cable, const EndIndex& ends) {
  std::size_t count = 0;
  for (const std::string* end : {&cable.from, &cable.to}) {
    const EndKind kind = ends.find(*end).kind;
    if (kind == EndKind::output || kind == EndKind::joint) ++count;
  }
  return count;
}

}  // namespace

void add_sundry(Category category, job::SundryKind kind, double pieces, std::string note, const Stockroom& stockroom,
                LineBook& book) {
  if (!(pieces > 0)) return;
  const auto picked = cheapest_or_report(kind, note, stockroom, book);
  if (picked) book.add(category, picked, pieces, "piece", std::move(note));
}

void count_sundries(const job::Job& job, const EndIndex& ends, const Stockroom& stockroom,
                    const MaterialsOptions& options, LineBook& book) {
  const double spacing_m = job.practice.staple_spacing_m;
  double staples = 0;
  std::size_t tags = 0;
  SleeveNeed sleeves;
  const job::PlanGround ground(job.plan);
  for (std::size_t i = 0; i < job.cables.size(); ++i) {
    tags += tagged_ends(job.cables[i], ends);
    const std::optional<double> route_m = route_length_m(job.cables[i]);
    if (!route_m) continue;
    const auto stretches = ground_stretches(ground, job.cables[i], *route_m);
    if (std::isfinite(spacing_m) && spacing_m > 0) staples += staples_for(stretches, spacing_m);
    add_sleeves(job, i, stretches, options.laid_sleeves, book, sleeves);
  }
  add_sundry(Category::sundry, job::SundryKind::staple, std::round(staples), "cable in soil", stockroom, book);
  buy_sleeves(sleeves, stockroom, book);
  add_sundry(Category::sundry, job::SundryKind::tag, static_cast<double>(tags),
             "every cable end at a transformer or a joint", stockroom, book);
}

}  // namespace duskwire::estimate
