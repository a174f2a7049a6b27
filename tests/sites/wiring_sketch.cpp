// SPDX-License-Identifier: Apache-2.0
#include "sites/wiring_sketch.hpp"

#include <algorithm>

#include "estimate/connector_choice.hpp"
#include "estimate/joint_wires.hpp"

namespace duskwire::sites {
namespace {

template <class Item>
void take_item(std::vector<Item>& own, const std::vector<Item>& stock, const std::string& id) {
  const auto has_id = [&](const Item& item) { return item.id == id; };
  if (std::any_of(own.begin(), own.end(), has_id)) return;
  const auto found = std::find_if(stock.begin(), stock.end(), has_id);
  if (found != stock.end()) own.push_back(*found);
}

std::string output_id(const std::string& transformer, std::size_t index) {
  return transformer + "-" + std::string(1, static_cast<char>('A' + index));
}

class Wirer {
 public:
  Wirer(const job::Job& site, const WiringSketch& sketch, const job::Catalogue& stock,
        const estimate::InstallRates& rates)
      : sketch_(sketch), stock_(stock), rates_(rates), site_(site), job_(site) {}

  job::Job run() {
    add_transformers();
    std::vector<std::size_t> children(sketch_.cables.size(), 0);
    for (const SketchCable& cable : sketch_.cables) children[cable.from.value_or(0)] += cable.from ? 1 : 0;
    for (std::size_t c = 0; c < sketch_.cables.size(); ++c) add_cable(c, children[c]);
    fit_connectors();
    return std::move(job_);
  }

 private:
  // The first unit at a place keeps its id, others hang beside it.
  void add_transformers() {
    job_.transformers.clear();
    std::vector<std::size_t> at_place(site_.transformers.size(), 0);
    for (std::size_t u = 0; u < sketch_.units.size(); ++u) {
      const SketchUnit& unit = sketch_.units[u];
      job::Transformer transformer = site_.transformers[unit.place];
      const std::size_t before = at_place[unit.place]++;
      if (before > 0) transformer.id += "." + std::to_string(before + 1);
      transformer.item = unit.item;
      transformer.outputs.clear();
      take_item(job_.catalogue.transformers, stock_.transformers, unit.item);
      for (const SketchOutput& output : sketch_.outputs) {
        if (output.unit != u) continue;
        transformer.outputs.push_back({output_id(transformer.id, transformer.outputs.size()), output.tap_v, {}, {}});
      }
      job_.transformers.push_back(transformer);
    }
    std::vector<std::size_t> given(sketch_.units.size(), 0);
    for (const SketchOutput& output : sketch_.outputs) {
      outputs_.push_back(output_id(job_.transformers[output.unit].id, given[output.unit]++));
    }
  }

  void add_cable(std::size_t index, std::size_t children) {
    const SketchCable& drawn = sketch_.cables[index];
    job::Cable cable;
    cable.id = "C" + std::to_string(index + 1);
    cable.item = drawn.item;
    cable.path = drawn.path;
    cable.depth_m = drawn.depth_m;
    cable.sleeve = drawn.sleeve;
    cable.from = drawn.from ? ends_[*drawn.from] : outputs_[drawn.output];
    take_item(job_.catalogue.cables, stock_.cables, drawn.item);
    const bool ends_in_lamp = children == 0 && drawn.lamps.size() == 1;
    cable.to = ends_in_lamp ? job_.luminaires[drawn.lamps.front()].id : "J" + std::to_string(index + 1);
    if (!ends_in_lamp) add_joint(cable.to, drawn);
    ends_.push_back(cable.to);
    job_.cables.push_back(cable);
  }

  void add_joint(const std::string& id, const SketchCable& drawn) {
    job::Joint joint;
    joint.id = id;
    joint.position = drawn.path.back();
    job_.joints.push_back(joint);
    for (const std::size_t lamp : drawn.lamps) job_.luminaires[lamp].joint = id;
  }

  void fit_connectors() {
    const auto wires = estimate::all_joint_wires(job_);
    for (std::size_t j = 0; j < job_.joints.size(); ++j) {
      job::Joint& joint = job_.joints[j];
      joint.kind = estimate::joint_kind(wires[j]).value_or(job::JointKind::in_line);
      std::vector<double> areas_mm2;
      for (const estimate::JointWire& wire : wires[j]) areas_mm2.push_back(wire.area_mm2.value_or(0));
      const auto fitted = fitted_connector(areas_mm2, stock_, rates_);
      if (!fitted) continue;
      joint.connector = fitted->item->id;
      joint.connector_count = fitted->pieces;
      take_item(job_.catalogue.connectors, stock_.connectors, joint.connector);
    }
  }

  const WiringSketch& sketch_;
  const job::Catalogue& stock_;
  const estimate::InstallRates& rates_;
  const job::Job& site_;
  job::Job job_;
  std::vector<std::string> outputs_;
  std::vector<std::string> ends_;  // by cable
};

}  // namespace

std::optional<FittedConnector> fitted_connector(const std::vector<double>& areas_mm2, const job::Catalogue& stock,
                                                const estimate::InstallRates& rates) {
  std::vector<estimate::JointWire> wires;
  for (const double area_mm2 : areas_mm2) wires.push_back({area_mm2, {}, {}});
  const double minor_per_min = static_cast<double>(rates.labour_minor_per_h) / 60;
  std::optional<FittedConnector> best;
  bool best_is_whole = false;
  for (const job::ConnectorItem& item : stock.connectors) {
    if (!item.sealed || !item.mechanically_held) continue;
    const auto fit = estimate::connector_fit(item, wires);
    if (!fit) continue;
    const std::uint32_t pieces = estimate::pieces_for_both(item, *fit);
    const double cost = pieces * (static_cast<double>(item.price_minor) + item.labour_min * minor_per_min);
    const bool is_whole = fit->pieces_per_conductor == 1;
    if (best && (best_is_whole > is_whole || (best_is_whole == is_whole && best->cost_minor <= cost))) continue;
    best = FittedConnector{&item, pieces, cost};
    best_is_whole = is_whole;
  }
  return best;
}

job::Job wired(const job::Job& site, const WiringSketch& sketch, const job::Catalogue& stock,
               const estimate::InstallRates& rates) {
  return Wirer(site, sketch, stock, rates).run();
}

}  // namespace duskwire::sites
