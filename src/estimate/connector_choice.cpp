// SPDX-License-Identifier: Apache-2.0
#include "estimate/connector_choice.hpp"

#include <algorithm>
#include <limits>
#include <tuple>

namespace duskwire::estimate {
namespace {

struct AreaRange {
  double min_mm2 = 0;
  double max_mm2 = 0;
};

std::optional<AreaRange> area_range(const std::vector<JointWire>& wires) {
  AreaRange range{std::numeric_limits<double>::max(), 0};
  for (const JointWire& wire : wires) {
    if (!wire.area_mm2) return std::nullopt;
    range.min_mm2 = std::min(range.min_mm2, *wire.area_mm2);
    range.max_mm2 = std::max(range.max_mm2, *wire.area_mm2);
  }
  return range;
}

// Areas come from gauge formulas and from rounded tables: 0.5 % apart is the same size.
constexpr double area_tolerance = 0.005;

// n wires in k pieces of m ports in a row: k - 1 pigtails take two ports each, so n + 2 (k - 1) <= k m.
std::optional<ConnectorFit> fill_fit(const job::ConnectorFill& fill, const AreaRange& range, std::uint32_t wires) {
  if (range.min_mm2 < fill.area_min_mm2 * (1 - area_tolerance)) return std::nullopt;
  if (range.max_mm2 > fill.area_max_mm2 * (1 + area_tolerance)) return std::nullopt;
  if (wires < fill.count_min) return std::nullopt;
  if (wires <= fill.count_max) return ConnectorFit{1, 0, fill.count_max - wires};
  if (fill.count_max < 3) return std::nullopt;
  const std::uint32_t gain = fill.count_max - 2;
  const std::uint32_t pieces = (wires - 2 + gain - 1) / gain;
  const std::uint32_t used = wires + 2 * (pieces - 1);
  if (static_cast<std::uint64_t>(used) < static_cast<std::uint64_t>(pieces) * fill.count_min) return std::nullopt;
  return ConnectorFit{pieces, pieces - 1, pieces * fill.count_max - used};
}

bool better(const ConnectorChoice& p, const ConnectorChoice& q) {
  const auto key = [](const ConnectorChoice& choice) {
    return std::make_tuple(choice.fit.pieces_per_conductor > 1,
                           static_cast<double>(choice.item->price_minor) * choice.pieces, choice.pieces,
                           choice.item->labour_min * choice.pieces, std::string_view(choice.item->id));
  };
  return key(p) < key(q);
}

}  // namespace

std::optional<ConnectorFit> connector_fit(const job::ConnectorItem& item, const std::vector<JointWire>& wires) {
  if (wires.size() < 2) return std::nullopt;
  const std::optional<AreaRange> range = area_range(wires);
  if (!range) return std::nullopt;
  std::optional<ConnectorFit> best;
  for (const job::ConnectorFill& fill : item.fills) {
    const auto fit = fill_fit(fill, *range, static_cast<std::uint32_t>(wires.size()));
    if (!fit) continue;
    const bool fewer_pieces = !best || fit->pieces_per_conductor < best->pieces_per_conductor;
    const bool more_room =
        best && fit->pieces_per_conductor == best->pieces_per_conductor && fit->spare_ports > best->spare_ports;
    if (fewer_pieces || more_room) best = fit;
  }
  return best;
}

std::uint32_t pieces_for_both(const job::ConnectorItem& item, const ConnectorFit& fit) {
  return fit.pieces_per_conductor * (item.serves_both_conductors ? 1 : 2);
}

std::optional<ConnectorChoice> choose_connector(const std::vector<JointWire>& wires, const job::Catalogue& catalogue) {
  std::optional<ConnectorChoice> best;
  for (const job::ConnectorItem& item : catalogue.connectors) {
    if (!item.sealed || !item.mechanically_held) continue;
    const std::optional<ConnectorFit> fit = connector_fit(item, wires);
    if (!fit) continue;
    const ConnectorChoice choice{&item, *fit, pieces_for_both(item, *fit)};
    if (!best || better(choice, *best)) best = choice;
  }
  return best;
}

}  // namespace duskwire::estimate
