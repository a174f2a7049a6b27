// SPDX-License-Identifier: Apache-2.0
// Which connector holds the wires of a joint. A piece holds the wires of one conductor, or of both apart from each
// other (a hub box): either way its fill counts wires per conductor. Where one piece is too small, several are linked
// by pigtails: short wires of the largest size that meets there.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "estimate/joint_wires.hpp"
#include "job/catalogue.hpp"

namespace duskwire::estimate {

struct ConnectorFit {
  std::uint32_t pieces_per_conductor = 1;
  std::uint32_t pigtails_per_conductor = 0;  // one less than the pieces
  std::uint32_t spare_ports = 0;             // per conductor
};

// How the wires go into pieces of this item; empty where they do not: a size out of its range, too few wires, an
// unknown size, or too many wires for an item that holds only two. Sealing and holding are not looked at.
[[nodiscard]] std::optional<ConnectorFit> connector_fit(const job::ConnectorItem& item,
                                                        const std::vector<JointWire>& wires);

// Pieces for both conductors.
[[nodiscard]] std::uint32_t pieces_for_both(const job::ConnectorItem& item, const ConnectorFit& fit);

struct ConnectorChoice {
  const job::ConnectorItem* item = nullptr;  // in the catalogue that was passed
  ConnectorFit fit;
  std::uint32_t pieces = 0;  // both conductors
};

// The cheapest, for both conductors together, that is sealed, mechanically held and fits in one piece per conductor; if
// there is none, the cheapest with pigtails; empty if nothing fits. Ties: fewer pieces, less labour, then id.
[[nodiscard]] std::optional<ConnectorChoice> choose_connector(const std::vector<JointWire>& wires,
                                                              const job::Catalogue& catalogue);
std::optional<ConnectorChoice> choose_connector(const std::vector<JointWire>&, const job::Catalogue&&) = delete;

}  // namespace duskwire::estimate
