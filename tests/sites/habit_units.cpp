// SPDX-License-Identifier: Apache-2.0
#include "sites/habit_units.hpp"

#include <algorithm>
#include <iterator>
#include <limits>
#include <set>

#include "study/cure_candidates.hpp"

namespace duskwire::sites {
namespace {

// Volts at which amperes are reckoned beforehand: what a lamp sees at the end of a usual run.
constexpr double usual_v = 12;

double highest_tap_v(const job::TransformerItem& item, const job::Job& site) {
  double most_v = std::numeric_limits<double>::infinity();
  for (const job::Luminaire& lamp : site.luminaires) {
    const job::LuminaireItem* kind = job::find_luminaire(site.catalogue, lamp.item);
    if (kind && kind->window_max_v > 0) most_v = std::min(most_v, kind->window_max_v);
  }
  double tap_v = item.taps_v.front();
  for (const double offered_v : item.taps_v) {
    if (offered_v * (1 + site.site.corners.mains_tolerance_pct / 100) <= most_v) tap_v = offered_v;
  }
  return tap_v;
}

bool is_usual(const job::TransformerItem& item) { return item.outdoor_listed && !item.pool_listed; }

// The largest device that the output may have and that protects the cable.
double largest_device_a(double output_limit_a, double cable_a) {
  double largest_a = 0;
  for (const double size_a : study::breaker_sizes_a) {
    if (size_a <= output_limit_a && size_a <= cable_a) largest_a = size_a;
  }
  return largest_a;
}

double output_va(const job::TransformerItem& item, double cable_a, const job::Practice& practice) {
  return largest_device_a(item.output_limit_a, cable_a) * practice.output_load_pct / 100 * usual_v;
}

// Runs in units of one kind, first fit, heavy ones first.
struct Filled {
  struct Unit {
    double load_va = 0;
    std::vector<double> outputs_va;
    std::vector<std::pair<std::size_t, std::size_t>> runs;  // run, output
  };
  std::vector<Unit> units;
  bool fits = true;
};

Filled filled(const job::TransformerItem& item, const job::Practice& practice, const std::vector<HabitRun>& runs,
              const RunNeeds& needs, std::vector<std::size_t> order) {
  const double most_va = item.rating_va * practice.transformer_load_pct / 100;
  const double most_output_va = std::min(most_va, output_va(item, needs.cable_a, practice));
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t p, std::size_t q) { return runs[p].load_va > runs[q].load_va; });
  Filled filled;
  for (const std::size_t run : order) {
    const double load_va = runs[run].load_va * needs.losses;
    if (load_va > most_output_va) filled.fits = false;
    bool placed = false;
    for (std::size_t u = 0; u <= filled.units.size() && !placed && filled.fits; ++u) {
      if (u == filled.units.size()) filled.units.push_back({0, std::vector<double>(item.output_count, 0), {}});
      Filled::Unit& unit = filled.units[u];
      if (unit.load_va + load_va > most_va) continue;
      const auto output = std::min_element(unit.outputs_va.begin(), unit.outputs_va.end());
      if (*output + load_va > most_output_va) continue;
      *output += load_va;
      unit.load_va += load_va;
      unit.runs.emplace_back(run, static_cast<std::size_t>(output - unit.outputs_va.begin()));
      placed = true;
    }
  }
  return filled;
}

}  // namespace

double most_va_of_a_run(double cable_a, const job::Job& site, const job::Catalogue& stock) {
  double most_va = 0;
  for (const job::TransformerItem& item : stock.transformers) {
    if (!is_usual(item)) continue;
    most_va = std::max(most_va, std::min(item.rating_va * site.practice.transformer_load_pct / 100,
                                         output_va(item, cable_a, site.practice)));
  }
  return most_va;
}

double device_a(double current_a, const job::Practice& practice) {
  for (const double size_a : study::breaker_sizes_a) {
    if (size_a * practice.output_load_pct / 100 >= current_a) return size_a;
  }
  return *std::rbegin(study::breaker_sizes_a);
}

std::vector<std::size_t> hang_units(const std::vector<HabitRun>& runs, const RunNeeds& needs, const job::Job& site,
                                    const job::Catalogue& stock, const estimate::InstallRates& rates,
                                    WiringSketch& sketch) {
  std::vector<std::size_t> output_of(runs.size(), 0);
  std::set<std::size_t> places;
  for (const HabitRun& run : runs) places.insert(run.place);
  for (const std::size_t place : places) {
    std::vector<std::size_t> here;
    for (std::size_t r = 0; r < runs.size(); ++r) {
      if (runs[r].place == place) here.push_back(r);
    }
    const job::TransformerItem* best = nullptr;
    Filled best_filled;
    double best_cost = std::numeric_limits<double>::infinity();
    for (const job::TransformerItem& item : stock.transformers) {
      if (!is_usual(item)) continue;
      Filled tried = filled(item, site.practice, runs, needs, here);
      const double each =
          static_cast<double>(item.price_minor) + item.labour_min * static_cast<double>(rates.labour_minor_per_h) / 60;
      const double cost = each * static_cast<double>(tried.units.size());
      if (!tried.fits || cost >= best_cost) continue;
      best = &item;
      best_filled = std::move(tried);
      best_cost = cost;
    }
    if (!best) return {};
    for (const Filled::Unit& unit : best_filled.units) {
      std::vector<std::size_t> index(unit.outputs_va.size(), 0);
      for (std::size_t o = 0; o < index.size(); ++o) {
        if (unit.outputs_va[o] == 0) continue;
        index[o] = sketch.outputs.size();
        sketch.outputs.push_back({sketch.units.size(), highest_tap_v(*best, site)});
      }
      for (const auto& [run, output] : unit.runs) output_of[run] = index[output];
      sketch.units.push_back({best->id, place});
    }
  }
  return output_of;
}

}  // namespace duskwire::sites
