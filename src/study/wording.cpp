// SPDX-License-Identifier: Apache-2.0
#include "study/wording.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/units.hpp"

namespace duskwire::study {
namespace {

constexpr int most_extra_decimals = 6;
// Areas come from gauge formulas and from rounded tables: 0.5 % apart is the same size.
constexpr double same_area = 0.005;

std::string without_trailing_zeros(std::string text) {
  if (text.find('.') == std::string::npos) return text == "-0" ? "0" : text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string area_words(double area_mm2) { return without_trailing_zeros(fmt::format("{:.2f}", area_mm2)) + " mm²"; }

std::string gauge_words(double gauge_awg, double area_mm2, job::DisplayUnits units) {
  const std::string gauge = fmt::format("{:g} AWG", gauge_awg);
  return units == job::DisplayUnits::us ? gauge : fmt::format("{} ({})", gauge, area_words(area_mm2));
}

}  // namespace

WordedUnit distance_unit(job::DisplayUnits units) {
  return units == job::DisplayUnits::us ? WordedUnit{units::m_per_ft, "ft", 0} : WordedUnit{1, "m", 1};
}

WordedUnit depth_unit(job::DisplayUnits units) {
  return units == job::DisplayUnits::us ? WordedUnit{units::m_per_in, "in", 0} : WordedUnit{0.001, "mm", 0};
}

std::string worded(double value, const WordedUnit& unit, int more_decimals) {
  const std::string number = fmt::format("{:.{}f}", value / unit.si_per_unit, unit.decimals + more_decimals);
  return without_trailing_zeros(number) + " " + unit.suffix;
}

WordedPair worded_apart(double measured, double limit, const WordedUnit& unit) {
  WordedPair pair;
  for (int more = 0; more <= most_extra_decimals; ++more) {
    pair = {worded(measured, unit, more), worded(limit, unit, more)};
    if (pair.measured != pair.limit) break;
  }
  return pair;
}

std::string conductor_words(double area_mm2, job::DisplayUnits units) {
  for (int gauge = 0; gauge <= 36; ++gauge) {
    if (std::abs(area_mm2 / units::area_mm2_from_awg(gauge) - 1) < same_area) {
      return gauge_words(gauge, area_mm2, units);
    }
  }
  return area_words(area_mm2);
}

std::string conductor_words(const job::CableItem& item, job::DisplayUnits units) {
  return item.gauge_awg ? gauge_words(*item.gauge_awg, item.area_mm2, units) : area_words(item.area_mm2);
}

std::string called(const std::string& id, const std::string& name) {
  return name.empty() || name == id ? id : fmt::format("{} ({})", id, name);
}

std::string listed(const std::vector<std::string>& names) {
  constexpr std::size_t most = 6;
  const bool cut_short = names.size() > most;
  const std::size_t shown = cut_short ? most - 1 : names.size();
  std::string text;
  for (std::size_t i = 0; i < shown; ++i) {
    if (i > 0) text += i + 1 == names.size() ? " and " : ", ";
    text += names[i];
  }
  return cut_short ? fmt::format("{} and {} more", text, names.size() - shown) : text;
}

std::string counted(std::size_t count, const std::string& noun) {
  return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

}  // namespace duskwire::study
