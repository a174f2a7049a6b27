// SPDX-License-Identifier: Apache-2.0
// A wiring drawn with a few strokes, and an ordinary job made of it: joints with connectors, ends, sleeves, items.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "estimate/installed.hpp"
#include "job/job.hpp"

namespace duskwire::sites {

struct SketchCable {
  std::optional<std::size_t> from;  // cable at whose end it begins, before it in the list; absent: an output
  std::size_t output = 0;           // where it begins at one
  geometry::Polyline path;
  std::string item;
  std::string sleeve;  // of the plan
  double depth_m = 0.2;
  std::vector<std::size_t> lamps;  // of the site, joined at its end; a lone one takes the cable itself
};

struct SketchOutput {
  std::size_t unit = 0;
  double tap_v = 0;
};

struct SketchUnit {
  std::string item;
  std::size_t place = 0;  // transformer of the site
};

struct WiringSketch {
  std::vector<SketchUnit> units;
  std::vector<SketchOutput> outputs;
  std::vector<SketchCable> cables;
};

// What a connector for these wires costs put in, and which: the cheapest that is sealed, held and takes them in one
// piece, else with pigtails.
struct FittedConnector {
  const job::ConnectorItem* item = nullptr;
  std::uint32_t pieces = 0;
  double cost_minor = 0;
};
[[nodiscard]] std::optional<FittedConnector> fitted_connector(const std::vector<double>& areas_mm2,
                                                              const job::Catalogue& stock,
                                                              const estimate::InstallRates& rates);

[[nodiscard]] job::Job wired(const job::Job& site, const WiringSketch& sketch, const job::Catalogue& stock,
                             const estimate::InstallRates& rates);

}  // namespace duskwire::sites
