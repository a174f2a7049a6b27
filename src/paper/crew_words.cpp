// SPDX-License-Identifier: Apache-2.0
#include "paper/crew_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/units.hpp"

namespace duskwire::paper {
namespace {

bool is_us(job::DisplayUnits units) { return units == job::DisplayUnits::us; }

}  // namespace

std::string length_figure(double length_m, job::DisplayUnits units) {
  return fmt::format("{:.1f}", is_us(units) ? length_m / units::m_per_ft : length_m);
}

const char* length_unit_name(job::DisplayUnits units) { return is_us(units) ? "ft" : "m"; }

std::string length_words(double length_m, job::DisplayUnits units) {
  return length_figure(length_m, units) + " " + length_unit_name(units);
}

std::string tape_words(double length_m, job::DisplayUnits units) {
  if (!is_us(units)) return fmt::format("{:.2f} m", length_m);
  const long inches = std::lround(length_m / units::m_per_in);
  if (inches < 12) return fmt::format("{} in", inches);
  return inches % 12 == 0 ? fmt::format("{} ft", inches / 12) : fmt::format("{} ft {} in", inches / 12, inches % 12);
}

std::string cover_words(const std::optional<double>& cover_m, job::DisplayUnits units) {
  if (!cover_m) return "\u2013";
  if (is_us(units)) return fmt::format("{:.0f} in", *cover_m / units::m_per_in);
  return fmt::format("{:.0f} mm", *cover_m * 1000);
}

std::string volts_figure(double volts) { return fmt::format("{:.2f}", volts); }

std::string amps_figure(double amps) { return fmt::format("{:.2f}", amps); }

std::string va_figure(double va) {
  const double tenths = std::round(va * 10) / 10;
  return tenths == std::round(tenths) ? fmt::format("{:.0f}", tenths) : fmt::format("{:.1f}", tenths);
}

const char* joint_kind_words(const std::optional<job::JointKind>& kind) {
  if (!kind) return "Nothing joined";
  switch (*kind) {
    case job::JointKind::in_line:
      return "In line";
    case job::JointKind::branch:
      return "Branch";
    case job::JointKind::hub:
      return "Hub";
    case job::JointKind::end_of_run:
      return "End of run";
  }
  return "";
}

std::string joined(const std::vector<std::string>& names, const char* between) {
  return fmt::format("{}", fmt::join(names, between));
}

std::string id_and_name(const std::string& id, const std::string& name) {
  return name.empty() || name == id ? id : id + " " + name;
}

}  // namespace duskwire::paper
