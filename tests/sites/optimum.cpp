// SPDX-License-Identifier: Apache-2.0
#include "sites/optimum.hpp"

#include "estimate/cable_length.hpp"
#include "estimate/materials.hpp"
#include "estimate/stockroom.hpp"
#include "sites/even_ground.hpp"
#include "sites/fixture_cost.hpp"
#include "sites/optimum_model.hpp"
#include "sites/stock.hpp"
#include "study/check.hpp"

namespace duskwire::sites {
namespace {

// Cable of each type and staples as they are used, less as they are bought.
double rounding_minor(const job::Job& job, const job::Catalogue& stock, const estimate::InstallRates& rates,
                      const estimate::Materials& list) {
  const estimate::Stockroom room(job.catalogue, stock);
  double rounding = 0;
  for (const estimate::CableTotal& total : list.cables) {
    const auto item = room.pick(&job::Catalogue::cables, total.item);
    if (item) rounding += static_cast<double>(item.item->price_minor_per_m) * (total.bought_m - total.with_waste_m);
  }
  const auto staple = room.cheapest(job::SundryKind::staple);
  if (!staple) return rounding;
  double pieces = 0;
  for (const estimate::MaterialLine& line : list.lines) pieces += line.item == staple.item->id ? line.quantity : 0;
  double used = 0;
  for (const job::Cable& cable : job.cables) {
    used += estimate::route_length_m(cable).value_or(0) / job.practice.staple_spacing_m;
  }
  const double minutes = staple.item->labour_min * static_cast<double>(rates.labour_minor_per_h) / 60;
  return rounding + (pieces - used) * (static_cast<double>(staple.item->price_minor) + minutes);
}

}  // namespace

double plain_cost_minor(const job::Job& job, const job::Catalogue& stock, const estimate::InstallRates& rates) {
  const estimate::Materials list = estimate::materials(job, stock);
  const estimate::InstalledCost whole = estimate::installed_cost(job, stock, rates);
  const double minor_per_min = static_cast<double>(rates.labour_minor_per_h) / 60;
  const double cost = static_cast<double>(whole.cost_minor) - fixture_cost_minor(job, stock, rates) -
                      rounding_minor(job, stock, rates, list);
  std::vector<geometry::Polyline> ways;
  for (const job::Cable& cable : job.cables) ways.push_back(cable.path);
  const double lawn_min = rates.trench_min_per_m[static_cast<std::size_t>(job::GroundKind::lawn)];
  return cost + (dug_once_m(ways) * lawn_min - whole.trench_min) * minor_per_min;
}

std::optional<Optimum> optimum(const job::Job& site, const job::Catalogue& stock, const estimate::InstallRates& rates,
                               const OptimumOptions& options) {
  const auto problem = optimum_problem(site, stock, rates, options);
  if (!problem) return std::nullopt;
  SolveOptions solving{options.seconds, options.tolerance, {}};
  constexpr double to_be_sure = 1.0005;  // so that the known wiring itself stays within
  if (options.known_cost_minor) solving.known_answer = *options.known_cost_minor * to_be_sure - problem->fixed_cost;
  for (const Volts volts : {Volts::left_out, Volts::kept}) {
    const auto solved = solve_with_cbc(optimum_model(*problem, volts), solving);
    if (!solved) return std::nullopt;
    Optimum best;
    best.cost_minor = solved->cost + problem->fixed_cost;
    best.bound_minor = solved->bound + problem->fixed_cost;
    best.proven = solved->proven;
    best.job = wired(site, sketch_of(*problem, solved->values), stock, rates);
    best.sound = study::check(best.job, us_rules(), stock, {.cures = false}).sound;
    if (volts == Volts::kept || (best.sound && best.proven)) return best;
  }
  return std::nullopt;
}

}  // namespace duskwire::sites
