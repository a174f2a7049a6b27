// SPDX-License-Identifier: Apache-2.0
#include "cli/quantity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>

#include "base/units.hpp"

namespace duskwire::cli {
namespace {

std::string lowered(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c != ' ') out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

// The number at the start of `text`; the rest is what is left of it.
std::optional<double> number_and_rest(const std::string& text, std::string& rest) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || !std::isfinite(value)) return std::nullopt;
  rest.assign(end, text.data() + text.size());
  return value;
}

Error expected(const std::string& met, const std::string& wanted) {
  return {ErrorCode::invalid, fmt::format("\"{}\" was met where {} was expected.", met, wanted)};
}

bool us(const TextStyle& style) { return style.units == job::DisplayUnits::us; }

// Currencies of ISO 4217 without minor units (from memory).
bool has_no_minor_units(const std::string& currency) {
  return currency == "JPY" || currency == "KRW" || currency == "CLP" || currency == "ISK" || currency == "VND";
}

}  // namespace

std::string number(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  const bool is_zero = text.find_first_of("123456789") == std::string::npos;
  return is_zero && text.front() == '-' ? text.substr(1) : text;
}

std::string volts(double value_v) { return number(value_v, 2) + " V"; }
std::string amps(double value_a) { return number(value_a, std::abs(value_a) < 9.995 ? 2 : 1) + " A"; }
std::string volt_amperes(double value_va) { return number(value_va, std::abs(value_va) < 9.95 ? 1 : 0) + " VA"; }
std::string watts(double value_w) { return number(value_w, std::abs(value_w) < 9.95 ? 1 : 0) + " W"; }
std::string percent(double share) { return number(share * 100, 0) + " %"; }

std::string length(double length_m, const TextStyle& style) {
  if (!us(style)) return number(length_m, 1) + " m";
  const double length_ft = length_m / units::m_per_ft;
  return number(length_ft, std::abs(length_ft) < 9.95 ? 1 : 0) + " ft";
}

std::string short_length(double length_m, const TextStyle& style) {
  if (!us(style)) return length_m < 1 ? number(length_m * 1000, 0) + " mm" : number(length_m, 2) + " m";
  const double length_in = length_m / units::m_per_in;
  return length_in < 48 ? number(length_in, 0) + " in" : length(length_m, style);
}

std::string temperature(double temperature_c, const TextStyle& style) {
  const bool fahrenheit = us(style);
  // Exact by definition: F = 9/5 C + 32.
  const double value = fahrenheit ? temperature_c * 9.0 / 5.0 + 32.0 : temperature_c;
  return number(value, 0) + " " + style.glyphs.degree + (fahrenheit ? "F" : "C");
}

std::string money(std::int64_t minor, const std::string& currency) {
  if (has_no_minor_units(currency)) return fmt::format("{} {}", minor, currency);
  const std::int64_t size = minor < 0 ? -minor : minor;
  return fmt::format("{}{}.{:02} {}", minor < 0 ? "-" : "", size / 100, size % 100, currency);
}

Result<double> read_length_m(const std::string& text, job::DisplayUnits bare) {
  const std::string wanted = "a length such as 60m, 18.5m or 200ft";
  std::string unit;
  const std::optional<double> value = number_and_rest(lowered(text), unit);
  if (!value || *value < 0) return expected(text, wanted);
  if (unit == "m" || (unit.empty() && bare == job::DisplayUnits::metric)) return *value;
  if (unit == "ft" || unit == "'" || unit.empty()) return *value * units::m_per_ft;
  return expected(text, wanted);
}

Result<ConductorSize> read_conductor_size(const std::string& text) {
  const std::string wanted = "a conductor size such as 12awg or 2.5mm2";
  std::string unit;
  const std::optional<double> value = number_and_rest(lowered(text), unit);
  if (!value) return expected(text, wanted);
  if (unit == "awg" && *value >= 0 && *value <= 36) return ConductorSize{units::area_mm2_from_awg(*value), *value};
  const bool square_mm = unit == "mm2" || unit == "mm²" || unit == "sqmm";
  if (square_mm && *value > 0 && *value <= 1000) return ConductorSize{*value, std::nullopt};
  return expected(text, wanted);
}

std::string conductor_size(const ConductorSize& size) {
  if (size.gauge_awg) return fmt::format("{:g} AWG", *size.gauge_awg);
  return fmt::format("{:g} mm²", size.area_mm2);
}

Result<VoltWindow> read_window(const std::string& text) {
  const std::string wanted = "a window of volts such as 10:15";
  std::string rest;
  const std::optional<double> low = number_and_rest(lowered(text), rest);
  if (!low || rest.empty() || (rest.front() != ':' && rest.front() != '-')) return expected(text, wanted);
  std::string end;
  const std::optional<double> high = number_and_rest(rest.substr(1), end);
  if (!high || (!end.empty() && end != "v") || *low < 0 || *high <= *low) return expected(text, wanted);
  return VoltWindow{*low, *high};
}

}  // namespace duskwire::cli
