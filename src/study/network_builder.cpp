// SPDX-License-Identifier: Apache-2.0
#include "study/network_builder.hpp"

#include <algorithm>
#include <cmath>
#include <unordered_set>

#include "study/network_parts.hpp"
#include "study/network_shape.hpp"

namespace duskwire::study {
namespace {

// As good as open; the engine takes ten times as much.
constexpr double most_ohm = 1e8;

std::uint32_t to_index(std::size_t value) { return static_cast<std::uint32_t>(value); }

template <class Item>
Spot item_spot(SpotKind kind, const std::vector<Item>& items, const Item* item) {
  return {kind, item ? to_index(static_cast<std::size_t>(item - items.data())) : 0, 0};
}

class Builder {
 public:
  explicit Builder(const job::Job& job) : job_(job), built_(job), book_(built_.troubles) {}

  Built run() {
    check_ids();
    number_nodes();
    for (std::size_t t = 0; t < job_.transformers.size(); ++t) add_transformer(to_index(t));
    for (std::size_t i = 0; i < job_.luminaires.size(); ++i) add_luminaire(to_index(i));
    for (std::size_t c = 0; c < job_.cables.size(); ++c) add_cable(to_index(c));
    set_conditions();
    if (job_.luminaires.empty()) book_.add(TroubleKind::no_lamps, {});
    examine_shape(built_, network_);
    prepare();
    return std::move(built_);
  }

 private:
  // A cable end means the first thing of its id, so a second one hangs loose.
  void check_ids() {
    std::unordered_set<std::string_view> seen;
    const auto check = [&](const std::string& id, Spot spot) {
      if (!seen.insert(id).second) book_.add(TroubleKind::duplicate_id, spot);
    };
    for (std::size_t t = 0; t < job_.transformers.size(); ++t) {
      const auto& outputs = job_.transformers[t].outputs;
      for (std::size_t o = 0; o < outputs.size(); ++o) {
        check(outputs[o].id, {SpotKind::output, to_index(t), to_index(o)});
      }
    }
    for (std::size_t j = 0; j < job_.joints.size(); ++j) check(job_.joints[j].id, {SpotKind::joint, to_index(j), 0});
    for (std::size_t i = 0; i < job_.luminaires.size(); ++i) {
      check(job_.luminaires[i].id, {SpotKind::luminaire, to_index(i), 0});
    }
  }

  void number_nodes() {
    for (std::size_t t = 0; t < job_.transformers.size(); ++t) {
      built_.first_output.push_back(to_index(built_.outputs.size()));
      for (std::size_t o = 0; o < job_.transformers[t].outputs.size(); ++o) {
        built_.outputs.push_back({to_index(t), to_index(o)});
      }
    }
    built_.joint_base = to_index(built_.outputs.size());
    built_.luminaire_base = built_.joint_base + to_index(job_.joints.size());
    network_.node_count = built_.luminaire_base + to_index(job_.luminaires.size());
    built_.segment_of_cable.assign(job_.cables.size(), none);
    built_.segment_of_lead.assign(job_.luminaires.size(), none);
  }

  void add_transformer(std::uint32_t t) {
    const job::Transformer& transformer = job_.transformers[t];
    const job::TransformerItem* item = job::find_transformer(job_.catalogue, transformer.item);
    const Spot spot{SpotKind::transformer, t, 0};
    const Spot of_item = item_spot(SpotKind::transformer_item, job_.catalogue.transformers, item);
    if (!item) book_.add(TroubleKind::unknown_item, spot, transformer.item);
    network_.transformers.push_back(item ? transformer_part(*item, of_item, book_) : electrical::Transformer{});
    if (item && transformer.outputs.size() > item->output_count) {
      book_.add(TroubleKind::too_many_outputs, spot, item->id, static_cast<double>(transformer.outputs.size()));
      built_.troubles.back().limit = item->output_count;
    }
    for (std::size_t o = 0; o < transformer.outputs.size(); ++o) {
      const Spot output_spot{SpotKind::output, t, to_index(o)};
      electrical::Output output = output_part(transformer.outputs[o], item, output_spot, of_item, book_);
      output.node = to_index(network_.outputs.size());
      output.transformer = t;
      network_.outputs.push_back(output);
      if (item && !offers(*item, output.emf_v)) {
        book_.add(TroubleKind::tap_not_offered, output_spot, item->id, output.emf_v);
      }
    }
  }

  static bool offers(const job::TransformerItem& item, double tap_v) {
    constexpr double same_v = 1e-9;
    for (const double offered_v : item.taps_v) {
      if (std::abs(offered_v - tap_v) < same_v) return true;
    }
    return item.taps_v.empty();
  }

  double contact_ohm(std::uint32_t node) {
    if (node < built_.joint_base || node >= built_.luminaire_base) return 0;
    const job::ConnectorItem* item =
        job::find_connector(job_.catalogue, job_.joints[node - built_.joint_base].connector);
    if (!item) return 0;
    return book_.at_least(0, item->contact_ohm, 0, item_spot(SpotKind::connector_item, job_.catalogue.connectors, item),
                          "contact_ohm");
  }

  void add_segment(std::uint32_t from, std::uint32_t to, double copper_ohm, const Wire& wire, bool crossed) {
    electrical::Segment segment;
    segment.from = from;
    segment.to = to;
    segment.copper_a_ohm = segment.copper_b_ohm = std::min(copper_ohm, most_ohm);
    segment.contact_a_ohm = segment.contact_b_ohm = contact_ohm(from) + contact_ohm(to);
    segment.crossed = crossed;
    network_.segments.push_back(segment);
    built_.wires.push_back(wire);
  }

  void add_luminaire(std::uint32_t i) {
    const job::Luminaire& luminaire = job_.luminaires[i];
    const job::LuminaireItem* item = job::find_luminaire(job_.catalogue, luminaire.item);
    const Spot spot{SpotKind::luminaire, i, 0};
    const std::uint32_t node = built_.node_of_luminaire(i);
    const double level = std::min(1.0, book_.at_least(0, luminaire.dim_pct, 100, spot, "dim_pct") / 100);
    levels_.push_back(static_cast<float>(level));
    electrical::Load load;
    Lamp lamp;
    if (item) {
      load = load_part(*item, item_spot(SpotKind::luminaire_item, job_.catalogue.luminaires, item), book_);
      lamp = lamp_part(*item, load, levels_.back());
    } else {
      load.v_regulation_min = 1;  // draws nothing, but the engine wants a lamp for every luminaire
      book_.add(TroubleKind::unknown_item, spot, luminaire.item);
    }
    load.plus = {node, electrical::Conductor::a};
    load.minus = {node, electrical::Conductor::b};
    network_.loads.push_back(load);
    built_.lamps.push_back(lamp);
    if (!luminaire.joint.empty()) add_lead(i, luminaire, item);
  }

  void add_lead(std::uint32_t i, const job::Luminaire& luminaire, const job::LuminaireItem* item) {
    const Spot spot{SpotKind::luminaire, i, 0};
    const estimate::EndPlace place = built_.ends.find(luminaire.joint);
    if (place.kind != estimate::EndKind::joint) {
      book_.add(TroubleKind::unknown_joint, spot, luminaire.joint);
      return;
    }
    Wire wire{i, true, 0};
    const double item_m = item ? item->lead_length_m : 0;
    wire.length_m = book_.at_least(0, luminaire.lead_length_m.value_or(item_m), 0, spot, "lead_length_m");
    built_.segment_of_lead[i] = to_index(network_.segments.size());
    add_segment(built_.joint_base + to_index(place.index), built_.node_of_luminaire(i),
                item ? lead_ohm(luminaire, *item, wire.length_m, spot, book_) : 0, wire, false);
  }

  void add_cable(std::uint32_t c) {
    const job::Cable& cable = job_.cables[c];
    const Spot spot{SpotKind::cable, c, 0};
    const job::CableItem* item = job::find_cable(job_.catalogue, cable.item);
    const std::uint32_t from = built_.node_of(cable.from);
    const std::uint32_t to = built_.node_of(cable.to);
    if (!item) book_.add(TroubleKind::unknown_item, spot, cable.item);
    if (from == none) book_.add(TroubleKind::dangling_cable, spot, cable.from);
    if (to == none) book_.add(TroubleKind::dangling_cable, spot, cable.to);
    if (from == to && from != none) book_.add(TroubleKind::cable_on_itself, spot, cable.from);
    const auto length = estimate::cable_length(job_, built_.ends, cable);
    if (!length) book_.add(TroubleKind::length_missing, spot, "", cable.length_m.value_or(0));
    if (!item || !length || from == none || to == none || from == to) return;
    if (length->route_m == 0) book_.add(TroubleKind::length_zero, spot);
    const double length_m = book_.at_least(0, length->cut_m(), 0, spot, "the length with slack");
    built_.segment_of_cable[c] = to_index(network_.segments.size());
    const double ohm_per_m =
        cable_ohm_per_m(*item, item_spot(SpotKind::cable_item, job_.catalogue.cables, item), book_);
    add_segment(from, to, ohm_per_m * length_m, {c, false, length_m}, cable.crossed);
  }

  void set_conditions() {
    built_.corners = corners_of(job_.site.corners);
    built_.weakest = weakest_corner(job_.site.corners);
    set_condition(built_.nominal, built_.corners.front());
    const bool all_full = std::all_of(levels_.begin(), levels_.end(), [](float level) { return level == 1; });
    if (!all_full) built_.nominal.load_level = levels_;
  }

  // Every value was bounded on the way, so the engine takes the network: anything else is a bug of this file.
  void prepare() { built_.prepared = electrical::prepare(std::move(network_)).value(); }

  const job::Job& job_;
  Built built_;
  TroubleBook book_;
  electrical::Network network_;
  std::vector<float> levels_;
};

}  // namespace

std::uint32_t Built::node_of(std::string_view id) const {
  const estimate::EndPlace place = ends.find(id);
  switch (place.kind) {
    case estimate::EndKind::unknown:
      return none;
    case estimate::EndKind::joint:
      return joint_base + to_index(place.index);
    case estimate::EndKind::luminaire:
      return node_of_luminaire(to_index(place.index));
    case estimate::EndKind::output:
      break;
  }
  const auto& siblings = job->transformers[place.index].outputs;
  for (std::size_t o = 0; o < siblings.size(); ++o) {
    if (siblings[o].id == id) return first_output[place.index] + to_index(o);
  }
  return none;
}

Spot Built::spot_of_output(std::uint32_t output) const {
  return {SpotKind::output, outputs[output].transformer, outputs[output].output};
}

Spot Built::spot_of_node(std::uint32_t node) const {
  if (node < joint_base) return spot_of_output(node);
  if (node < luminaire_base) return {SpotKind::joint, node - joint_base, 0};
  return {SpotKind::luminaire, node - luminaire_base, 0};
}

std::uint32_t Built::parent_node(std::uint32_t node) const {
  const std::uint32_t segment = supply[node].parent_segment;
  if (segment == none) return none;
  const electrical::Segment& wire = electrical::network_of(*prepared).segments[segment];
  return wire.from == node ? wire.to : wire.from;
}

Built build(const job::Job& job) { return Builder(job).run(); }

}  // namespace duskwire::study
