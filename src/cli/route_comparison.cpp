// SPDX-License-Identifier: Apache-2.0
#include "cli/route_comparison.hpp"

#include <fmt/format.h>

#include <cmath>
#include <functional>

#include "cli/quantity.hpp"
#include "cli/table.hpp"

namespace duskwire::cli {
namespace {

using study::RouteFigures;

// One line: how a figure reads, and where a change of it says something, the number behind it.
struct Line {
  std::string name;
  std::function<std::string(const RouteFigures&)> text;
  std::function<double(const RouteFigures&)> value = {};
  bool is_count = false;  // the change as a number, not as a share
};

std::string at_lamp(double value_v, const std::string& lamp) {
  return lamp.empty() ? "-" : fmt::format("{} at {}", volts(value_v), lamp);
}

std::string growth(const RouteFigures& figures) {
  if (figures.lowest_lamp.empty()) return "-";
  return figures.load_margin > 0 ? percent(figures.load_margin - 1) : "not at all";
}

std::string state(const RouteFigures& figures) {
  if (!figures.wired) return "not wired";
  return figures.sound ? "sound" : fmt::format("{} error{}", figures.errors, figures.errors == 1 ? "" : "s");
}

std::vector<Line> lines(const std::string& currency, const TextStyle& style) {
  const auto paid = [currency](std::int64_t minor) { return money(minor, currency); };
  const auto metres = [&style](double value_m) { return length(value_m, style); };
  return {
      {"cost, put in", [=](const RouteFigures& f) { return paid(f.cost.cost_minor); },
       [](const RouteFigures& f) { return static_cast<double>(f.cost.cost_minor); }},
      {"of it material", [=](const RouteFigures& f) { return paid(f.cost.material_minor); },
       [](const RouteFigures& f) { return static_cast<double>(f.cost.material_minor); }},
      {"hours", [](const RouteFigures& f) { return number(f.cost.labour_min / 60, 1) + " h"; },
       [](const RouteFigures& f) { return f.cost.labour_min; }},
      {"of it trench", [](const RouteFigures& f) { return number(f.cost.trench_min / 60, 1) + " h"; },
       [](const RouteFigures& f) { return f.cost.trench_min; }},
      {"dug", [=](const RouteFigures& f) { return metres(f.cost.trench_m); },
       [](const RouteFigures& f) { return f.cost.trench_m; }},
      {"cable", [=](const RouteFigures& f) { return metres(f.cost.cable_m); },
       [](const RouteFigures& f) { return f.cost.cable_m; }},
      {"kinds of cable", [](const RouteFigures& f) { return std::to_string(f.cost.cable_types); },
       [](const RouteFigures& f) { return f.cost.cable_types; }, true},
      {"joints", [](const RouteFigures& f) { return std::to_string(f.cost.joints); },
       [](const RouteFigures& f) { return f.cost.joints; }, true},
      {"transformers", [](const RouteFigures& f) { return std::to_string(f.transformers); },
       [](const RouteFigures& f) { return f.transformers; }, true},
      {"outputs in use", [](const RouteFigures& f) { return std::to_string(f.outputs); },
       [](const RouteFigures& f) { return f.outputs; }, true},
      {"load at worst",
       [](const RouteFigures& f) {
         return fmt::format("{} of {}", volt_amperes(f.load_va), volt_amperes(f.rating_va));
       }},
      {"lowest at worst", [](const RouteFigures& f) { return at_lamp(f.lowest_v, f.lowest_lamp); }},
      {"least room in a window", [](const RouteFigures& f) { return at_lamp(f.least_room_v, f.least_room_lamp); }},
      {"loads could grow by", growth},
      {"state", state},
  };
}

std::string change_text(const Line& line, const RouteFigures& today, const RouteFigures& planned) {
  if (!line.value) return "";
  const double from = line.value(today);
  const double change = line.value(planned) - from;
  if (line.is_count) return change == 0 ? "" : fmt::format("{:+.0f}", change);
  if (!(from > 0)) return "";
  const double share_pct = std::round(100 * change / from);
  return share_pct == 0 ? "" : fmt::format("{:+.0f} %", share_pct);
}

Ink ink_of(const RouteFigures& figures, const Line& line) {
  if (line.name != "state") return Ink::plain;
  return figures.sound ? Ink::good : Ink::bad;
}

}  // namespace

std::string comparison(const study::RouteAnswer& answer, const std::string& currency, const TextStyle& style) {
  std::vector<Column> columns = {{""}, {"today", Align::right}};
  if (answer.job) {
    columns.push_back({"planned", Align::right});
    columns.push_back({"change", Align::right});
  }
  Table table(columns);
  for (const Line& line : lines(currency, style)) {
    Row row = {{line.name}, {line.text(answer.today), ink_of(answer.today, line)}};
    if (answer.job) {
      row.push_back({line.text(answer.planned), ink_of(answer.planned, line)});
      row.push_back({answer.today.wired ? change_text(line, answer.today, answer.planned) : ""});
    }
    table.add(row);
  }
  return table.text(style);
}

}  // namespace duskwire::cli
