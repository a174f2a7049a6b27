// SPDX-License-Identifier: Apache-2.0
#include "estimate/cutting.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "estimate/coil_plan.hpp"

namespace duskwire::estimate {
namespace {

std::string end_name(const job::Job& job, const EndPlace& place, const std::string& id) {
  const auto named = [&](const std::string& name) { return name.empty() ? id : name; };
  switch (place.kind) {
    case EndKind::unknown:
      return id;
    case EndKind::output: {
      const std::string& name = job.transformers[place.index].name;
      return name.empty() ? id : fmt::format("{}, output {}", name, id);
    }
    case EndKind::joint:
      return named(job.joints[place.index].name);
    case EndKind::luminaire:
      return named(job.luminaires[place.index].name);
  }
  return id;
}

void report_unknown_end(LineBook& book, std::size_t index, const char* key, const std::string& id) {
  book.problem(
      Severity::error, fmt::format("/cables/{}/{}", index, key), id, "id of an output, joint or luminaire",
      fmt::format("This cable ends at \"{}\", which the job does not have: its slack there is not counted.", id));
}

struct Shelf {
  Picked<job::CableItem> picked;
  std::vector<Cut> cuts;
};
using Shelves = std::map<std::string, Shelf>;

// Puts one cable on its shelf, or says why it cannot be counted.
void sort_in(const job::Job& job, std::size_t index, const EndIndex& ends, const Stockroom& stockroom, LineBook& book,
             Shelves& shelves) {
  const job::Cable& cable = job.cables[index];
  const Picked<job::CableItem> picked = stockroom.pick(&job::Catalogue::cables, cable.item);
  if (!picked) {
    book.problem(Severity::error, fmt::format("/cables/{}/item", index), cable.item, "id of a cable in the catalogue",
                 fmt::format("Cable {} is not counted: the catalogue has no cable \"{}\".", cable.id, cable.item));
  }
  const std::optional<CableLength> length = cable_length(job, ends, cable);
  if (!length) {
    book.problem(Severity::error, fmt::format("/cables/{}/length_m", index), "", "metres, 0 or more, or a path",
                 fmt::format("Cable {} is not counted: give its length or draw its path.", cable.id));
  }
  const EndPlace from = ends.find(cable.from);
  const EndPlace to = ends.find(cable.to);
  if (from.kind == EndKind::unknown) report_unknown_end(book, index, "from", cable.from);
  if (to.kind == EndKind::unknown) report_unknown_end(book, index, "to", cable.to);
  if (!picked || !length) return;
  Shelf& shelf = shelves[cable.item];
  shelf.picked = picked;
  shelf.cuts.push_back({cable.id, cable.item, cable.from, end_name(job, from, cable.from), cable.to,
                        end_name(job, to, cable.to), length->route_m, length->slack_from_m, length->slack_to_m,
                        length->cut_m(), 1, 0});
}

CableTotal total_of(const Shelf& shelf, double waste_factor) {
  CableTotal total;
  total.item = shelf.picked.item->id;
  total.title = shelf.picked.item->title;
  total.cuts = static_cast<std::uint32_t>(shelf.cuts.size());
  for (const Cut& cut : shelf.cuts) {
    total.route_m += cut.route_m;
    total.slack_m += cut.slack_from_m + cut.slack_to_m;
  }
  total.cut_m = total.route_m + total.slack_m;
  total.with_waste_m = total.cut_m * waste_factor;
  return total;
}

std::vector<Reel> one_reel(const Shelf& shelf, const CableTotal& total) {
  return {{total.item, 1, rounded_up_m(total.with_waste_m, shelf.picked.item->sold_step_m), 0}};
}

// Each cut carries its own share of the waste into the coil. Cuts that no coil holds are bought by length, one reel
// each.
std::vector<Reel> coil_reels(Shelf& shelf, const std::vector<double>& sizes_m, double waste_factor, LineBook& book) {
  std::vector<double> lengths_m;
  for (const Cut& cut : shelf.cuts) lengths_m.push_back(cut.cut_m * waste_factor);
  const CoilPlan plan = plan_coils(lengths_m, sizes_m);
  std::vector<Reel> reels;
  const auto open_reel = [&](double length_m) {
    reels.push_back({shelf.picked.item->id, static_cast<std::uint32_t>(reels.size() + 1), length_m, 0});
    return reels.back().number;
  };
  for (const Coil& coil : plan.coils) {
    const std::uint32_t number = open_reel(coil.length_m);
    for (const std::size_t index : coil.cuts) shelf.cuts[index].reel = number;
  }
  for (const std::size_t index : plan.too_long) {
    Cut& cut = shelf.cuts[index];
    cut.reel = open_reel(rounded_up_m(lengths_m[index], shelf.picked.item->sold_step_m));
    book.problem(Severity::warning, "/cables", cut.tag, "no longer than the longest coil, waste included",
                 fmt::format("No coil of {} is long enough for cable {}: order that length, or put a joint on the way.",
                             cut.item, cut.tag));
  }
  return reels;
}

// Running totals along each reel, in the order of the list.
void run_reels(std::vector<Cut>& cuts, std::vector<Reel>& reels) {
  for (Cut& cut : cuts) {
    Reel& reel = reels[cut.reel - 1];
    reel.used_m += cut.cut_m;
    cut.running_m = reel.used_m;
  }
}

const std::vector<double>* sizes_of(const MaterialsOptions& options, const std::string& item) {
  for (const CoilSizes& sizes : options.coils) {
    if (sizes.item == item && !sizes.lengths_m.empty()) return &sizes.lengths_m;
  }
  return nullptr;
}

}  // namespace

double rounded_up_m(double length_m, double step_m) {
  constexpr double rounding = 1e-9;
  if (!std::isfinite(step_m) || step_m <= 0) return length_m;
  return std::ceil(length_m / step_m - rounding) * step_m;
}

void count_cables(const job::Job& job, const EndIndex& ends, const Stockroom& stockroom,
                  const MaterialsOptions& options, LineBook& book, Materials& materials) {
  Shelves shelves;
  for (std::size_t i = 0; i < job.cables.size(); ++i) sort_in(job, i, ends, stockroom, book, shelves);
  const double waste_pct = std::isfinite(job.practice.waste_pct) ? std::max(0.0, job.practice.waste_pct) : 0.0;
  const double waste_factor = 1 + waste_pct / 100;
  for (auto& [id, shelf] : shelves) {
    std::sort(shelf.cuts.begin(), shelf.cuts.end(),
              [](const Cut& p, const Cut& q) { return std::tie(q.cut_m, p.tag) < std::tie(p.cut_m, q.tag); });
    CableTotal total = total_of(shelf, waste_factor);
    const std::vector<double>* sizes_m = sizes_of(options, id);
    std::vector<Reel> reels = sizes_m ? coil_reels(shelf, *sizes_m, waste_factor, book) : one_reel(shelf, total);
    run_reels(shelf.cuts, reels);
    for (const Reel& reel : reels) total.bought_m += reel.length_m;
    book.add_cable(
        shelf.picked, total.bought_m, total.route_m,
        fmt::format("{} cut{}{}, slack and {:g} % waste included", total.cuts, total.cuts == 1 ? "" : "s",
                    sizes_m ? fmt::format(" from {} coil{}", reels.size(), reels.size() == 1 ? "" : "s") : "",
                    waste_pct));
    materials.cables.push_back(total);
    materials.reels.insert(materials.reels.end(), reels.begin(), reels.end());
    materials.cuts.insert(materials.cuts.end(), shelf.cuts.begin(), shelf.cuts.end());
  }
}

}  // namespace duskwire::estimate
