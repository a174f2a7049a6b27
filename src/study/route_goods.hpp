// SPDX-License-Identifier: Apache-2.0
// What a plan may be made of: cables, transformers and connectors of the job's catalogue and the stock, with what they
// cost put in. Internal to the room.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "estimate/connector_choice.hpp"
#include "estimate/installed.hpp"
#include "job/job.hpp"
#include "wiring/plan_problem.hpp"

namespace duskwire::study {

// Prices and hours as one number, in minor units of the currency.
class RoutePrices {
 public:
  explicit RoutePrices(const estimate::InstallRates& rates) : rates_(rates) {}
  [[nodiscard]] double of(std::int64_t price_minor, double labour_min) const {
    return static_cast<double>(price_minor) + minutes(labour_min);
  }
  [[nodiscard]] double minutes(double labour_min) const {
    return labour_min * static_cast<double>(rates_.labour_minor_per_h) / 60;
  }
  [[nodiscard]] const estimate::InstallRates& rates() const { return rates_; }

 private:
  estimate::InstallRates rates_;
};

// Everything there is to choose from, the job's own first; kept by value so that pointers into it stay good.
struct RouteGoods {
  RouteGoods(const job::Job& job, const job::Catalogue& stock, const estimate::InstallRates& rates);

  RoutePrices prices;
  job::Catalogue shelf;                                   // the job's own items and those of the stock that it lacks
  std::vector<const job::CableItem*> cables;              // thin to thick
  std::vector<const job::TransformerItem*> transformers;  // cheapest first
  std::vector<double> sizes_mm2;                          // that can meet in a joint, ascending

  [[nodiscard]] std::uint32_t size_rank(double area_mm2) const;
  [[nodiscard]] double cable_cost_per_m(const job::CableItem& item, const job::Practice& practice) const;
  // The connector that costs least put in, sealed and held, and for how many pieces. As the planner reckons joints.
  struct Choice {
    const job::ConnectorItem* item = nullptr;
    double cost = 0;
  };
  [[nodiscard]] std::optional<Choice> connector_for(const std::vector<estimate::JointWire>& wires) const;
  [[nodiscard]] wiring::JointCosts joint_costs() const;
  // The cheapest sundry of a kind put in; 0 where there is none.
  [[nodiscard]] double sundry_cost(job::SundryKind kind) const;
  [[nodiscard]] double control_cost(const std::string& id) const;
  [[nodiscard]] const job::ControlItem* usual_clock() const;
};

}  // namespace duskwire::study
