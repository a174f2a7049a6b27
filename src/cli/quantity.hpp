// SPDX-License-Identifier: Apache-2.0
// Numbers with units as people read them, metric or US. The only place of the command that turns SI into feet and back.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/result.hpp"
#include "cli/text_style.hpp"

namespace duskwire::cli {

// Fixed decimals without a minus before a zero.
[[nodiscard]] std::string number(double value, int decimals);

[[nodiscard]] std::string volts(double value_v);  // "12.31 V"
[[nodiscard]] std::string amps(double value_a);   // "3.59 A", from 10 A up one decimal
[[nodiscard]] std::string volt_amperes(double value_va);
[[nodiscard]] std::string watts(double value_w);
[[nodiscard]] std::string percent(double share);  // 0.31 -> "31 %"

[[nodiscard]] std::string length(double length_m, const TextStyle& style);        // along a route: "12.4 m" or "41 ft"
[[nodiscard]] std::string short_length(double length_m, const TextStyle& style);  // depths, heights: "150 mm" or "6 in"
[[nodiscard]] std::string temperature(double temperature_c, const TextStyle& style);
[[nodiscard]] std::string money(std::int64_t minor, const std::string& currency);

// "60m", "60 m", "200ft", "200 ft", "200'" -> metres; a bare number is in the unit of `bare`.
[[nodiscard]] Result<double> read_length_m(const std::string& text, job::DisplayUnits bare);

// "12awg", "12 AWG", "2.5mm2", "2.5 mm²" as a conductor size.
struct ConductorSize {
  double area_mm2 = 0;
  std::optional<double> gauge_awg;
};
[[nodiscard]] Result<ConductorSize> read_conductor_size(const std::string& text);
[[nodiscard]] std::string conductor_size(const ConductorSize& size);  // "12 AWG", "2.5 mm²"

// "10:15" or "10-15" -> volts, lowest first.
struct VoltWindow {
  double min_v = 0;
  double max_v = 0;
};
[[nodiscard]] Result<VoltWindow> read_window(const std::string& text);

}  // namespace duskwire::cli
