// SPDX-License-Identifier: Apache-2.0
#include "estimate/price_difference.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

#include "base/currency.hpp"
#include "base/units.hpp"

namespace duskwire::estimate {
namespace {

std::string signed_money(std::int64_t minor, const std::string& currency) {
  return fmt::format("{}{}", minor > 0 ? "+" : "", decimal_amount(minor, currency));
}

// "3", "12.50 h", "41 ft": as many digits as a reader needs.
std::string quantity_words(double quantity, const std::string& unit, job::DisplayUnits units) {
  if (unit == "m" && units == job::DisplayUnits::us) return fmt::format("{:.0f} ft", quantity / units::m_per_ft);
  const bool whole = std::abs(quantity - std::round(quantity)) < 1e-9;
  std::string number = whole ? fmt::format("{:.0f}", quantity) : fmt::format("{:.2f}", quantity);
  return unit == "m" || unit == "h" || unit == "%" ? number + " " + unit : number;
}

bool is_counted(const PriceLine& line) { return line.unit == "piece" || line.unit == "trip"; }

bool is_lump(const PriceLine& line) { return line.unit == "lump"; }

std::string reason_of(const PriceLine* before, const PriceLine* after, std::int64_t moved_minor,
                      const std::string& currency, job::DisplayUnits units) {
  const std::string moved = signed_money(moved_minor, currency);
  const PriceLine& line = after ? *after : *before;
  if (!before && is_lump(line)) return fmt::format("{}: new: {}.", line.text, moved);
  if (!before)
    return fmt::format("{}: new, {}: {}.", line.text, quantity_words(line.quantity, line.unit, units), moved);
  if (!after) return fmt::format("{}: no longer in it: {}.", line.text, moved);
  if (line.group == PriceGroup::tax && before->quantity == after->quantity) {
    return fmt::format("{} follows the price: {}.", line.text, moved);
  }
  const double more = after->quantity - before->quantity;
  if (std::abs(more) > 1e-9 && !is_lump(line)) {
    const char* than = more > 0 ? "more" : is_counted(line) ? "fewer" : "less";
    return fmt::format("{}: {} {} than before, now {}: {}.", line.text,
                       quantity_words(std::abs(more), line.unit, units), than,
                       quantity_words(after->quantity, line.unit, units), moved);
  }
  return fmt::format("{}: the price of it went {}: {}.", line.text, moved_minor > 0 ? "up" : "down", moved);
}

std::string summary_of(const PriceDifference& difference) {
  const std::string now =
      fmt::format("{} {}", decimal_amount(difference.after_minor, difference.currency), difference.currency);
  if (difference.lines.empty()) return fmt::format("The price has not moved: {}.", now);
  if (difference.moved_minor == 0) return fmt::format("The price stays at {}, though lines of it moved.", now);
  return fmt::format("The price went {} by {} to {}.", difference.moved_minor > 0 ? "up" : "down",
                     decimal_amount(std::abs(difference.moved_minor), difference.currency), now);
}

}  // namespace

PriceDifference price_difference(const Price& before, const Price& after, job::DisplayUnits units) {
  PriceDifference out;
  out.currency = after.currency;
  out.before_minor = before.total_minor;
  out.after_minor = after.total_minor;
  if (before.currency != after.currency) {
    out.problems.push_back({Severity::error, "/site/currency", before.currency, after.currency,
                            fmt::format("One price is in {}, the other in {}: they cannot be compared.",
                                        before.currency, after.currency)});
    return out;
  }
  out.moved_minor = after.total_minor - before.total_minor;
  std::map<std::string, const PriceLine*> earlier;
  for (const PriceLine& line : before.lines) earlier[line.id] = &line;
  const auto add = [&](const PriceLine* was, const PriceLine* is) {
    const std::int64_t was_minor = was ? was->price_minor : 0;
    const std::int64_t is_minor = is ? is->price_minor : 0;
    if (was_minor == is_minor) return;
    const PriceLine& line = is ? *is : *was;
    out.lines.push_back({line.id, line.group, was_minor, is_minor, is_minor - was_minor,
                         reason_of(was, is, is_minor - was_minor, out.currency, units)});
  };
  for (const PriceLine& line : after.lines) {
    const auto found = earlier.find(line.id);
    add(found == earlier.end() ? nullptr : found->second, &line);
    if (found != earlier.end()) earlier.erase(found);
  }
  for (const PriceLine& line : before.lines) {
    if (earlier.contains(line.id)) add(&line, nullptr);
  }
  std::stable_sort(out.lines.begin(), out.lines.end(), [](const LineDifference& p, const LineDifference& q) {
    return std::abs(p.moved_minor) > std::abs(q.moved_minor);
  });
  out.summary = summary_of(out);
  return out;
}

}  // namespace duskwire::estimate
