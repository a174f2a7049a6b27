// SPDX-License-Identifier: Apache-2.0
#include "sites/optimum.hpp"

#include <cmath>
#include <limits>

#include "cli/cbc.hpp"
#include "estimate/cable_length.hpp"
#include "estimate/materials.hpp"
#include "estimate/stockroom.hpp"
#include "sites/even_ground.hpp"
#include "sites/fixture_cost.hpp"
#include "sites/stock.hpp"
#include "study/check.hpp"
#include "wiring/exact_model.hpp"

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

class Proof {
 public:
  Proof(const wiring::ExactProblem& problem, const job::Job& site, const job::Catalogue& stock,
        const estimate::InstallRates& rates, const OptimumOptions& options)
      : problem_(problem), site_(site), stock_(stock), rates_(rates), options_(options) {
    best_.cost_minor = options.known_cost_minor.value_or(std::numeric_limits<double>::infinity());
  }

  std::optional<Optimum> run() {
    best_.proven = true;
    best_.bound_minor = std::numeric_limits<double>::infinity();
    for (const wiring::ExactProblem::Unit& unit : problem_.units) {
      if (unit.cost >= best_.cost_minor) break;
      if (!with_unit(unit)) return std::nullopt;
    }
    if (!std::isfinite(best_.cost_minor)) return std::nullopt;
    best_.bound_minor = std::min(best_.bound_minor, best_.cost_minor);
    return std::move(best_);
  }

 private:
  // Without volts first: that is far easier, its bound holds with volts too, and where its optimum passes the full
  // check it is the optimum.
  bool with_unit(const wiring::ExactProblem::Unit& unit) {
    double bound = 0;
    bool proven = false;
    for (const wiring::Volts volts : {wiring::Volts::left_out, wiring::Volts::kept}) {
      const auto solved = solve(unit, volts);
      if (!solved) return false;
      bound = std::max(bound, solved->bound);
      const bool is_sound = !solved->cost || take(unit, *solved, volts);
      proven = solved->proven && (is_sound || volts == wiring::Volts::kept);
      if (proven || !solved->proven) break;  // what the easier program had too little time for, the harder one has too
    }
    best_.bound_minor = std::min(best_.bound_minor, bound + unit.cost);
    best_.proven = best_.proven && proven;
    return true;
  }

  [[nodiscard]] std::optional<wiring::ProgramAnswer> solve(const wiring::ExactProblem::Unit& unit,
                                                           wiring::Volts volts) const {
    constexpr double to_be_sure = 1.0005;  // so that the known wiring itself stays within
    wiring::SolveOptions solving;
    solving.seconds = options_.seconds;
    solving.tolerance = options_.tolerance;
    if (std::isfinite(best_.cost_minor)) solving.known_answer = best_.cost_minor * to_be_sure - unit.cost;
    return cli::solve_with_cbc(wiring::exact_model(problem_, unit, volts), solving);
  }

  // Whether the wiring passes the full check. Without volts one that does not is no wiring at all.
  bool take(const wiring::ExactProblem::Unit& unit, const wiring::ProgramAnswer& solved, wiring::Volts volts) {
    const job::Job job = wired(site_, sketch_of(problem_, unit, solved.values), stock_, rates_);
    const bool is_sound = study::check(job, us_rules(), stock_, {.cures = false}).sound;
    const double cost_minor = *solved.cost + unit.cost;
    if (cost_minor < best_.cost_minor && (is_sound || volts == wiring::Volts::kept)) {
      best_.cost_minor = cost_minor;
      best_.job = job;
      best_.sound = is_sound;
    }
    return is_sound;
  }

  const wiring::ExactProblem& problem_;
  const job::Job& site_;
  const job::Catalogue& stock_;
  const estimate::InstallRates& rates_;
  const OptimumOptions& options_;
  Optimum best_;
};

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
  return Proof(*problem, site, stock, rates, options).run();
}

}  // namespace duskwire::sites
