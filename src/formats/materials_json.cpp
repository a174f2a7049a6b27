// SPDX-License-Identifier: Apache-2.0
#include "formats/materials_json.hpp"

#include "formats/enum_names.hpp"

namespace duskwire::formats {
namespace {

using OrderedJson = nlohmann::ordered_json;

template <class Enum>
const char* name_of(Enum value) {
  const auto list = names(Of<Enum>{});
  return list.at(static_cast<std::size_t>(value));
}

OrderedJson line_json(const estimate::MaterialLine& line) {
  return {{"category", estimate::category_name(line.category)},
          {"item", line.item},
          {"title", line.title},
          {"quantity", line.quantity},
          {"unit", line.unit},
          {"unit_price_minor", line.unit_price_minor},
          {"price_minor", line.price_minor},
          {"labour_min", line.labour_min},
          {"note", line.note}};
}

OrderedJson cable_json(const estimate::CableTotal& total) {
  return {{"item", total.item},
          {"title", total.title},
          {"cuts", total.cuts},
          {"route_m", total.route_m},
          {"slack_m", total.slack_m},
          {"cut_m", total.cut_m},
          {"with_waste_m", total.with_waste_m},
          {"bought_m", total.bought_m}};
}

OrderedJson reel_json(const estimate::Reel& reel) {
  return {{"item", reel.item}, {"number", reel.number}, {"length_m", reel.length_m}, {"used_m", reel.used_m}};
}

OrderedJson cut_json(const estimate::Cut& cut) {
  return {{"tag", cut.tag},
          {"item", cut.item},
          {"from", cut.from},
          {"from_name", cut.from_name},
          {"to", cut.to},
          {"to_name", cut.to_name},
          {"route_m", cut.route_m},
          {"slack_from_m", cut.slack_from_m},
          {"slack_to_m", cut.slack_to_m},
          {"cut_m", cut.cut_m},
          {"reel", cut.reel},
          {"running_m", cut.running_m}};
}

OrderedJson splice_json(const estimate::Splice& splice) {
  return {{"joint", splice.joint},
          {"name", splice.name},
          {"kind", splice.kind ? OrderedJson(name_of(*splice.kind)) : OrderedJson(nullptr)},
          {"wires_per_conductor", splice.wires_per_conductor},
          {"connector", splice.connector},
          {"suggested", splice.suggested},
          {"fits", splice.fits},
          {"pieces", splice.pieces},
          {"pieces_per_conductor", splice.pieces_per_conductor},
          {"spare_ports", splice.spare_ports},
          {"note", splice.note}};
}

OrderedJson problem_json(const Problem& problem) {
  return {{"severity", name_of(problem.severity)},
          {"pointer", problem.pointer},
          {"value", problem.value},
          {"expected", problem.expected},
          {"message", problem.message}};
}

template <class Item>
OrderedJson array_of(const std::vector<Item>& items, OrderedJson (*one)(const Item&)) {
  OrderedJson array = OrderedJson::array();
  for (const Item& item : items) array.push_back(one(item));
  return array;
}

}  // namespace

nlohmann::ordered_json materials_json(const estimate::Materials& list) {
  return {{"currency", list.currency},
          {"lines", array_of(list.lines, line_json)},
          {"cables", array_of(list.cables, cable_json)},
          {"reels", array_of(list.reels, reel_json)},
          {"cuts", array_of(list.cuts, cut_json)},
          {"splices", array_of(list.splices, splice_json)},
          {"price_minor", list.price_minor},
          {"labour_min", list.labour_min},
          {"problems", array_of(list.problems, problem_json)}};
}

}  // namespace duskwire::formats
