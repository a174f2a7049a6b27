// SPDX-License-Identifier: Apache-2.0
#include "study/route_goods.hpp"

#include <algorithm>
#include <tuple>

#include "estimate/stockroom.hpp"
#include "job/catalogue_merge.hpp"
#include "study/outdoor_units.hpp"

namespace duskwire::study {
namespace {

// Prices as they stand, whatever their currency: of another one the merge would price the stock 0, and what costs
// nothing would be planned with first.
job::Catalogue shelf_of(const job::Job& job, const job::Catalogue& stock) {
  job::Catalogue own = job.catalogue;
  own.currency = stock.currency;
  return job::merge_catalogue(stock, own).catalogue;
}

// Cables by gauge where the job has such cables, or, where it has none, where feet are spoken.
bool by_gauge(const job::Job& job) {
  std::size_t gauge = 0;
  std::size_t area = 0;
  for (const job::Cable& cable : job.cables) {
    const job::CableItem* item = job::find_cable(job.catalogue, cable.item);
    if (item) ++(item->gauge_awg ? gauge : area);
  }
  return gauge == area ? job.site.units == job::DisplayUnits::us : gauge > area;
}

}  // namespace

RouteGoods::RouteGoods(const job::Job& job, const job::Catalogue& stock, const estimate::InstallRates& rates)
    : prices(rates), shelf(shelf_of(job, stock)) {
  const bool gauge = by_gauge(job);
  const auto is_used = [&](const std::string& id) {
    return std::any_of(job.cables.begin(), job.cables.end(), [&](const job::Cable& cable) { return cable.item == id; });
  };
  const auto usable = [](const job::CableItem& item) {
    return item.direct_burial && item.ohm_per_m_20c > 0 && item.area_mm2 > 0;
  };
  for (const job::CableItem& item : shelf.cables) {
    if (usable(item) && (item.gauge_awg.has_value() == gauge || is_used(item.id))) cables.push_back(&item);
  }
  if (cables.empty()) {  // a shop that sells the other kind alone
    for (const job::CableItem& item : shelf.cables) {
      if (usable(item)) cables.push_back(&item);
    }
  }
  std::sort(cables.begin(), cables.end(), [](const auto* p, const auto* q) {
    return std::tie(q->ohm_per_m_20c, p->price_minor_per_m, p->id) <
           std::tie(p->ohm_per_m_20c, q->price_minor_per_m, q->id);
  });
  for (const job::TransformerItem& item : shelf.transformers) {
    if (suits_a_garden(item) && item.rating_va > 0 && item.output_count > 0) transformers.push_back(&item);
  }
  std::sort(transformers.begin(), transformers.end(), [&](const auto* p, const auto* q) {
    return std::make_tuple(prices.of(p->price_minor, p->labour_min), p->id) <
           std::make_tuple(prices.of(q->price_minor, q->labour_min), q->id);
  });
  for (const auto* cable : cables) sizes_mm2.push_back(cable->area_mm2);
  for (const job::Luminaire& luminaire : job.luminaires) {
    const job::LuminaireItem* item = job::find_luminaire(shelf, luminaire.item);
    if (item && item->lead_area_mm2 > 0) sizes_mm2.push_back(item->lead_area_mm2);
  }
  std::sort(sizes_mm2.begin(), sizes_mm2.end());
  constexpr double same_size = 1.005;
  sizes_mm2.erase(
      std::unique(sizes_mm2.begin(), sizes_mm2.end(), [](double p, double q) { return q <= p * same_size; }),
      sizes_mm2.end());
}

std::uint32_t RouteGoods::size_rank(double area_mm2) const {
  std::uint32_t nearest = 0;
  for (std::uint32_t i = 0; i < sizes_mm2.size(); ++i) {
    if (std::abs(sizes_mm2[i] - area_mm2) < std::abs(sizes_mm2[nearest] - area_mm2)) nearest = i;
  }
  return nearest;
}

double RouteGoods::cable_cost_per_m(const job::CableItem& item, const job::Practice& practice) const {
  const double bought = static_cast<double>(item.price_minor_per_m) * (1 + practice.waste_pct / 100);
  const double staples =
      practice.staple_spacing_m > 0 ? sundry_cost(job::SundryKind::staple) / practice.staple_spacing_m : 0;
  return bought + prices.minutes(item.labour_min_per_m) + staples;
}

std::optional<RouteGoods::Choice> RouteGoods::connector_for(const std::vector<estimate::JointWire>& wires) const {
  std::optional<Choice> best;
  for (const job::ConnectorItem& item : shelf.connectors) {
    if (!item.sealed || !item.mechanically_held) continue;
    const auto fit = estimate::connector_fit(item, wires);
    if (!fit || fit->pieces_per_conductor > 1) continue;
    const double cost = prices.of(item.price_minor, item.labour_min) * estimate::pieces_for_both(item, *fit);
    if (!best || cost < best->cost) best = Choice{&item, cost};
  }
  return best;
}

wiring::JointCosts RouteGoods::joint_costs() const {
  const auto count = static_cast<std::uint32_t>(sizes_mm2.size());
  wiring::JointCosts costs(count);
  for (std::uint32_t wires = 2; wires <= wiring::JointCosts::most_wires; ++wires) {
    for (std::uint32_t thin = 0; thin < count; ++thin) {
      for (std::uint32_t thick = thin; thick < count; ++thick) {
        std::vector<estimate::JointWire> meeting(wires);
        for (estimate::JointWire& wire : meeting) wire.area_mm2 = sizes_mm2[thick];
        meeting.front().area_mm2 = sizes_mm2[thin];
        const auto choice = connector_for(meeting);
        if (choice) costs.at(wires, thin, thick) = {choice->cost, choice->item->contact_ohm, true};
      }
    }
  }
  return costs;
}

double RouteGoods::sundry_cost(job::SundryKind kind) const {
  const job::SundryItem* best = nullptr;
  for (const job::SundryItem& item : shelf.sundries) {
    if (item.kind == kind && (!best || std::tie(item.price_minor, item.id) < std::tie(best->price_minor, best->id)))
      best = &item;
  }
  return best ? prices.of(best->price_minor, best->labour_min) : 0;
}

double RouteGoods::control_cost(const std::string& id) const {
  for (const job::ControlItem& item : shelf.controls) {
    if (item.id == id) return prices.of(item.price_minor, item.labour_min);
  }
  return 0;
}

const job::ControlItem* RouteGoods::usual_clock() const {
  for (const job::ControlItem& item : shelf.controls) {
    if (item.kind == job::ControlKind::astronomic_timer) return &item;
  }
  return nullptr;
}

}  // namespace duskwire::study
